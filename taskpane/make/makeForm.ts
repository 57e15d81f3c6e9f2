/**
 * The form of "Make keys" and what it asks for. Text as typed becomes a request of the keying room; every fault is a
 * sentence at its field. The defaults make a system that fits most specs, so that the first press succeeds.
 */
import type { KeyBittingArray } from '../../src/keying/array.ts';
import { parseBitting, type Bitting } from '../../src/keying/bitting.ts';
import { parseDepthList } from '../../src/keying/chamberText.ts';
import type { Deal } from '../../src/keying/deal.ts';
import type { ChangeOrder, Progression } from '../../src/keying/progression.ts';
import { DEFAULT_RULES, type Rules } from '../../src/keying/rules.ts';
import { positions, type Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { sayChamberFault } from '../../src/keying/specWording.ts';
import type { Entering } from '../../src/keying/keyways.ts';
import type { GrandRequest, MasterRequest, SystemRequest } from '../../src/keying/systemRequest.ts';
import { say } from '../../src/keying/wording.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { parseCounts, parseWhole } from './counts.ts';
import type { DoorTree } from './doors.ts';

export interface MakeForm {
  readonly name: string;
  readonly levels: 2 | 3 | 4;
  /** Grand masters, in systems of four levels. */
  readonly grands: string;
  /** Masters under each grand master. */
  readonly masters: string;
  /** Change keys under each master. */
  readonly changeKeys: string;
  readonly spares: string;
  /** Masters in reserve under each grand master, and grand masters in reserve. */
  readonly spareMasters: string;
  readonly spareGrands: string;
  readonly doorsPerKey: string;
  readonly order: ChangeOrder;
  readonly seed: string;
  readonly progression: Progression['kind'];
  /** Positions of each change key that keep the top master's cut, for a rotating constant. */
  readonly constants: string;
  /** Chambers that stay the top master's, counted from 1, for partial position progression. */
  readonly kept: string;
  readonly difference: string;
  /** Chambers in the sequence of progression, counted from 1, the last moving fastest; blank for code order. */
  readonly sequence: string;
  readonly topMaster: string;
  /** Depths of each chamber as typed; none for the widest array. */
  readonly array: readonly string[];
  /** Level of each chamber; none where the program deals the positions. */
  readonly deal: Deal;
  /** Where top master, array and deal are taken from: this form, or the rows of that name in the sheet Array. */
  readonly arrayFrom: 'form' | 'sheet';
  readonly keyway: string;
  readonly rules: Rules;
}

export type MakeField = Exclude<
  keyof MakeForm,
  'levels' | 'order' | 'progression' | 'rules' | 'deal' | 'arrayFrom'
>;

export const DEFAULT_MAKE: MakeForm = {
  name: '',
  levels: 3,
  grands: '2',
  masters: '4',
  changeKeys: '12',
  spares: '0',
  spareMasters: '0',
  spareGrands: '0',
  doorsPerKey: '1',
  order: 'scattered',
  seed: '1',
  progression: 'total',
  constants: '1',
  kept: '',
  difference: '1',
  sequence: '',
  topMaster: '',
  array: [],
  deal: [],
  arrayFrom: 'form',
  keyway: '',
  rules: DEFAULT_RULES,
};

/** How much is wanted, counted from the request. */
export interface Wanted {
  readonly grands: number;
  readonly masters: number;
  readonly changeKeys: number;
  /** Change keys in reserve. */
  readonly spares: number;
  /** Masters and grand masters in reserve. */
  readonly spareMasters: number;
  readonly spareGrands: number;
  readonly cylinders: number;
}

export interface MakeReading {
  /** Absent when a field has a fault. */
  readonly request?: SystemRequest;
  readonly wanted?: Wanted;
  readonly faults: ReadonlyMap<MakeField, string>;
}

/** Most change keys that a grid in a sheet can still show sensibly. */
const MOST_KEYS = 20_000;

/** A name for a system that the workbook has not yet. @example nextName(['System 1']) → 'System 2' */
export function nextName(taken: readonly string[]): string {
  const folded = new Set(taken.map(foldName));
  for (let n = 1; ; n++) if (!folded.has(`system ${n}`)) return `System ${n}`;
}

/** Whether a system of the workbook is called so already, however it is written. */
export const isTaken = (name: string, taken: readonly string[]): boolean =>
  taken.some((other) => foldName(other) === foldName(name));

/** What the workbook says about the keyway of a new system. */
export interface KeywayGround {
  /** The bittings that a new system in a keyway must not have. */
  readonly retiredFor?: (keyway: string) => readonly Bitting[];
  /** The keyways that blanks enter besides their own, by the shop's table of blanks. */
  readonly entering?: Entering;
}

/**
 * Reads the form. `taken` are the names of the workbook's systems; `doors` replaces the counts where the doors come
 * from the shop's own sheet.
 */
export function readMakeForm(
  form: MakeForm,
  spec: Specification,
  taken: readonly string[],
  doors?: DoorTree,
  { retiredFor = () => [], entering }: KeywayGround = {},
): MakeReading {
  const faults = new Map<MakeField, string>();
  const name = form.name.trim() || nextName(taken);
  if (isTaken(name, taken)) faults.set('name', `${name} is in this workbook already; choose another name.`);
  const whole: Whole = (field, least, most, what) => {
    const read = parseWhole(String(form[field]), least, most, what);
    if (read.ok) return read.value;
    faults.set(field, read.error);
    return least;
  };
  const cuts = positions(spec);
  const seed = whole('seed', 0, 999_999_999, 'a seed');
  const difference = whole('difference', 1, cuts, 'chambers');
  const progression = readProgression(form, cuts, faults, whole);
  const sequence = readSequence(form.sequence, cuts, faults);
  const topMaster = readTopMaster(form.topMaster, spec, faults);
  const keyway = form.keyway.trim();
  const retired = retiredFor(keyway);
  if (topMaster && retired.some((cuts) => cuts.join() === topMaster.join()))
    faults.set(
      'topMaster',
      'A key of this bitting was retired in this workbook and may still be about; choose another top master.',
    );
  const array = readChoices(form.array, spec, faults);
  if (array && !topMaster && !faults.has('topMaster'))
    faults.set(
      'topMaster',
      'A key bitting array belongs to a top master: type it, or go back to the widest array.',
    );
  const spareMasters = form.levels > 2 ? whole('spareMasters', 0, 100, 'masters') : 0;
  const spareGrands = form.levels === 4 ? whole('spareGrands', 0, 20, 'grand masters') : 0;
  const groups = doors?.grands ?? readGroups(form, faults, whole);
  const grands = spareMasters > 0 ? groups?.map((grand) => ({ ...grand, spares: spareMasters })) : groups;
  if (faults.size > 0 || !grands) return { faults };
  const wanted: Wanted = {
    ...count(form.levels, grands),
    spareMasters: spareMasters * grands.length,
    spareGrands,
  };
  if (wanted.changeKeys + wanted.spares > MOST_KEYS)
    return {
      faults: new Map([['changeKeys', `More than ${counted(MOST_KEYS, 'change key')} in one system.`]]),
    };
  const request: SystemRequest = {
    name,
    spec,
    levels: doors?.levels ?? form.levels,
    grands,
    order: form.order,
    seed,
    minimumDifference: difference,
    rules: form.rules,
    ...(progression.kind === 'total' ? {} : { progression }),
    ...(sequence ? { sequence } : {}),
    ...(topMaster ? { topMaster } : {}),
    ...(array ? { array } : {}),
    ...(form.deal.length > 0 ? { deal: form.deal } : {}),
    ...(spareGrands > 0 ? { spareGrands } : {}),
    ...(keyway ? { keyway } : {}),
    ...(retired.length > 0 ? { avoid: retired } : {}),
    ...(entering ? { enters: entering } : {}),
  };
  return { request, wanted, faults };
}

type Whole = (field: MakeField, least: number, most: number, what: string) => number;

function readProgression(
  form: MakeForm,
  cuts: number,
  faults: Map<MakeField, string>,
  whole: Whole,
): Progression {
  if (form.progression === 'rotating')
    return { kind: 'rotating', constants: whole('constants', 1, cuts - 1, 'cuts') };
  if (form.progression === 'total') return { kind: 'total' };
  const kept = chamberNumbers(form.kept);
  if (kept.length === 0) faults.set('kept', `Type which chambers, from 1 to ${cuts}, such as 5 6.`);
  else if (kept.some((n) => !(n >= 1 && n <= cuts)))
    faults.set('kept', `Chambers from 1 to ${cuts}, such as 5 6.`);
  return { kind: 'partial', constant: [...new Set(kept)].map((n) => n - 1) };
}

/** Numbers with anything between them; NaN for what is none. */
const chamberNumbers = (text: string): number[] =>
  text
    .normalize('NFKC')
    .split(/[\s,;]+/)
    .filter(Boolean)
    .map((part) => (/^\d+$/.test(part) ? Number(part) : NaN));

function readSequence(
  text: string,
  cuts: number,
  faults: Map<MakeField, string>,
): readonly number[] | undefined {
  const numbers = chamberNumbers(text);
  if (numbers.length === 0) return undefined;
  const all = Array.from({ length: cuts }, (_, i) => i + 1);
  if ([...numbers].sort((a, b) => a - b).join() !== all.join())
    faults.set('sequence', `Each chamber from 1 to ${cuts} once, such as ${all.join(' ')}.`);
  return numbers.map((n) => n - 1);
}

function readChoices(
  texts: readonly string[],
  spec: Specification,
  faults: Map<MakeField, string>,
): KeyBittingArray | undefined {
  if (texts.length === 0) return undefined;
  return texts.map((text, i) => {
    const read = parseDepthList(spec, text);
    if (read.ok) return read.value;
    if (!faults.has('array')) faults.set('array', `Chamber ${i + 1}: ${sayChamberFault(read.error[0]!)}.`);
    return [];
  });
}

function readTopMaster(
  text: string,
  spec: Specification,
  faults: Map<MakeField, string>,
): Bitting | undefined {
  if (text.trim() === '') return undefined;
  const parsed = parseBitting(spec, text);
  if (parsed.ok) return parsed.value;
  faults.set('topMaster', say(parsed.error[0]!));
  return undefined;
}

function readGroups(
  form: MakeForm,
  faults: Map<MakeField, string>,
  whole: Whole,
): GrandRequest[] | undefined {
  const grandCount = form.levels === 4 ? whole('grands', 1, 24, 'grand masters') : 1;
  const masters =
    form.levels === 2
      ? { ok: true as const, value: [1] }
      : parseCounts(form.masters, grandCount, 'grand master');
  if (!masters.ok) faults.set('masters', masters.error);
  else if (masters.value.some((n) => n === 0))
    faults.set('masters', 'At least 1 master under each grand master.');
  const spares = whole('spares', 0, 1000, 'spares');
  const doorsPerKey = whole('doorsPerKey', 1, 1000, 'doors');
  if (!masters.ok || faults.has('masters')) return undefined;
  const masterCount = masters.value.reduce((sum, n) => sum + n, 0);
  const keys = parseCounts(form.changeKeys, masterCount, 'master');
  if (!keys.ok) {
    faults.set('changeKeys', keys.error);
    return undefined;
  }
  let next = 0;
  return masters.value.map((n) => ({
    masters: keys.value
      .slice(next, (next += n))
      .map((changeKeys): MasterRequest => ({ changeKeys, spares, doorsPerKey })),
  }));
}

function count(
  levels: 2 | 3 | 4,
  grands: readonly GrandRequest[],
): Omit<Wanted, 'spareMasters' | 'spareGrands'> {
  const masters = grands.flatMap((grand) => grand.masters);
  const sum = (of: (master: MasterRequest) => number): number =>
    masters.reduce((total, m) => total + of(m), 0);
  return {
    grands: levels === 4 ? grands.length : 0,
    masters: levels === 2 ? 0 : masters.length,
    changeKeys: sum((m) => m.changeKeys),
    spares: sum((m) => m.spares ?? 0),
    cylinders: sum((m) =>
      m.doors
        ? m.doors.reduce((total, names) => total + names.length, 0)
        : m.changeKeys * (m.doorsPerKey ?? 1),
    ),
  };
}

/** @example wantedSentence(3, wanted) → 'A grand master, 4 masters and 48 change keys, for 48 cylinders.' */
export function wantedSentence(
  levels: 2 | 3 | 4,
  { grands, masters, changeKeys, spares, spareMasters, spareGrands, cylinders }: Wanted,
): string {
  const top = { 2: 'A master', 3: 'A grand master', 4: 'A great grand master' }[levels];
  const keys = listed([
    top,
    ...(levels === 4 ? [counted(grands, 'grand master')] : []),
    ...(levels >= 3 ? [counted(masters, 'master')] : []),
    counted(changeKeys, 'change key'),
    ...(spares > 0 ? [counted(spares, 'spare')] : []),
    ...(spareMasters > 0 ? [counted(spareMasters, 'spare master')] : []),
    ...(spareGrands > 0 ? [counted(spareGrands, 'spare grand master')] : []),
  ]);
  return `${keys}, for ${counted(cylinders, 'cylinder')}.`;
}
