/** A small system for the tests of the pane, made by the generator, and the same with a chamber pinned wrong. */
import { depthSetOf } from '../../src/keying/depthSet.ts';
import { evenTree, generateSystem, type SystemRequest } from '../../src/keying/hierarchy.ts';
import { starterSpec } from '../../src/keying/starters.ts';
import { runToEnd, type KeySystem } from '../../src/keying/system.ts';

const request: SystemRequest = {
  name: 'Elm School',
  spec: starterSpec('S-018-6')!,
  levels: 3,
  grands: evenTree(3, { masters: 2, changeKeys: 3 }),
};

const made = runToEnd(generateSystem(request));
if (!made.ok) throw new Error('the small system no longer fits');

export const whole = { request, system: made.system, marks: made.marks };

const [first, ...others] = made.system.cylinders;
const change = made.system.keys.find((key) => key.symbol === 'AA1')!;
const chamber: KeySystem = {
  ...made.system,
  cylinders: [
    {
      ...first!,
      // every depth but that of the change key
      chambers: first!.chambers.map((set, i) =>
        i === 5
          ? depthSetOf(made.system.spec.depths.map((_, d) => d).filter((d) => d !== change.bitting[5]))
          : set,
      ),
    },
    ...others,
  ],
};
export const without = { chamber };
