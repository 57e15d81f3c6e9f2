import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bladeTop,
  checkBitting,
  inches,
  STARTER_SPECS,
  type Specification,
} from '../../../src/keying/index.ts';
import { BladePicture } from '../../../taskpane/pictures/BladePicture.tsx';
import { layOutBlade } from '../../../taskpane/pictures/bladeLayout.ts';
import { bladeMarks } from '../../../taskpane/pictures/bladeMarks.ts';
import { keysArbitrary } from '../../support/keyingArbitraries.ts';
import { key, starter } from '../../support/keys.ts';
import { attributes, drawnTexts, render, tableRows } from './markup.ts';

const spec = starter('S-018-6');
const bitting = key(spec, '274153');
const NM_PER_INCH = 25_400_000; // international inch, ISO 80000-3

describe('the blade to scale', () => {
  it('puts centres and root depths where the spec’s numbers say, at one scale', () => {
    // by hand from the spec: centres 0.237 + 0.156 k, roots 0.315 − 0.018 n
    const centres = [0.237, 0.393, 0.549, 0.705, 0.861, 1.017];
    const roots = [0.279, 0.189, 0.243, 0.297, 0.225, 0.261];
    const layout = layOutBlade(spec, bitting, 318, { top: 40 });
    const perInch = layout.scale * NM_PER_INCH;
    layout.cuts.forEach((cut, i) => {
      expect((cut.x - layout.stopX) / perInch).toBeCloseTo(centres[i]!, 9);
      expect((layout.bottom - cut.rootY) / perInch).toBeCloseTo(roots[i]!, 9);
    });
    expect((layout.bottom - layout.top) / perInch).toBeCloseTo(0.335, 9);
  });

  it('draws the flat of the root and its flanks at half the included angle', () => {
    const layout = layOutBlade(spec, bitting, 318, { top: 40 });
    const { x, rootY } = layout.cuts[1]!;
    const flat = layout.edge.filter((p) => Math.abs(p.y - rootY) < 1e-6);
    expect((flat[1]!.x - flat[0]!.x) / layout.scale).toBeCloseTo(inches(0.054), -1);
    expect((flat[0]!.x + flat[1]!.x) / 2).toBeCloseTo(x, 6);
    const before = layout.edge[layout.edge.indexOf(flat[0]!) - 1]!;
    // 90° included: 45° from the vertical, so as far across as up
    expect((flat[0]!.x - before.x) / (rootY - before.y)).toBeCloseTo(1, 4);
  });

  it('mirrors a key that is measured from the tip', () => {
    const core = starter('T-0125-7');
    const layout = layOutBlade(core, key(core, '0123456'), 318, { top: 40 });
    const perInch = layout.scale * NM_PER_INCH;
    // nearest the tip, hence rightmost: position 1 at 0.080 in, which the code's first symbol stands for
    const last = layout.cuts[6]!;
    expect((layout.stopX - last.x) / perInch).toBeCloseTo(0.08, 9);
    expect(last).toMatchObject({ position: 1, symbolNumber: 1, symbol: '0' });
    expect(layout.cuts.map((c) => c.position)).toEqual([7, 6, 5, 4, 3, 2, 1]);
  });

  it('stays inside its width and keeps numbers that share a row apart', () => {
    fc.assert(
      fc.property(keysArbitrary(), fc.integer({ min: 300, max: 560 }), ({ spec, bittings }, width) => {
        const layout = layOutBlade(spec, bittings[0]!, width, { top: 40 });
        for (const p of layout.edge) expect(p.x).toBeLessThanOrEqual(width);
        expect(layout.cuts[0]!.x).toBeGreaterThanOrEqual(58 + 16 - 1e-6);
        expect(layout.bottom - layout.top).toBeCloseTo(bladeTop(spec) * layout.scale, 6);
        layout.cuts.slice(1).forEach((cut, i) => {
          const before = layout.cuts[i]!;
          expect(cut.x).toBeGreaterThan(before.x);
          const widest = Math.max(cut.rootText.length, before.rootText.length) * 6.2;
          if (layout.numbersFit) expect(cut.x - before.x).toBeGreaterThanOrEqual(widest);
        });
      }),
      { numRuns: 200 },
    );
  });
});

