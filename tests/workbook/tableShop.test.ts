/** The shop's own tables, cell by cell: what each row gives, and what is said of a cell that gives nothing. */
import { describe, expect, it } from 'vitest';
import { inches, millimetres } from '../../src/keying/units.ts';
import type { TableReading } from '../../src/workbook/reading.ts';
import { readShop } from '../../src/workbook/tableShop.ts';
import { bookOf, tableOf, told } from './byHand.ts';

const shop = (...tables: readonly TableReading[]) => readShop(bookOf(...tables));

describe('the shop’s tables', () => {
  it('are none in a book without them, and only those that are there count as present', () => {
    expect(shop()).toStrictEqual({
      cutters: [],
      setups: [],
      blanks: [],
      pins: [],
      problems: [],
      present: [],
    });
    const pins = tableOf('KEYROWPINS', 'Pins', [['Pin', 'Length']]);
    const setups = tableOf('KeyrowSetups', 'Setups', [['Spec']]);
    expect(shop(pins, setups).present).toStrictEqual(['Setups', 'Pins']);
  });

  it('are not read where a needed column is gone', () => {
    const read = shop(
      tableOf('KeyrowPins', 'Pins', [
        ['Pin', 'Long'],
        ['P1', 0.1],
      ]),
    );
    expect(read.pins).toStrictEqual([]);
    expect(read.present).toStrictEqual(['Pins']);
    expect(told(read.problems)).toStrictEqual([
      'fault Pins!B4 The table KeyrowPins has no column “Length”. Add it, or give the renamed column its name back.',
    ]);
  });

  it('give cutters their flat in the row’s unit, inches where none is named', () => {
    const { cutters, problems } = shop(
      tableOf('KeyrowCutters', 'Cutters', [
        ['Cutter', 'Flat', 'Angle', 'Unit'],
        ['Wheel', 0.054, 90, ''],
        ['Fine', '1,2', ' 87,5° ', 'MM'],
        ['Mixed', '1.2 mm', '100', 'inch'],
        ['Marked', 0.05, 179.5, '"'],
        ['Thin', 0.05, 0.5, 'in'],
      ]),
    );
    expect(problems).toStrictEqual([]);
    expect(cutters).toStrictEqual([
      { name: 'Wheel', flat: inches(0.054), angle: 90 },
      { name: 'Fine', flat: millimetres(1.2), angle: 87.5 },
      { name: 'Mixed', flat: millimetres(1.2), angle: 100 },
      { name: 'Marked', flat: inches(0.05), angle: 179.5 },
      { name: 'Thin', flat: inches(0.05), angle: 0.5 },
    ]);
  });

  it('leave out a cutter with a fault, and say which cell it is', () => {
    const { cutters, problems } = shop(
      tableOf('KeyrowCutters', 'Cutters', [
        ['Cutter', 'Flat', 'Angle', 'Unit'],
        ['', 0.054, 90, ''],
        ['No flat', ' ', 90, ''],
        ['Nothing', 0, 90, ''],
        ['Less', -1, 90, ''],
        ['Odd', true, 90, ''],
        ['Words', 'wide', 90, ''],
        ['Flat angle', 0.05, 180, ''],
        ['No angle', 0.05, 0, ''],
        ['Blank angle', 0.05, '', ''],
        ['Yes angle', 0.05, true, ''],
        ['Unit', 0.05, 90, 'ell'],
      ]),
    );
    const angle = (v: string): string =>
      `“${v}” is no included angle. Type degrees, more than 0 and less than 180.`;
    const flat = (v: string): string => `“${v}” is no flat. Type a length of more than zero, such as 0.054.`;
    expect(told(problems).sort()).toStrictEqual(
      [
        'fault Cutters!B5 There is no name of a cutter here. Type one, or clear the whole row.',
        'fault Cutters!C6 There is no flat here. Type a length, such as 0.054.',
        `fault Cutters!C7 ${flat('0')}`,
        `fault Cutters!C8 ${flat('-1')}`,
        `fault Cutters!C9 ${flat('true')}`,
        `fault Cutters!C10 ${flat('wide')}`,
        `fault Cutters!D11 ${angle('180')}`,
        `fault Cutters!D12 ${angle('0')}`,
        `fault Cutters!D13 ${angle('')}`,
        `fault Cutters!D14 ${angle('true')}`,
        'fault Cutters!E15 “ell” is none of in, mm.',
      ].sort(),
    );
    // not even the one of a unit that can't be read: 1.2 cm are no 1.2 in
    expect(cutters).toStrictEqual([]);
  });

  it('give set-ups what is typed, and only that', () => {
    const { setups, problems } = shop(
      tableOf('KeyrowSetups', 'Setups', [
        ['Spec', 'Cutter', 'Held', 'Stopped', 'Note'],
        ['S1', 'Wheel', 'jaw A', 'shoulder', 'mind the tip'],
        ['S2'],
        ['', 'Wheel'],
      ]),
    );
    expect(setups).toStrictEqual([
      { spec: 'S1', cutter: 'Wheel', hold: 'jaw A', stop: 'shoulder', note: 'mind the tip' },
      { spec: 'S2', hold: '', stop: '' },
    ]);
    expect(told(problems)).toStrictEqual([
      'fault Setups!B7 There is no spec here. Type one, or clear the whole row.',
    ]);
    // columns that may be gone
    expect(shop(tableOf('KeyrowSetups', 'Setups', [['Spec'], ['S1']])).setups).toStrictEqual([
      { spec: 'S1', hold: '', stop: '' },
    ]);
  });

  it('give blanks the keyways that they enter, with commas, semicolons, slashes or lines between', () => {
    const { blanks, problems } = shop(
      tableOf('KeyrowBlanks', 'Blanks', [
        ['Blank', 'Keyways', 'Cuts', 'Equivalents'],
        ['B1', 'K1, K2;K3/K4\nK5,, ', 5, 'B2'],
        ['B2', '', '', ''],
        ['B3', 'K one', 0, ''],
        ['', 'K1', 5, ''],
      ]),
    );
    expect(blanks).toStrictEqual([
      { name: 'B1', keyways: ['K1', 'K2', 'K3', 'K4', 'K5'], cuts: 5, equivalents: ['B2'] },
      { name: 'B2', keyways: [], equivalents: [] },
      { name: 'B3', keyways: ['K one'], equivalents: [] },
    ]);
    expect(told(problems)).toStrictEqual([
      'fault Blanks!D7 “0” is not a whole number from 1 on.',
      'fault Blanks!B8 There is no name of a blank here. Type one, or clear the whole row.',
    ]);
    const few = tableOf('KeyrowBlanks', 'Blanks', [
      ['Blank', 'Keyways'],
      ['B1', 'K1'],
    ]);
    expect(shop(few).blanks).toStrictEqual([{ name: 'B1', keyways: ['K1'], equivalents: [] }]);
  });

  it('give pins their kind in the words of the trade, any where none is typed', () => {
    const { pins, problems } = shop(
      tableOf('KeyrowPins', 'Pins', [
        ['Pin', 'Kind', 'Length', 'Unit', 'In stock'],
        ['B', 'Bottom', 0.1, '', 0],
        ['M', 'master', '2', 'mm', 40],
        ['U', 'build-up', 0.1, '', ''],
        ['V', 'Build up', 0.1, '', ''],
        ['C', 'control', 0.1, '', ''],
        ['T', 'top', 0.1, '', ''],
        ['A', 'any', 0.1, '', ''],
        ['', '', 0.1, '', ''],
        ['X', 'side', 0.1, '', ''],
        ['Y', 'top', '', '', ''],
        ['Z', 'top', 0.1, '', -1],
      ]),
    );
    const length = inches(0.1);
    expect(pins).toStrictEqual([
      { name: 'B', kind: 'bottom', length, stock: 0 },
      { name: 'M', kind: 'master', length: millimetres(2), stock: 40 },
      { name: 'U', kind: 'build-up', length },
      { name: 'V', kind: 'build-up', length },
      { name: 'C', kind: 'build-up', length },
      { name: 'T', kind: 'top', length },
      { name: 'A', kind: 'any', length },
      { name: '', kind: 'any', length },
      { name: 'Z', kind: 'top', length },
    ]);
    expect(told(problems)).toStrictEqual([
      'fault Pins!C13 “side” is none of bottom, master, build-up, top, any.',
      'fault Pins!F15 “-1” is not a whole number from 0 on.',
      'fault Pins!D14 There is no length of a pin here. Type a length, such as 0.054.',
    ]);
  });

  it('read a column that is not there as blank cells, and leave out a pin of no unit', () => {
    const few = shop(tableOf('KeyrowPins', 'Pins', [['Length'], [0.1]]));
    expect(few).toMatchObject({ pins: [{ name: '', kind: 'any', length: inches(0.1) }], problems: [] });
    const wheel = tableOf('KeyrowCutters', 'Cutters', [
      ['Cutter', 'Flat', 'Angle'],
      ['Wheel', 0.05, 90],
    ]);
    expect(shop(wheel).cutters).toStrictEqual([{ name: 'Wheel', flat: inches(0.05), angle: 90 }]);
    const odd = shop(
      tableOf('KeyrowPins', 'Pins', [
        ['Unit', 'Length'],
        ['ell', 0.1],
      ]),
    );
    expect(odd.pins).toStrictEqual([]);
    expect(told(odd.problems)).toStrictEqual(['fault Pins!B5 “ell” is none of in, mm.']);
  });
});
