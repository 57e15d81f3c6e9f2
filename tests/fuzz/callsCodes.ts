/** Codes, lists of codes, key symbols: calls with hostile input. */
import fc from 'fast-check';
import * as k from '../../src/keying/index.ts';
import type { ColumnRole } from '../../src/keying/index.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { any, cell, findings, keys, of, options, table, withKeys, withText, type Calls } from './given.ts';
import { number, text } from './hostile.ts';

export const CODES_CALLS: Readonly<Record<string, Calls>> = {
  bittingOf: of(fc.tuple(any.spec, fc.array(any.small, { maxLength: 9 })), ([spec, indices]) =>
    k.bittingOf(spec, indices),
  ),
  canonicalCode: of(fc.tuple(any.spec, cell), ([spec, c]) => k.canonicalCode(spec, k.readCode(spec, c))),
  changeSymbol: of(fc.tuple(text, any.small, any.levels), ([master, n, levels]) =>
    k.changeSymbol(master, n, levels),
  ),
  checkBitting: of(fc.tuple(keys, text), ([g, self]) =>
    k.checkBitting(g.spec, g.bittings[0]!, k.DEFAULT_RULES, {
      self,
      master: { symbol: self, bitting: g.bittings[1]! },
    }),
  ),
  checkBittings: of(fc.tuple(keys, text), ([g, symbol]) =>
    k.checkBittings(
      g.spec,
      g.bittings.map((bitting) => ({ symbol, bitting })),
    ),
  ),
  checkList: of(fc.tuple(keys, text), ([g, symbol]) => {
    const list = g.bittings.map((bitting) => ({ symbol, bitting, status: 'issued' as const }));
    const cylinders = [{ id: symbol, symbol, chambers: g.chambers }];
    return runToEnd(
      k.checkList({ spec: g.spec, list, rules: k.DEFAULT_RULES, known: { keys: list, cylinders } }),
    );
  }),
  compareKeySymbols: of(fc.tuple(text, text, options), ([a, b, o]) => k.compareKeySymbols(a, b, o)),
  err: withText(k.err),
  findDelimiter: withText(k.findDelimiter),
  findDuplicates: withKeys((g) => k.findDuplicates(g.spec, g.bittings)),
  findNearPairs: of(fc.tuple(keys, any.length), ([g, within]) => k.findNearPairs(g.spec, g.bittings, within)),
  formatBitting: of(fc.tuple(any.spec, fc.array(any.small, { maxLength: 9 })), ([spec, cuts]) =>
    k.formatBitting(spec, cuts),
  ),
  formatDepthSet: withKeys((g) => k.formatDepthSet(g.spec, g.chambers[0]!)),
  formatKeySymbol: of(fc.tuple(text, options), ([t, o]) => {
    const read = k.parseKeySymbol(t, o);
    return read.ok && k.formatKeySymbol(read.value);
  }),
  gradeLimits: of(fc.constantFrom(...k.GRADES), k.gradeLimits),
  gradeReached: of(fc.tuple(number, number), ([a, b]) => k.gradeReached(a, b)),
  grandSymbol: of(any.small, (n) => k.grandSymbol(n)),
  guessColumns: of(fc.tuple(table, any.spec), ([rows, spec]) =>
    k.guessColumns(rows, [spec, ...k.STARTER_SPECS]),
  ),
  guessOrder: withKeys((g) =>
    k.guessOrder(g.spec, g.bittings, new Set([k.packBitting(g.spec, g.bittings[1]!)])),
  ),
  guessSpecs: of(fc.array(cell, { maxLength: 8 }), (cells) => k.guessSpecs(cells, k.STARTER_SPECS)),
  isUsable: withKeys((g) => k.isUsable(g.spec, g.bittings[0]!)),
  levelOfSymbol: of(fc.tuple(text, options), ([t, o]) => k.levelOfSymbol(t, o)),
  masterSymbol: of(fc.tuple(fc.constantFrom('A', 'K', 'Z'), fc.nat({ max: 5_000 })), ([grand, n]) =>
    k.masterSymbol(grand, n),
  ),
  nearMissOfKey: of(fc.tuple(keys, any.length), ([g, within]) =>
    k.nearMissOfKey(g.spec, g.bittings[0]!, g.bittings[1]!, within),
  ),
  nextSymbol: of(fc.tuple(text, options), ([t, o]) => k.nextSymbol(t, o)),
  notChecked: withText((self) => k.notChecked(k.DEFAULT_RULES, { self })),
  ok: withText(k.ok),
  packBitting: withKeys((g) => k.packBitting(g.spec, g.bittings[0]!)),
  parentSymbol: of(fc.tuple(text, options), ([t, o]) => k.parentSymbol(t, o)),
  parseBitting: of(fc.tuple(any.spec, fc.oneof(text, number)), ([spec, code]) => k.parseBitting(spec, code)),
  parseDepthSet: of(fc.tuple(any.spec, fc.oneof(text, number)), ([spec, code]) =>
    k.parseDepthSet(spec, code),
  ),
  parseKeySymbol: of(fc.tuple(text, options), ([t, o]) => k.parseKeySymbol(t, o)),
  readCode: of(fc.tuple(any.spec, cell, fc.boolean()), ([spec, c, lostZeros]) =>
    k.readCode(spec, c, { lostZeros }),
  ),
  readImport: of(
    fc.tuple(any.spec, table, fc.array(fc.constantFrom<ColumnRole>(...k.COLUMN_ROLES), { maxLength: 6 })),
    ([spec, rows, roles]) => runToEnd(k.readImport({ spec, rows, roles, options: {} })),
  ),
  reverseBitting: withKeys((g) => k.reverseBitting(g.bittings[0]!)),
  rowName: of(fc.tuple(text, any.small), ([mark, index]) => k.rowName({ mark, index })),
  ruleReason: of(fc.constantFrom(...k.RULE_NAMES), k.ruleReason),
  ruleTitle: of(fc.constantFrom(...k.RULE_NAMES), k.ruleTitle),
  say: of(findings, (all) => all.map((f) => k.say(f))),
  sayAll: of(findings, (all) => k.sayAll(all)),
  sayGroups: of(findings, (all) => k.sayGroups(all)),
  sayChamberFault: of(fc.tuple(any.spec, text), ([spec, t]) => {
    const read = k.parseDepthSet(spec, t);
    return read.ok ? '' : read.error.map(k.sayChamberFault);
  }),
  sayImportNote: of(fc.tuple(any.spec, cell), ([spec, c]) => k.readCode(spec, c).notes.map(k.sayImportNote)),
  sayReading: of(fc.tuple(any.spec, cell), ([spec, c]) => k.sayReading(k.readCode(spec, c))),
  severityOf: of(findings, (all) => all.map(k.severityOf)),
  shownText: of(cell, k.shownText),
  sortKeySymbols: of(fc.tuple(any.list, options), ([list, o]) => k.sortKeySymbols(list, o)),
  splitPasted: of(
    fc.oneof(
      text,
      any.list.map((l) => l.join('\n')),
      any.list.map((l) => l.join('\t"')),
    ),
    (t) => k.splitPasted(t),
  ),
  topSymbol: of(any.levels, k.topSymbol),
  unpackBitting: withKeys((g) => k.unpackBitting(g.spec, k.packBitting(g.spec, g.bittings[0]!))),
};
