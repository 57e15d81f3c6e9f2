/**
 * Makes the keys and cylinders of a master-keyed system. The keys come from total position progression (or partial,
 * or with a rotating constant) with the positions dealt to the levels; each cylinder is pinned for its change key
 * and every key above it. Nothing leaves this file that the audit has not passed.
 */
import { auditSystem } from './audit.ts';
import type { Bitting } from './bitting.ts';
import { capacity, capacityOf, type Capacity, type CapacityFigures } from './capacity.ts';
import type { CapacityProblem } from './capacityProblem.ts';
import { proposeControl } from './controlKey.ts';
import { pinnedFor } from './cylinder.ts';
import type { Finding } from './findings.ts';
import type { PlanContext, PlannedGrand } from './groupPlan.ts';
import { auditInputOf, type Mark } from './intended.ts';
import { prepare, topInUse } from './preparation.ts';
import { assert } from './result.ts';
import { DEFAULT_RULES } from './rules.ts';
import { changeSymbol, grandSymbol, masterSymbol, topSymbol } from './symbol.ts';
import type { CylinderRecord, KeyRecord, KeySystem, Steps } from './system.ts';
import { evenTree, type GrandRequest, type MasterRequest, type SystemRequest } from './systemRequest.ts';

export { capacity, evenTree };
export type { Capacity, CapacityFigures, GrandRequest, Mark, MasterRequest, SystemRequest };

export type GenerateResult =
  | {
      readonly ok: true;
      readonly system: KeySystem;
      /** Key by door: what must operate what, control keys included. */
      readonly marks: readonly Mark[];
      /** Symbols of keys that existed before and are listed only because others hang under them. */
      readonly existing: readonly string[];
      readonly capacity: Capacity;
    }
  | {
      readonly ok: false;
      readonly problems: readonly Finding[];
      readonly capacity: Capacity;
    };

/**
 * Generates a system, or says why it doesn't fit. Yields its progress.
 * @example runToEnd(generateSystem({ name: 'Hall', spec, levels: 3, grands: evenTree(3, { masters: 4, changeKeys: 30 }) }))
 *   → keys A, AA, AA1 … AD30 and cylinders C1 … C120
 */
export function* generateSystem(request: SystemRequest): Steps<GenerateResult> {
  const prepared = yield* prepare(request);
  const figures = capacityOf(request, prepared);
  if (!prepared.ok) return { ok: false, problems: prepared.problems, capacity: figures };
  const { context } = prepared;
  const draft = nameKeys(request, context, prepared.grands);
  const made = request.spec.core ? addControl(request, context, draft) : { ok: true as const, draft };
  if (!made.ok) return { ok: false, problems: [made.problem], capacity: figures };
  const system: KeySystem = {
    name: request.name,
    spec: request.spec,
    topMaster: context.topMaster,
    array: context.array,
    keys: made.draft.keys,
    cylinders: made.draft.cylinders,
    ...(request.enters && { enters: request.enters }),
  };
  yield* proveByAudit(request, system, made.draft.marks);
  const { marks, existing } = made.draft;
  return { ok: true, system, marks, existing, capacity: figures };
}

interface Draft {
  readonly keys: KeyRecord[];
  readonly cylinders: CylinderRecord[];
  readonly marks: Mark[];
  readonly existing: string[];
}

/** Gives every planned key its symbol and every issued change key its cylinders. */
function nameKeys(request: SystemRequest, context: PlanContext, grands: readonly PlannedGrand[]): Draft {
  const { levels, keyway, avoidLetters } = request;
  const draft: Draft = { keys: [], cylinders: [], marks: [], existing: [] };
  const blank = keyway === undefined ? {} : { keyway };
  const nextId = idsOf(request);
  const top = request.topSymbol ?? topSymbolOf(request);
  const topLevel = levels === 2 ? 'MK' : levels === 3 ? 'GMK' : 'GGMK';
  draft.keys.push({ symbol: top, level: topLevel, bitting: context.topMaster, status: 'issued', ...blank });
  if (topInUse(request)) draft.existing.push(top);

  grands.forEach((grand, g) => {
    const wanted = request.grands[g];
    if (!wanted) return keepGrand(grand.bitting, g);
    const symbol = levels === 4 ? (wanted.symbol ?? grandSymbol(g, avoidLetters)!) : top;
    if (levels === 4) {
      draft.keys.push({
        symbol,
        level: 'GMK',
        parent: top,
        bitting: grand.bitting,
        status: 'issued',
        ...blank,
      });
      if (wanted.bitting) draft.existing.push(symbol);
    }
    const nextMaster = masterNames(wanted, symbol, avoidLetters);
    grand.masters.forEach((master, m) => {
      const asked = wanted.masters[m]!;
      const name = levels === 2 ? top : (asked.symbol ?? nextMaster());
      if (levels > 2) {
        draft.keys.push({
          symbol: name,
          level: 'MK',
          parent: symbol,
          bitting: master.bitting,
          status: 'issued',
          ...blank,
        });
        if (asked.bitting) draft.existing.push(name);
      }
      const above = [...new Set([top, symbol, name])];
      const chain = [context.topMaster, grand.bitting, master.bitting];
      master.changeKeys.forEach((bitting, k) => {
        const spare = k >= asked.changeKeys;
        const key = changeSymbol(name, (asked.firstNumber ?? 1) + k, levels);
        draft.keys.push({
          symbol: key,
          level: 'CK',
          parent: name,
          bitting,
          status: spare ? 'reserved' : 'issued',
          ...blank,
        });
        if (!spare) addCylinders(key, bitting, asked, k, chain, above);
      });
    });
    for (const bitting of grand.spares)
      draft.keys.push({
        symbol: nextMaster(),
        level: 'MK',
        parent: symbol,
        bitting,
        status: 'reserved',
        ...blank,
      });
  });
  return draft;

  /** A grand master in reserve: its bitting is set aside, the masters and keys under it are made when it is used. */
  function keepGrand(bitting: Bitting, g: number): void {
    const symbol = grandSymbol(g, avoidLetters)!;
    draft.keys.push({ symbol, level: 'GMK', parent: top, bitting, status: 'reserved', ...blank });
  }

  function addCylinders(
    key: string,
    bitting: Bitting,
    asked: MasterRequest,
    k: number,
    chain: readonly Bitting[],
    above: readonly string[],
  ): void {
    const doors: readonly (string | undefined)[] =
      asked.doors?.[k] ?? new Array<undefined>(asked.doorsPerKey ?? 1).fill(undefined);
    const chambers = pinnedFor(request.spec, [...chain, bitting]);
    for (const door of doors) {
      const id = nextId(door);
      draft.cylinders.push({ id, symbol: key, chambers, ...(door === undefined ? {} : { door }), ...blank });
      for (const symbol of [...above, key]) draft.marks.push({ key: symbol, cylinder: id });
    }
  }
}

