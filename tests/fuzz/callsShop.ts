/** The shop's shelf and bench, cutting sheets, keyways: calls with hostile names and sizes. */
import fc from 'fast-check';
import * as k from '../../src/keying/index.ts';
import type { PinKind, ShopPin } from '../../src/keying/pinKit.ts';
import type { ShopBlank, ShopCutter, ShopSetup } from '../../src/keying/shop.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { any, keys, of, table, withText, type Calls } from './given.ts';
import { text } from './hostile.ts';

const name = fc.oneof(text, fc.constantFrom('K1', 'k1 ', 'B1'));
const names = fc.array(name, { maxLength: 3 });
const cutters: fc.Arbitrary<ShopCutter[]> = fc.array(
  fc.record({
    name,
    flat: fc.integer({ min: 10_000, max: 5_000_000 }).map(k.lengthOf),
    angle: fc.integer({ min: 1, max: 179 }),
  }),
  { maxLength: 3 },
);
const blanks: fc.Arbitrary<ShopBlank[]> = fc.array(
  fc.record(
    { name, keyways: names, equivalents: names, cuts: fc.nat({ max: 9 }) },
    { requiredKeys: ['name', 'keyways', 'equivalents'] },
  ),
  { maxLength: 4 },
);
const setups: fc.Arbitrary<ShopSetup[]> = fc.array(
  fc.record({ spec: name, cutter: name, hold: text, stop: text }),
  { maxLength: 3 },
);
const pins: fc.Arbitrary<ShopPin[]> = fc.array(
  fc.record(
    {
      name,
      kind: fc.constantFrom<PinKind>('bottom', 'master', 'build-up', 'top', 'any'),
      length: any.length,
      stock: fc.nat({ max: 3 }),
    },
    { requiredKeys: ['name', 'kind', 'length'] },
  ),
  { maxLength: 5 },
);
const stacks = fc
  .tuple(keys, pins)
  .map(([{ spec, chambers }, kit]) => chambers.flatMap((set) => k.kitStack(spec, set, kit) ?? []));
const cutting = fc.tuple(any.spec, table).map(([spec, rows]) => {
  const roles = ['code', 'mark', 'quantity', 'blank', 'note'] as const;
  const read = runToEnd(k.readImport({ spec, rows, roles, options: {} }));
  const found = read.map(({ code }) => (code.bitting ? k.checkBitting(spec, code.bitting) : undefined));
  return { spec, read, found };
});
const entering = blanks.map((list) => k.enteringOf(list));

export const SHOP_CALLS: Readonly<Record<string, Calls>> = {
  barsCutting: of(cutting, ({ found }) => found.map((all) => k.barsCutting(all ?? []))),
  blanksFor: of(fc.tuple(any.spec, name, blanks), ([spec, keyway, list]) => k.blanksFor(spec, keyway, list)),
  carries: of(fc.tuple(any.spec, fc.nat({ max: 9 }), any.small), ([spec, cuts, i]) =>
    k.carries(k.reachOf(spec, cuts), i),
  ),
  cutterFits: of(fc.tuple(any.spec, cutters), ([spec, list]) => k.cutterFits(spec, list)),
  cuttingLines: of(cutting, ({ spec, read, found }) => k.cuttingLines(spec, read, found)),
  enteringOf: of(blanks, k.enteringOf),
  entersKeyway: of(fc.tuple(entering, name, name), ([others, a, b]) => k.entersKeyway(others, a, b)),
  fitSpacing: of(fc.array(any.length, { maxLength: 9 }), (centres) => k.fitSpacing(k.STARTER_SPECS, centres)),
  fitSpecs: of(fc.tuple(fc.array(any.length, { maxLength: 9 }), fc.boolean()), ([roots, centres]) =>
    k.fitSpecs(k.STARTER_SPECS, { roots, ...(centres && { centres: roots }) }),
  ),
  foldKeyway: withText(k.foldKeyway),
  kitList: of(stacks, k.kitList),
  kitStack: of(fc.tuple(keys, pins), ([g, kit]) => k.kitStack(g.spec, g.chambers[0]!, kit)),
  reachOf: of(fc.tuple(any.spec, any.small), ([spec, cuts]) => k.reachOf(spec, cuts)),
  sayCutterFit: of(fc.tuple(any.spec, cutters), ([spec, list]) =>
    k.cutterFits(spec, list).map((fit) => k.sayCutterFit(spec, fit)),
  ),
  sayPasses: of(fc.tuple(any.spec, cutters), ([spec, list]) =>
    k.cutterFits(spec, list).map((fit) => k.sayPasses(spec, fit)),
  ),
  setupFor: of(fc.tuple(name, setups), ([spec, list]) =>
    k.setupFor({ ...k.STARTER_SPECS[0]!, name: spec }, list),
  ),
  shareKeyway: of(fc.tuple(entering, name, name), ([others, a, b]) => k.shareKeyway(others, a, b)),
  shortages: of(stacks, (all) => k.shortages(k.kitList(all))),
};