describe('what is written at the blade', () => {
  const markup = render(BladePicture, { spec, bitting, symbol: 'AA1' });

  it('has symbols, both counts, centres and roots in the spec’s unit', () => {
    const texts = drawnTexts(markup);
    expect(texts.filter((t) => /^\d$/.test(t)).join('')).toContain('274153');
    for (const t of ['0.237', '1.017', '0.279', '0.189', 'in', 'shoulder', 'read from bow to tip'])
      expect(texts).toContain(t);
    expect(attributes(markup, 'data-root')).toEqual(['0.279', '0.189', '0.243', '0.297', '0.225', '0.261']);
    expect(attributes(markup, 'data-stop')).toEqual(['shoulder']);
  });

  it('says the same in its text twin', () => {
    expect(tableRows(markup)).toEqual([
      ['1', '1', '2', '0.237', '0.279'],
      ['2', '2', '7', '0.393', '0.189'],
      ['3', '3', '4', '0.549', '0.243'],
      ['4', '4', '1', '0.705', '0.297'],
      ['5', '5', '5', '0.861', '0.225'],
      ['6', '6', '3', '1.017', '0.261'],
    ]);
    expect(markup).toContain('Show as list');
  });

  it('counts from the stop against the code where the two run apart', () => {
    const metric = starter('M-050-5');
    const rows = tableRows(render(BladePicture, { spec: metric, bitting: key(metric, '76543') }));
    // read from the tip, measured from the shoulder: the first symbol is the fifth cut, at 5.5 + 4 · 4 = 21.5 mm
    expect(rows.map((row) => row.slice(0, 4))).toEqual([
      ['1', '5', '3', '5.50'],
      ['2', '4', '4', '9.50'],
      ['3', '3', '5', '13.50'],
      ['4', '2', '6', '17.50'],
      ['5', '1', '7', '21.50'],
    ]);
  });

  it('shows only text when asked for a list, and can go back', () => {
    const list = render(BladePicture, { spec, bitting, asList: true });
    expect(list).not.toContain('<svg');
    expect(list).toContain('Show as drawing');
    expect(tableRows(list)).toHaveLength(6);
  });

  it('draws every starter spec', () => {
    for (const starterSpec of STARTER_SPECS) {
      const cuts = starterSpec.centres.map((_, i) => i % starterSpec.depths.length);
      const picture = render(BladePicture, { spec: starterSpec, bitting: codeOf(starterSpec, cuts) });
      expect(attributes(picture, 'data-root')).toHaveLength(starterSpec.centres.length);
      expect(picture).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

const codeOf = (of: Specification, cuts: readonly number[]) =>
  key(of, cuts.map((i) => of.depths[i]!.symbol).join('-'));

describe('faults of a blade', () => {
  const faulty = key(spec, '128345');
  const findings = checkBitting(spec, faulty);

  it('marks the pair that breaks MACS by hatching and a letter, and says it once in words', () => {
    const markup = render(BladePicture, { spec, bitting: faulty, findings });
    expect(attributes(markup, 'data-place')).toEqual(['2-3']);
    expect(markup).toMatch(/<path d="[^"]*" fill="url\(#hatch-fault-[\w-]+\)"/);
    expect(attributes(markup, 'data-letters')).toEqual(expect.arrayContaining(['ab', 'a', 'b']));
    expect(markup).toContain('The 2 and 8 at cuts 2 and 3 differ by 6 steps; this spec allows 5.');
  });

  it('adds what the cutter eats unless the findings say it already', () => {
    // 6 steps of 0.018 in at 45°: 0.108 + 0.054 − 0.156 = 0.006 in
    const own = bladeMarks(spec, faulty, findings).map((m) => m.finding.code);
    expect(own).toEqual(['macs', 'eaten-flat']);
    const eaten = bladeMarks(spec, faulty, findings).at(-1)!.finding;
    expect(eaten).toMatchObject({ code: 'eaten-flat', by: inches(0.006) });
    expect(bladeMarks(spec, faulty, [eaten]).map((m) => m.finding.code)).toEqual(['eaten-flat']);
  });

  it('leaves a sound key unmarked', () => {
    const markup = render(BladePicture, { spec, bitting, findings: checkBitting(spec, bitting) });
    expect(attributes(markup, 'data-place')).toEqual([]);
    expect(markup).toContain('Nothing marked.');
  });
});
