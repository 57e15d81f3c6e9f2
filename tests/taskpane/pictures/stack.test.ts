import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { depthSetOf, EVERY } from '../../../src/keying/depthSet.ts';
import { operates, worksControlLine } from '../../../src/keying/index.ts';
import { PinStackPicture } from '../../../taskpane/pictures/PinStackPicture.tsx';
import { stackChambers, stackFindings } from '../../../taskpane/pictures/stackFacts.ts';
import { layOutStack, spread } from '../../../taskpane/pictures/stackLayout.ts';
import { bittingArbitrary } from '../../support/keyingArbitraries.ts';
import { key, starter } from '../../support/keys.ts';
import { attributes, drawnTexts, render, tableRows } from './markup.ts';

const spec = starter('S-018-6');
const core = starter('T-0125-7');
const NM_PER_INCH = 25_400_000; // international inch, ISO 80000-3
const sets = (...chambers: (readonly number[] | 'any')[]) =>
  chambers.map((c) => (c === 'any' ? EVERY : depthSetOf(c)));
const cylinder = { id: '101', chambers: sets([2, 6], [7], [4, 8], [1, 3, 5], [5, 6], 'any') };

describe('pins to scale', () => {
  it('gives each pin the height of its length', () => {
    const layout = layOutStack(spec, stackChambers(spec, cylinder), 318, { top: 40 });
    const inInches = layout.chambers[0]!.pins.map((p) => p.height / layout.scale / NM_PER_INCH);
    // by hand: plug 0.500 − root 0.279 = 0.221; 4 steps of 0.018 = 0.072; 0.500 − 0.221 − 0.072 = 0.207
    expect(inInches[0]).toBeCloseTo(0.221, 9);
    expect(inInches[1]).toBeCloseTo(0.072, 9);
    expect(inInches[2]).toBeCloseTo(0.207, 9);
    expect(layout.chambers[0]!.pins[0]!.top).toBeCloseTo(layout.shearY, 9);
  });

  it('shows a key that operates with no pin across the shear line, and any other with at least one', () => {
    const subset = fc.subarray([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], { minLength: 1, maxLength: 4 });
    const chamber = fc.oneof(
      { weight: 8, arbitrary: subset },
      { weight: 1, arbitrary: fc.constant('any' as const) },
    );
    fc.assert(
      fc.property(
        fc.array(chamber, { minLength: 6, maxLength: 6 }),
        bittingArbitrary(spec),
        fc.boolean(),
        (choices, any, own) => {
          const chambers = sets(...choices);
          const cuts = own
            ? key(spec, choices.map((c, i) => (c === 'any' ? any[i]! : c[any[i]! % c.length]!)).join(''))
            : any;
          const layout = layOutStack(spec, stackChambers(spec, { id: 'C', chambers }), 318, {
            top: 40,
            keyIn: cuts,
          });
          const blocked = layout.chambers.some((c) => c.pins.some((p) => p.blocks));
          expect(blocked).toBe(!operates(chambers, cuts));
        },
      ),
    );
  });

  it('brings the top of every build-up pin to the control line when the control key is in', () => {
    const control = key(core, '4583572');
    const chambers = sets([2, 4], [7], [4, 8], [1, 3], [5], [3, 9], [0, 2]);
    const layout = layOutStack(core, stackChambers(core, { id: 'C', chambers, control }), 318, {
      top: 40,
      keyIn: control,
    });
    expect(worksControlLine(chambers, control, control)).toBe(true);
    for (const { pins } of layout.chambers) {
      const buildUp = pins.find((p) => p.role === 'build-up')!;
      expect(buildUp.top).toBeCloseTo(layout.controlY!, 6);
    }
    // published: the addition of 10 steps of 0.0125 in is 0.125 in (core service manual, section on pinning)
    expect((layout.shearY - layout.controlY!) / layout.scale / NM_PER_INCH).toBeCloseTo(0.125, 9);
  });

  it('moves labels apart and leaves those alone that have room', () => {
    expect(spread([50, 48], 10)).toEqual([54, 44]);
    expect(spread([100, 60, 20], 11)).toEqual([100, 60, 20]);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 40 }), { maxLength: 6 }), (heights) => {
        let y = 200;
        const placed = spread(
          heights.map((h) => (y -= h)),
          11,
        );
        placed.slice(1).forEach((p, i) => expect(placed[i]! - p).toBeGreaterThan(10.5));
      }),
    );
  });
});

describe('what is written at the pins', () => {
  const markup = render(PinStackPicture, { spec, cylinder });

  it('lists lengths and steps of every chamber', () => {
    expect(tableRows(markup)).toEqual([
      ['1', '2 6', '0.221 (2)', '0.072 (4)', '0.207'],
      ['2', '7', '0.311 (7)', '–', '0.189'],
      ['3', '4 8', '0.257 (4)', '0.072 (4)', '0.171'],
      ['4', '1 3 5', '0.203 (1)', '0.036 (2), 0.036 (2)', '0.225'],
      ['5', '5 6', '0.275 (5)', '0.018 (1) thin', '0.207'],
      ['6', 'any (empty)', '–', '–', '–'],
    ]);
    for (const length of ['0.221', '0.072', '0.207', '0.311', '0.018'])
      expect(drawnTexts(markup)).toContain(length);
    expect(drawnTexts(markup)).toContain('shear');
  });

  it('marks the thin pin by hatching, a letter and a sentence', () => {
    expect(attributes(markup, 'data-thin').filter((t) => t === 'true')).toHaveLength(1);
    expect(markup).toMatch(/fill="url\(#hatch-fault-/);
    expect(markup).toContain(
      'A master pin in chamber 5 of cylinder 101 is 1 step; the thinnest allowed is 2.',
    );
  });

  it('names the chamber that blocks the key shown', () => {
    const blocked = render(PinStackPicture, {
      spec,
      cylinder,
      keyIn: { symbol: 'AA3', bitting: key(spec, '274253') },
    });
    expect(blocked).toContain('Shown with AA3 in: chamber 4 blocks.');
    expect(drawnTexts(blocked)).toContain('2 ✕');
  });

  it('draws both lines of a core, whose pins add up to the total', () => {
    const control = key(core, '4583572');
    const chambers = sets([2, 4], [7], [4, 8], [1, 3], [5], [3, 9], [0, 2]);
    const picture = render(PinStackPicture, { spec: core, cylinder: { id: 'C7', chambers, control } });
    expect(attributes(picture, 'data-line')).toEqual(['operating', 'control']);
    // published: 23 steps in all at 0.0125 in (core service manual, section on pinning)
    for (const { pins } of stackChambers(core, { id: 'C7', chambers, control }))
      expect(pins.reduce((sum, p) => sum + p.steps!, 0)).toBe(23);
  });

  it('has no fault where nothing is thin', () => {
    expect(stackFindings(spec, { id: 'C', chambers: sets([2, 6], [1], [3], [4], [5], [6]) })).toEqual([]);
  });
});