function topSymbolOf({ levels, grands }: SystemRequest): string {
  const named = levels === 2 ? grands[0]!.masters[0]!.symbol : levels === 3 ? grands[0]!.symbol : undefined;
  return named ?? topSymbol(levels);
}

/** Symbols for the unnamed masters of a grand, passing over those that the request gives itself. */
function masterNames(
  { masters }: GrandRequest,
  grand: string,
  avoidLetters: string | undefined,
): () => string {
  const given = new Set(masters.map((m) => m.symbol?.trim().toUpperCase()));
  let n = 0;
  return () => {
    for (;;) {
      const symbol = masterSymbol(grand, n++, avoidLetters);
      if (!given.has(symbol.toUpperCase())) return symbol;
    }
  };
}

/** Ids for cylinders: the door's name, else C1, C2 …; never one that is there already. */
function idsOf({ cylinders = [] }: SystemRequest): (door?: string) => string {
  const used = new Set(cylinders.map(({ id }) => id.trim().toUpperCase()));
  let n = 0;
  const free = (id: string): boolean => !used.has(id.toUpperCase());
  return (door) => {
    let id = door?.trim() ?? '';
    if (id === '')
      do id = `C${++n}`;
      while (!free(id));
    else if (!free(id)) {
      let copy = 2;
      while (!free(`${id}-${copy}`)) copy++;
      id = `${id}-${copy}`;
    }
    used.add(id.toUpperCase());
    return id;
  };
}

function addControl(
  request: SystemRequest,
  context: PlanContext,
  draft: Draft,
): { ok: true; draft: Draft } | { ok: false; problem: CapacityProblem } {
  const { spec, rules = DEFAULT_RULES, seed = 1, avoid = [], cylinders = [], keyway } = request;
  const cores = [...draft.cylinders, ...cylinders].map(({ chambers }) => chambers);
  const keys = [...draft.keys.map(({ bitting }) => bitting), ...avoid];
  const { topMaster, array } = context;
  const control = request.control
    ? { ok: true as const, value: request.control }
    : proposeControl({ spec, topMaster, array, cores, keys, rules, seed });
  if (!control.ok) return { ok: false, problem: control.error };
  const symbol = 'CTR';
  if (request.control) draft.existing.push(symbol);
  return {
    ok: true,
    draft: {
      ...draft,
      keys: [
        ...draft.keys,
        {
          symbol,
          level: 'control',
          bitting: control.value,
          status: 'issued',
          ...(keyway === undefined ? {} : { keyway }),
        },
      ],
      cylinders: draft.cylinders.map((cylinder) => ({ ...cylinder, control: control.value })),
      marks: [...draft.marks, ...draft.cylinders.map(({ id }) => ({ key: symbol, cylinder: id }))],
    },
  };
}

/** Every key, the avoided ones included, against every new cylinder. A finding here is our mistake. */
function* proveByAudit(request: SystemRequest, system: KeySystem, marks: readonly Mark[]): Steps<void> {
  const input = auditInputOf(system, marks);
  const known = new Set(system.keys.map(({ bitting }) => bitting.join()));
  const strangers = (request.avoid ?? []).filter((bitting) => !known.has(bitting.join()));
  const keys = [
    ...input.keys,
    ...strangers.map((bitting, i) => ({ symbol: `avoided ${i + 1}`, bitting, status: 'retired' as const })),
  ];
  const report = yield* auditSystem(
    { ...input, keys },
    {
      near: false,
      cap: 1,
      ...(request.rules && { rules: request.rules }),
    },
  );
  for (const code of [
    'interchange',
    'lock-out',
    'control-operates',
    'control-is-incidental',
    'control-locked-out',
  ] as const)
    assert(!report.counts[code], `the new system fails its audit: ${JSON.stringify(report.findings)}`);
}
