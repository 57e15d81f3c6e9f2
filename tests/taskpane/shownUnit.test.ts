/**
 * Lengths shown in the other unit, against decimal.js, a general library for decimal arithmetic. An inch is 25.4 mm
 * exactly: the international yard and pound agreement of 1959.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { createElement } from 'react';
import { describe, expect, it } from 'vitest';
import { pinStack } from '../../src/keying/pinning.ts';
import { shownIn } from '../../src/keying/shownIn.ts';
import { sameDimensions } from '../../src/keying/specTable.ts';
import { makeSpecification, type Specification } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { lengthOf, UNITS, type Unit } from '../../src/keying/units.ts';
import { BladePicture } from '../../taskpane/pictures/BladePicture.tsx';
import { MarkList } from '../../taskpane/pictures/MarkList.tsx';
import { PinStackPicture } from '../../taskpane/pictures/PinStackPicture.tsx';
import { ShownUnit } from '../../taskpane/pictures/shownUnit.ts';
import { SpecFacts } from '../../taskpane/specs/SpecFacts.tsx';
import { compareSpecs } from '../../taskpane/specs/compareSpecs.ts';
import { readSpecForm, specForm } from '../../taskpane/specs/specForm.ts';
import { key, starter } from '../support/keys.ts';
import { attributes, render, tableRows } from './pictures/markup.ts';

const NM: Readonly<Record<Unit, Decimal>> = {
  in: new Decimal('25.4').times(1_000_000),
  mm: new Decimal(1_000_000),
};

/** As the pane writes it: hundredths of a millimetre; thousandths of an inch, the fourth digit where it isn't zero. */
function written(nm: number, unit: Unit): string {
  const value = new Decimal(nm).dividedBy(NM[unit]);
  return unit === 'mm'
    ? value.toFixed(2, Decimal.ROUND_HALF_UP)
    : value.toFixed(4, Decimal.ROUND_HALF_UP).replace(/0$/, '');
}

const shownAs = (unit: Unit, children: React.ReactElement): string =>
  render(ShownUnit, { value: unit, children });

const codeOf = (spec: Specification): string =>
  spec.centres.map((_, i) => spec.depths[i % 2]!.symbol).join('-');

const CASES = STARTER_SPECS.flatMap((spec) => UNITS.map((unit) => [spec.name, unit, spec] as const));

describe.each(CASES)('%s in %s', (_, unit, spec) => {
  it('has its blade drawn and listed in that unit, at the same places', () => {
    const bitting = key(spec, codeOf(spec));
    const blade = shownAs(unit, createElement(BladePicture, { spec, bitting }));
    const list = shownAs(unit, createElement(BladePicture, { spec, bitting, asList: true }));
    const cuts = spec.centres.map((centre) => written(centre, unit)).sort();
    expect(
      tableRows(list)
        .map((row) => row[3]!)
        .sort(),
    ).toEqual(cuts);
    expect(new Set(tableRows(list).map((row) => row[4]!))).toEqual(
      new Set([0, 1].map((i) => written(spec.depths[i]!.root, unit))),
    );
    expect(list).toContain(unit === 'in' ? 'lengths in inches' : 'lengths in millimetres');
    const paths = (markup: string) => attributes(markup, 'd').filter((d) => d.length > 40);
    expect(paths(blade)).toEqual(paths(render(BladePicture, { spec, bitting })));
  });

  it('has its facts and its comparison in that unit', () => {
    const facts = shownAs(unit, createElement(SpecFacts, { spec }));
    expect(facts).toContain(`>${written(spec.rootWidth, unit)} ${unit}<`);
    expect(facts).toContain(`± ${written(spec.tolerance, unit)} ${unit}`);
    for (const depth of spec.depths)
      expect(facts).toContain(`${depth.symbol}\u00a0${written(depth.root, unit)}`);
    expect(facts).not.toMatch(unit === 'mm' ? /\d in\b/ : /\d mm\b/);
    const rows = compareSpecs([spec, { ...spec, name: 'OTHER', unit: unit === 'in' ? 'mm' : 'in' }], unit);
    expect(rows.filter((row) => row.differs)).toEqual([]);
    for (const { values } of rows) expect(values[0]).toBe(values[1]);
  });

  it('starts an own spec in that unit without losing a nanometre', () => {
    const form = specForm(shownIn(spec, unit));
    expect(form.Unit).toBe(unit);
    const read = readSpecForm({ ...form, Name: 'SHOP' });
    expect([...read.faults]).toEqual([]);
    expect(sameDimensions({ ...read.spec!, unit: spec.unit }, spec)).toBe(true);
  });
});

it('lists pins in the unit that is shown', () => {
  const spec = starter('S-018-6');
  const chambers = key(spec, '274153').map((depth) => 1 << depth);
  const cylinder = { id: 'C1', chambers } as unknown as Parameters<typeof PinStackPicture>[0]['cylinder'];
  const bottoms = cylinder.chambers.map((set) => pinStack(spec, set)!.bottom.length!);
  for (const unit of UNITS) {
    const rows = tableRows(shownAs(unit, createElement(PinStackPicture, { spec, cylinder, asList: true })));
    expect(rows.map((row) => row[2]!.split(' ')[0])).toEqual(bottoms.map((length) => written(length, unit)));
  }
});

it('says findings in the unit that is shown', () => {
  const by = lengthOf(152_400);
  const finding = { code: 'eaten-flat', first: 1, from: '1', to: '7', by, unit: 'in' } as const;
  const marks = [{ letter: 'a', finding }];
  expect(shownAs('mm', createElement(MarkList, { marks }))).toContain(`eats ${written(by, 'mm')} mm of`);
  expect(render(MarkList, { marks })).toContain(`eats ${written(by, 'in')} in of`);
});

it('keeps every nanometre of any spec that is written in ten-thousandths or micrometres', () => {
  const unit = fc.constantFrom(...UNITS);
  const step = (of: Unit): number => (of === 'in' ? 2540 : 1000);
  fc.assert(
    fc.property(
      unit,
      unit,
      fc.array(fc.integer({ min: 200, max: 3000 }), { minLength: 5, maxLength: 5 }),
      (own, shown, [first, spacing, shallow, gap, width]) => {
        const nm = (n: number) => lengthOf(n * step(own));
        const made = makeSpecification({
          name: 'ANY',
          title: '',
          unit: own,
          gauge: 'shoulder',
          order: 'bow-to-tip',
          positions: 5,
          first: nm(first!),
          spacing: nm(spacing!),
          depths: [0, 1, 2].map((i) => ({ symbol: String(i), root: nm(shallow! + (2 - i) * gap!) })),
          rootWidth: nm(width!),
          angle: 90,
          macs: 2,
          step: 1,
        });
        if (!made.ok) throw new Error(made.error.map((fault) => fault.code).join());
        const read = readSpecForm(specForm(shownIn(made.value, shown)));
        expect(read.spec?.unit).toBe(shown);
        expect(sameDimensions({ ...read.spec!, unit: own }, made.value)).toBe(true);
      },
    ),
  );
});
