/** The cutting sheet, the shop's tables and the reading of a list, through the real front half of Excel's API. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { cuttingLines } from '../../src/keying/cutting.ts';
import { checkList } from '../../src/keying/importCheck.ts';
import { readImport } from '../../src/keying/importRows.ts';
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { inches } from '../../src/keying/units.ts';
import { isDateFormat } from '../../src/workbook/codeRows.ts';
import {
  describePlan,
  knownKeys,
  planCutting,
  planShop,
  readCodeRows,
  readShop,
  undoPlan,
} from '../../src/workbook/index.ts';
import { openBook } from '../support/office.ts';
import { at, MADE, picture, reading, write, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

const ROWS = [
  ['AA1', '2-7-4-1-5-3', '3'],
  ['AA2', '274153', '2'],
  ['AA3', '090909', '1'],
  ['AA4', 'KX 1042', '1'],
  ['AA5', '24153O', 'some'],
];

function lines(rows: readonly (readonly string[])[] = ROWS) {
  const read = runToEnd(readImport({ spec: SPEC, rows, roles: ['mark', 'code', 'quantity'], options: {} }));
  const good = read.filter((row) => row.code.bitting);
  const report = runToEnd(
    checkList({
      spec: SPEC,
      list: good.map((row) => ({ symbol: row.mark, bitting: row.code.bitting! })),
      rules: DEFAULT_RULES,
    }),
  );
  return cuttingLines(
    SPEC,
    read,
    read.map((row) => report.findings[good.indexOf(row)]),
  );
}

describe('the cutting sheet', () => {
  it('has a row a bitting, and drops nothing', async () => {
    const { model } = openBook();
    const plan = planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines() });
    expect(describePlan(plan).sentence).toBe(
      'Adds the sheet Specs with 1 row; adds the sheet Cutting with 4 rows; touches nothing else.',
    );
    await write(plan);
    // a tick from a drop-down; whatever else the shop writes there is no error
    expect(model.sheet('Cutting').layout.validations).toMatchObject([
      {
        type: 'List',
        rule: { list: { inCellDropDown: true, source: '✓ good,✗ recut,proved in the lock' } },
        errorAlert: { showAlert: false },
        areas: [{ row: 4, column: 12, rows: 4, columns: 1 }],
      },
    ]);
    const row = (r: number) => 'ABCDEFGHIJKLM'.split('').map((c) => at(model, 'Cutting', `${c}${r}`));
    expect(row(4)).toEqual([
      'Mark',
      'As it came',
      'Bitting',
      'Blank',
      'Cut 1 at 0.237 in',
      'Cut 2 at 0.393 in',
      'Cut 3 at 0.549 in',
      'Cut 4 at 0.705 in',
      'Cut 5 at 0.861 in',
      'Cut 6 at 1.017 in',
      'Keys',
      'Duplicates',
      'First article',
    ]);
    // root depths: 0.315 in less 0.018 in a step, worked out by hand
    expect(row(5)).toEqual(
      [
        'AA1, AA2',
        '2-7-4-1-5-3, 274153',
        '274153',
        '',
        0.279,
        0.189,
        0.243,
        0.297,
        0.225,
        0.261,
        5,
        4,
        '',
      ].map((v) => (v === '' ? null : v)),
    );
    expect(row(6).slice(0, 3)).toEqual(['AA5', '24153O', '241530']);
    expect(at(model, 'Cutting', 'N6')).toBe(
      '“O” at cut 6 was taken for 0, which it looks like. “some” is no number of keys: fill in how many.',
    );
    // what isn't cut comes last
    expect(row(7).slice(0, 5)).toEqual(['AA3', '090909', null, null, null]);
    expect(at(model, 'Cutting', 'N7')).toMatch(
      /^NOT CUT\. Neighbours lie too far apart at cuts 1 and 2 \(0 and 9, 9 steps\)/,
    );
    expect(row(8).slice(0, 3)).toEqual(['AA4', 'KX 1042', null]);
    expect(at(model, 'Cutting', 'N8')).toContain('None is made up for it.');
    expect(at(model, 'Cutting', 'A2')).toContain('2 originals and 4 duplicates; 2 rows not cut, see Note.');
    expect(at(model, 'Cutting', 'A3')).toContain('flat 0.054 in, 90°: one pass.');
    expect(model.cell('Cutting', 4, 2)?.style?.numberFormat).toBe('@');
  });

  it('prints one page wide with its head on every page', async () => {
    const { model } = openBook();
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines() }));
    const { page } = model.sheet('Cutting').layout;
    expect(page).toMatchObject({ zoom: { horizontalFitToPages: 1 }, orientation: 'landscape' });
    expect(JSON.stringify(page)).toContain('"titleRows":{"start":0,"count":4}');
    expect(model.cell('Cutting', 4, 2)?.style).toMatchObject({ fontSize: 16, bold: true });
    // readings are typed in, not printed; the lines above run over what is printed, mark to note
    expect(at(model, 'Cutting', 'N4')).toBe('Note');
    expect(page.printArea).toMatchObject([{ column: 0, columns: 14 }]);
    expect(model.sheet('Cutting').layout.merges).toEqual(
      [1, 2].map((row) => ({ row, column: 0, rows: 1, columns: 14 })),
    );
  });

  it('gives a second list a sheet of its own, taken back alone', async () => {
    const { model } = openBook();
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines() }));
    const before = picture(model);
    const undo = await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines() }));
    expect(model.sheets.map((s) => s.layout.name)).toEqual(['Sheet1', 'Specs', 'Cutting', 'Cutting 2']);
    expect(model.table('KeyrowCutting2').area.rows).toBe(5);
    expect(await undoPlan(undo)).toMatchObject({ outcome: 'done' });
    expect(picture(model)).toEqual(before);
  });

  it('says what the cutter at hand does, and how the key is held', async () => {
    const { model } = openBook();
    const cutter = { name: 'Narrow', flat: inches(0.035), angle: 90 };
    const setup = { spec: SPEC.name, hold: 'left jaw', stop: 'shoulder' };
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines(), cutter, setup }));
    // (0.054 − 0.035) ÷ 2 = 0.0095, worked out by hand
    expect(at(model, 'Cutting', 'A3')).toContain(
      'Cutter Narrow, flat 0.035 in, 90°: 2 passes at -0.0095 and 0.0095. Held: left jaw. Stopped: shoulder.',
    );
  });

  it('says which bittings the cutter at hand can’t cut clean', async () => {
    const { model } = openBook();
    const cutter = { name: 'Wide', flat: inches(0.09), angle: 90 };
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines(), cutter }));
    // 274153 has 5 steps at cuts 1 and 2: 5 × 0.018 + (0.09 + 0.054) ÷ 2 − 0.156 = 0.006, by hand; 4 leave a flat
    expect(at(model, 'Cutting', 'N5')).toMatch(
      /^The 2 and 7 at cuts 1 and 2 meet: the deeper cut eats 0\.006 in of its neighbour's flat\./,
    );
    // 241530 has 4 at most
    expect(at(model, 'Cutting', 'N8')).not.toContain('flat');
    expect(at(model, 'Cutting', 'A3')).toContain('1 of these bittings eats a flat with it, see Note.');
  });

  it('stands in the unit asked for, readings and judgement too', async () => {
    const { model } = openBook();
    await write(planCutting(await reading(), { ...MADE, spec: SPEC, lines: lines(), unit: 'mm' }));
    const row = (r: number) => 'EFGHIJ'.split('').map((c) => at(model, 'Cutting', `${c}${r}`));
    // decimal.js, a general library: 0.237 in + 0.156 in a cut, 0.315 in less 0.018 in a step, 25.4 mm an inch
    const mm = (inches: Decimal.Value) => new Decimal(inches).times('25.4');
    expect(row(4)).toEqual(
      [0, 1, 2, 3, 4, 5].map((i) => {
        const centre = mm(new Decimal('0.156').times(i).plus('0.237'));
        return `Cut ${i + 1} at ${centre.toFixed(2, Decimal.ROUND_HALF_UP)} mm`;
      }),
    );
    expect(row(5)).toEqual(
      [2, 7, 4, 1, 5, 3].map((n) => mm(new Decimal('0.315').minus(new Decimal('0.018').times(n))).toNumber()),
    );
    expect(at(model, 'Cutting', 'A3')).toContain(
      'root depths and readings in millimetres, tolerance ±0.05 mm.',
    );
    expect(model.cell('Cutting', 4, 20)?.formula).toMatch(/,"S-018-6",KeyrowSpecs\[#All\],"mm"\)$/);
    // the spec itself stays as it is written
    expect((await reading()).specs[0]?.spec?.unit).toBe('in');
  });

  it('refuses an empty list', async () => {
    openBook();
    const plan = planCutting(await reading(), { ...MADE, spec: SPEC, lines: [] });
    expect(plan.conflicts).toHaveLength(1);
  });
});

describe('a list in the sheet', () => {
  it('is read with dates told apart', async () => {
    const { model } = openBook();
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A1:B3').values = [
        ['Mark', 'Code'],
        ['AA1', '11-12-13'],
        ['AA2', "'274153"],
      ];
      sheet.getRange('B2').select();
      await context.sync();
    });
    expect(typeof model.value('Sheet1', 1, 1)).toBe('number');
    const read = await readCodeRows('selection');
    if (!read.ok) throw new Error(read.error.sentence);
    expect(read.value.rows[0]).toEqual(['Mark', 'Code']);
    const cell = read.value.rows[1]?.[1];
    expect(cell).toMatchObject({ serial: model.value('Sheet1', 1, 1) });
    expect(read.value.rows[2]).toEqual(['AA2', '274153']);
  });

  it('tells date formats from others', () => {
    for (const date of ['d-mmm-yy', 'yyyy-mm-dd', 'm/d/yyyy', 'mmm yy', '[$-409]d/m/yy'])
      expect(isDateFormat(date)).toBe(true);
    for (const other of ['General', '@', '0.00', '0.0 "day"', '#,##0', '[Red]0', 'hh:mm'])
      expect(isDateFormat(other)).toBe(false);
  });
});

describe('the shop’s tables', () => {
  it('are added empty and read back', async () => {
    const { model } = openBook();
    await write(planShop(await reading()));
    expect(model.tables.map((t) => t.name)).toEqual([
      'KeyrowCutters',
      'KeyrowSetups',
      'KeyrowBlanks',
      'KeyrowPins',
    ]);
    const none = readShop(await reading());
    expect(none).toMatchObject({ cutters: [], setups: [], blanks: [], pins: [], problems: [] });
    expect(describePlan(planShop(await reading())).sentence).toBe('There is nothing to write.');
  });

  it('give what is sound and report the rest with its cell', async () => {
    openBook();
    await write(planShop(await reading()));
    await Excel.run(async (context) => {
      const put = (sheet: string, address: string, values: (string | number)[][]): void => {
        context.workbook.worksheets.getItem(sheet).getRange(address).values = values;
      };
      put('Cutters', 'A5:D5', [['Wheel', 0.04, 90, 'in']]);
      put('Setups', 'A5:D5', [['S-018-6', 'Wheel', 'left jaw', 'shoulder']]);
      put('Blanks', 'A5:D5', [['B1', 'K1, K2', 6, 'B9']]);
      put('Pins', 'A5:E5', [['red', 'bottom', '2.90', 'mm', 100]]);
      for (const [name, address, values] of [
        ['Cutters', 'A6:D6', [['Odd', 'wide', 200, 'in']]],
        ['Pins', 'A6:D6', [['', 'middle', 0.1, 'in']]],
      ] as const) {
        put(
          name,
          address,
          values.map((row) => [...row]),
        );
        const table = context.workbook.tables.getItem(`Keyrow${name}`);
        table.resize(table.getRange().getResizedRange(1, 0));
      }
      await context.sync();
    });
    const shop = readShop(await reading());
    expect(shop.cutters).toEqual([{ name: 'Wheel', flat: inches(0.04), angle: 90 }]);
    expect(shop.setups).toEqual([{ spec: 'S-018-6', cutter: 'Wheel', hold: 'left jaw', stop: 'shoulder' }]);
    expect(shop.blanks).toEqual([{ name: 'B1', keyways: ['K1', 'K2'], cuts: 6, equivalents: ['B9'] }]);
    expect(shop.pins).toEqual([{ name: 'red', kind: 'bottom', length: 2_900_000, stock: 100 }]);
    expect(shop.problems.map((p) => `${p.sheet}!${p.address} ${p.sentence}`)).toEqual([
      'Cutters!C6 “200” is no included angle. Type degrees, more than 0 and less than 180.',
      'Cutters!B6 “wide” is no flat. Type a length of more than zero, such as 0.054.',
      'Pins!B6 “middle” is none of bottom, master, build-up, top, any.',
    ]);
  });
});

describe('knownKeys', () => {
  it('holds a list against the keys and cylinders of a system', async () => {
    openBook();
    await writeSystem(school());
    const system = (await reading()).systems[0]!;
    const known = knownKeys(system);
    expect(known.keys).toHaveLength(7);
    expect(known.keys.filter((k) => k.master).map((k) => k.symbol)).toEqual(['A', 'AA', 'AB']);
    expect(known.master?.symbol).toBe('A');
    const list = [{ symbol: 'new', bitting: school().system.keys[3]!.bitting }];
    const report = runToEnd(checkList({ spec: SPEC, list, rules: DEFAULT_RULES, known }));
    expect(report.findings[0]!.map((f) => f.code)).toEqual(
      expect.arrayContaining(['already-used', 'operates-existing']),
    );
    expect(report.notChecked).toEqual([]);
  });
});
