/** Specs into their sheet: what is there already is never rewritten. */
import { describe, expect, it } from 'vitest';
import { inches } from '../../src/keying/units.ts';
import type { SpecReading } from '../../src/workbook/index.ts';
import { planSpecs } from '../../src/workbook/planSpecs.ts';
import { EMPTY_BOOK, lineOf, rowsOf } from './plainBook.ts';
import { SPEC, starter } from '../workbook/school.ts';

const OTHER = starter('S-025-5');
const at = { sheet: 'Specs', address: 'A5' };
const planned = (specs: readonly SpecReading[]) =>
  planSpecs({ ...EMPTY_BOOK, specs }, [SPEC, OTHER], { made: '24 Nov 2026' });
const names = (specs: readonly SpecReading[]) => rowsOf(planned(specs), 'Specs').map(([name]) => name);

describe('specs', () => {
  it('are added with the dimensions that they have', () => {
    const plan = planned([]);
    expect(plan.title).toBe('Add specs');
    expect(names([])).toEqual([SPEC.name, OTHER.name]);
    expect(lineOf(plan, 'Specs', 0)).toEqual(['Key bitting specifications']);
    expect(lineOf(plan, 'Specs', 1).join()).toContain('First written 24 Nov 2026. Check every number');
    expect(rowsOf(plan, 'Specs')[0]!.slice(0, 8)).toEqual([
      SPEC.name, SPEC.title, 'in', 'shoulder', 'bow-to-tip', 6, 0.237, 0.156,
    ]); // prettier-ignore
    const layout = plan.steps.find(({ kind }) => kind === 'layout');
    expect(layout).toMatchObject({ layout: { freeze: { columns: 1 } } });
  });

  it('are left alone where they are there, whatever the case of their names', () => {
    expect(names([{ name: 's-018-6', spec: SPEC, at }])).toEqual([OTHER.name]);
    const both = [
      { name: SPEC.name, spec: SPEC, at },
      { name: OTHER.name, spec: OTHER, at },
    ];
    expect(planned(both)).toMatchObject({ steps: [], effects: [], conflicts: [] });
  });

  it('bar the plan where one of the name has other dimensions or can’t be read', () => {
    const other = { ...SPEC, tolerance: inches(0.003) };
    expect(planned([{ name: SPEC.name, spec: other, at }])).toMatchObject({
      steps: [],
      conflicts: [
        { sentence: 'There is a spec S-018-6 with other dimensions. Give the new one another name.', at },
      ],
    });
    expect(planned([{ name: SPEC.name, at }]).conflicts).toEqual([
      { sentence: 'The spec S-018-6 in the sheet can’t be read. Correct it first.', at },
    ]);
  });
});
