import './office.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS as F } from '../../functions/functions.ts';
import { bittingOf, formatBitting } from '../../src/keying/bitting.ts';
import { formatDepthSet } from '../../src/keying/chamberText.ts';
import { operates } from '../../src/keying/cylinder.ts';
import { depthSetOf, EVERY } from '../../src/keying/depthSet.ts';
import { severityOf } from '../../src/keying/findings.ts';
import { checkBitting } from '../../src/keying/rules.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { STARTER_SPECS } from '../../src/keying/starters.ts';
import { toUnit } from '../../src/keying/units.ts';
import { specsRange } from './tables.ts';

const anySpec = fc.constantFrom(...STARTER_SPECS);
const cutsOf = (spec: Specification) =>
  fc
    .array(fc.nat(spec.depths.length - 1), { minLength: positions(spec), maxLength: positions(spec) })
    .map((indices) => bittingOf(spec, indices));
const specAndKey = anySpec.chain((spec) => cutsOf(spec).map((cuts) => ({ spec, cuts })));
const chamberOf = (spec: Specification) =>
  fc.oneof(
    {
      weight: 6,
      arbitrary: fc
        .subarray(
          spec.depths.map((_, i) => i),
          { minLength: 1 },
        )
        .map(depthSetOf),
    },
    { weight: 1, arbitrary: fc.constant(EVERY) },
  );

describe('worksheet functions and the keying room', () => {
  it('agree on which codes are good, in a cell and in a column', () => {
    fc.assert(
      fc.property(specAndKey, ({ spec, cuts }) => {
        const good = checkBitting(spec, cuts).every((f) => severityOf(f) === 'warning');
        const code = formatBitting(spec, cuts);
        expect(F.CHECK(code, spec.name)).toBe(good);
        expect(F.CHECKS([[code], [code]], spec.name)).toEqual([[good], [good]]);
        expect(F.WHYS([[code]], spec.name)).toEqual([[F.WHY(code, spec.name)]]);
        expect(F.WHY(code, spec.name).startsWith('OK')).toBe(good);
      }),
    );
  });

  it('read back what they write', () => {
    fc.assert(
      fc.property(specAndKey, fc.constantFrom(' ', '-', '/'), ({ spec, cuts }, separator) => {
        const code = formatBitting(spec, cuts);
        expect(F.BITTING([...code].join(separator), spec.name)).toBe(code);
        expect(F.DECODE(F.ROOTDEPTHS(code, spec.name), spec.name)).toBe(code);
        expect(F.DECODEWHY(F.ROOTDEPTHS(code, spec.name), spec.name)).toBe('OK');
      }),
    );
  });

  it('put every cut where its position says', () => {
    fc.assert(
      fc.property(specAndKey, ({ spec, cuts }) => {
        const code = formatBitting(spec, cuts);
        const roots = F.ROOTDEPTHS(code, spec.name)[0]!;
        const [centres] = F.CUTCENTRES(spec.name);
        const [, ...list] = F.CUTLIST(code, spec.name);
        list.forEach(([position, place, depth, centre, root]) => {
          expect(centre).toBe(F.CUTCENTRE(position, spec.name));
          expect(centre).toBe(centres![(position as number) - 1]);
          expect(centre).toBe(toUnit(spec.centres[(position as number) - 1]!, spec.unit));
          expect(root).toBe(roots[(place as number) - 1]);
          expect(root).toBe(F.ROOTDEPTH(depth, spec.name));
        });
      }),
    );
  });

  it('agree on what operates what', () => {
    const cases = anySpec.chain((spec) =>
      fc.record({
        spec: fc.constant(spec),
        cuts: cutsOf(spec),
        chambers: fc.array(chamberOf(spec), { minLength: positions(spec), maxLength: positions(spec) }),
      }),
    );
    fc.assert(
      fc.property(cases, ({ spec, cuts, chambers }) => {
        const cells = [chambers.map((set) => formatDepthSet(spec, set))];
        const code = formatBitting(spec, cuts);
        const turns = operates(chambers, cuts);
        expect(F.OPERATES(code, cells, spec.name)).toBe(turns);
        expect(F.OPERATESWHY(code, cells, spec.name) === 'operates').toBe(turns);
        expect(F.OPERATINGCOUNT(cells, spec.name)).toBeGreaterThanOrEqual(turns ? 1 : 0);
      }),
    );
  });

  it('never sum to another stack than the target', () => {
    const plain = STARTER_SPECS.filter((s) => s.targetStack !== undefined);
    const cases = fc
      .constantFrom(...plain)
      .chain((spec) => chamberOf(spec).map((set) => ({ spec, depths: formatDepthSet(spec, set) })));
    fc.assert(
      fc.property(cases, ({ spec, depths }) => {
        fc.pre(depths !== 'any');
        const part = (name: string) => F.PINSTACK(depths, spec.name, undefined, name);
        const masters = depths
          .split(' ')
          .slice(1)
          .map((_, i) => part(`master ${i + 1}`));
        const sum = [part('bottom'), ...masters, part('top')].reduce<number>((s, n) => s + Number(n), 0);
        expect(sum).toBeCloseTo(toUnit(spec.targetStack!, spec.unit), 9);
      }),
    );
  });
});

describe('a sheet of 100,000 rows', () => {
  const rows = 100_000;
  const codes = Array.from({ length: rows }, (_, i) => String(i * 7).padStart(6, '0'));

  it('is filled row by row, the table of specs handed over anew each time', { timeout: 120_000 }, () => {
    let good = 0;
    const table = specsRange();
    const filled = Array.from({ length: 20 }, (_, i) => table[1]!.with(0, `Spec ${i}`));
    for (const code of codes) {
      const range = [...table, ...filled].map((row) => [...row]);
      if (F.CHECK(code, 'House 6', range) === true) good++;
    }
    const column = F.CHECKS(
      codes.map((c) => [c]),
      'House 6',
      table,
    );
    expect(column.length).toBe(rows);
    expect(column.flat().filter((cell) => cell === true).length).toBe(good);
    expect(good).toBeGreaterThan(1000);
  });

  it('finds what stands there twice', { timeout: 120_000 }, () => {
    const column = [...codes, codes[500]!].map((c) => [c]);
    const found = F.WHYS(column, 'House 6', specsRange(), null, true).flat() as string[];
    expect(found.filter((words) => words.includes('same bitting'))).toHaveLength(2);
  });
});
