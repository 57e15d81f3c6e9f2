import { describe, expect, it } from 'vitest';
import { STARTER_SPECS, starterSpec } from '../../src/keying/starters.ts';
import { inches, millimetres } from '../../src/keying/units.ts';
import { compareSpecs } from '../../taskpane/specs/compareSpecs.ts';

const six = starterSpec('S-018-6')!;
const row = (specs: Parameters<typeof compareSpecs>[0], label: string) =>
  compareSpecs(specs).find((each) => each.label === label);
const differing = (specs: Parameters<typeof compareSpecs>[0]) =>
  compareSpecs(specs)
    .filter((each) => each.differs)
    .map((each) => each.label);

describe('specs side by side', () => {
  it.each(STARTER_SPECS.map((spec) => [spec.name, spec] as const))(
    'finds no difference between %s and itself under another name',
    (_, spec) => {
      expect(differing([spec, { ...spec, name: 'OTHER' }])).toEqual([]);
    },
  );

  it('marks what differs and what follows from it', () => {
    // at 90° a flat wider by 0.018 in costs just one step of 0.018 in: eaten = 0.018 n + W − 0.156 in
    expect(differing([six, { ...six, rootWidth: inches(0.072) }])).toEqual([
      'Root width',
      'MACS by geometry',
    ]);
    expect(row([six, { ...six, rootWidth: inches(0.072) }], 'MACS by geometry')).toEqual({
      label: 'MACS by geometry',
      values: ['5 steps', '4 steps'],
      differs: true,
    });
  });

  it('compares lengths, not how they are written', () => {
    // 25.4 mm to the inch, exactly (ISO 80000-3)
    const metric = { ...six, unit: 'mm' as const, rootWidth: millimetres(1.3716) };
    expect(differing([six, metric])).toEqual([]);
    expect(row([six, metric], 'Root width')!.values).toEqual(['0.054 in', '1.37 mm']);
  });

  it('shows what only one of three has', () => {
    const [core] = STARTER_SPECS.filter((spec) => spec.core);
    const found = row([six, core!, six], 'Core')!;
    expect(found.differs).toBe(true);
    expect(found.values[0]).toBe('–');
    expect(found.values[1]).toMatch(/^total \d+/);
  });
});
