/**
 * A schedule checked row by row: symbols by the published key coding (source in `symbolText.ts`), keysets against the
 * keys that exist, quantities against the cylinders, doors against each other. Everything found is returned; nothing
 * is changed. Without keys or cylinders to check against, what needs them is left out.
 */
import type { ScheduleFinding } from './scheduleFindings.ts';
import type { ScheduleLine, ScheduleLines } from './scheduleRead.ts';
import { levelsOfSymbols, ownKeyOf, symbolKey, tidySymbol, type TidySymbol } from './scheduleSymbol.ts';
import { CAUTION_WORDS, CAUTIONS, type CautionKind, type ScheduleRole } from './scheduleWords.ts';
import { parentSymbol } from './symbol.ts';
import { parseKeySymbol, type KeySymbol, type SymbolOptions } from './symbolText.ts';
import type { KeyRecord, Status } from './system.ts';

/** A key of the sheet Keys, as far as a schedule asks. */
export interface ScheduleKey {
  readonly symbol: string;
  readonly level?: KeyRecord['level'] | undefined;
  readonly status?: Status | undefined;
  /** Keys to cut. */
  readonly copies?: number | undefined;
}

export interface ScheduleAgainst {
  /** Empty where the workbook has no keys yet: keysets are then only checked by themselves. */
  readonly keys: readonly ScheduleKey[];
  /** Keyset symbols of the cylinders; empty where there are none. */
  readonly cylinders: readonly string[];
  readonly options?: SymbolOptions;
}

interface Keyset {
  readonly key: string;
  /** As it was first written. */
  readonly symbol: string;
  readonly lines: ScheduleLine[];
}

const atSymbol = (line: ScheduleLine) => ({ row: line.symbolRow, role: 'symbol' as const });

/** All findings, in the order of the sheet within each kind; those of the reading come first. */
export function checkSchedule(schedule: ScheduleLines, against: ScheduleAgainst): ScheduleFinding[] {
  const { lines } = schedule;
  const levels = levelsOfSymbols((against.keys.length > 0 ? against.keys : lines).map((k) => k.symbol));
  const options: SymbolOptions = { levels, ...against.options };
  const check = new ScheduleCheck(against, options);
  const keysets = check.keysetsOf(lines);
  return [
    ...schedule.findings,
    ...schedule.totals.flatMap(({ row, stated, counted }) =>
      stated === counted
        ? []
        : [{ code: 'total-differs' as const, row, role: 'quantity' as const, stated, counted }],
    ),
    ...check.spelling(lines),
    ...[...keysets.values()].flatMap((keyset) => check.keyset(keyset)),
    ...doorsTwice(lines, options),
    ...check.quantities(keysets),
    ...check.keysWithoutDoor(keysets),
    ...notKeyed(lines),
    ...lines.flatMap(cautions),
  ];
}

class ScheduleCheck {
  private readonly keys = new Map<string, ScheduleKey[]>();
  private readonly spelt = new Map<string, string>();
  private readonly cylinders = new Map<string, number>();
  private readonly tidied = new Map<string, TidySymbol | undefined>();
  /** Numbers of letters that masters here have. A shop that calls its top key otherwise has none of one letter. */
  private readonly masterLetters = new Set<number>();

  constructor(
    private readonly against: ScheduleAgainst,
    private readonly options: SymbolOptions,
  ) {
    for (const key of against.keys) {
      const id = symbolKey(key.symbol, options);
      const same = this.keys.get(id);
      if (same) same.push(key);
      else this.keys.set(id, [key]);
      if (!this.spelt.has(id)) this.spelt.set(id, key.symbol.trim());
      const letters = lettersOfMaster(id, options);
      if (letters !== undefined) this.masterLetters.add(letters);
    }
    for (const symbol of against.cylinders) {
      const id = this.bareKey(symbol);
      this.cylinders.set(id, (this.cylinders.get(id) ?? 0) + 1);
    }
  }

  /** Keysets differ where what stands in brackets differs; otherwise they go by their spelling when tidied. */
  private keysetKey(symbol: string): string {
    const tidy = this.tidy(symbol)?.to ?? symbol;
    return tidy.trim().toUpperCase().replace(/\s+/g, ' ');
  }

  /** The same symbols come again and again. */
  private tidy(symbol: string): TidySymbol | undefined {
    if (!this.tidied.has(symbol)) this.tidied.set(symbol, tidySymbol(symbol, this.options, this.spelt));
    return this.tidied.get(symbol);
  }

  /** The same without what stands in brackets, as cylinders and keys are counted. */
  private bareKey(symbol: string): string {
    const [bare = ''] = this.keysetKey(symbol).split('(', 1);
    return symbolKey(bare.trimEnd(), this.options);
  }

  keysetsOf(lines: readonly ScheduleLine[]): Map<string, Keyset> {
    const keysets = new Map<string, Keyset>();
    for (const line of lines) {
      if (line.symbol.trim() === '') continue;
      const key = this.keysetKey(line.symbol);
      const same = keysets.get(key);
      if (same) same.lines.push(line);
      else keysets.set(key, { key, symbol: line.symbol.trim(), lines: [line] });
    }
    return keysets;
  }

  /** One offer a cell, also where it is merged over several rows. */
  spelling(lines: readonly ScheduleLine[]): ScheduleFinding[] {
    const seen = new Set<number>();
    return lines.flatMap((line): ScheduleFinding[] => {
      if (seen.has(line.symbolRow)) return [];
      seen.add(line.symbolRow);
      const tidy = this.tidy(line.symbol);
      if (!tidy) return [];
      return [
        { code: 'symbol-untidy', why: tidy.why, fix: { from: line.symbol, to: tidy.to }, ...atSymbol(line) },
      ];
    });
  }

  /** What is to be said of a keyset, once, at its first door; a missing key at every door. */
  keyset({ key, lines }: Keyset): ScheduleFinding[] {
    const first = atSymbol(lines[0]!);
    const parsed = parseKeySymbol(key, this.options);
    if (!parsed.ok) return parsed.error.code === 'symbol-too-long' ? [{ ...parsed.error, ...first }] : [];
    const symbol = parsed.value;
    const found: ScheduleFinding[] = (symbol.notes ?? []).map((note) => ({
      code: 'symbol-letter',
      symbol: key,
      letter: note.letter,
      reserved: note.code === 'reserved-letter',
      ...first,
    }));
    const place = symbol.kind === 'hierarchy' ? symbol : undefined;
    const twoLevels = this.options.levels === 2;
    if (place?.number !== undefined && place.numberFirst !== twoLevels)
      found.push({ code: 'symbol-other-levels', symbol: key, numberFirst: place.numberFirst, ...first });
    if (symbol.kind === 'own' && !this.keys.has(symbolKey(key, this.options)))
      found.push({ code: 'symbol-own', symbol: this.shown(key, lines), doors: lines.length, ...first });
    if (place && place.number === undefined)
      found.push({
        code: 'symbol-is-master',
        symbol: key,
        level: place.letters.length > 1 ? 'MK' : 'GMK',
        ...first,
      });
    if (this.against.keys.length > 0) found.push(...this.missing(symbol, key, lines));
    return found;
  }

  private shown = (key: string, lines: readonly ScheduleLine[]): string =>
    this.spelt.get(symbolKey(key, this.options)) ?? lines[0]!.symbol.trim();

  /** Keys that the keyset needs and that there aren't. */
  private missing(symbol: KeySymbol, key: string, lines: readonly ScheduleLine[]): ScheduleFinding[] {
    const found: ScheduleFinding[] = [];
    const first = atSymbol(lines[0]!);
    const by = 'operatedBy' in symbol ? (symbol.operatedBy ?? []) : [];
    for (const other of by)
      if (!this.keys.has(symbolKey(other, this.options)))
        found.push({ code: 'operated-by-unknown', symbol: key, key: other, ...first });
    const parent = this.missingParent(key);
    if (parent !== undefined) found.push({ code: 'parent-missing', symbol: key, parent, ...first });
    const own = ownKeyOf(symbol) ?? (needsKey(symbol) ? symbolKey(key, this.options) : undefined);
    if (own === undefined) return found;
    const records = this.keys.get(own) ?? [];
    if (records.some((k) => k.status !== 'void' && k.status !== 'retired')) return found;
    const cells = new Map(lines.map((line) => [line.symbolRow, line]));
    for (const line of cells.values())
      found.push({
        code: 'keyset-without-key',
        symbol: symbol.kind === 'own' ? this.shown(key, lines) : own,
        void: records.length > 0,
        ...atSymbol(line),
      });
    return found;
  }

  /** The highest key above that is missing: under a system without B, BA1 lacks B and not only BA. */
  private missingParent(key: string): string | undefined {
    let missing: string | undefined;
    let symbol: string | undefined = key;
    while ((symbol = parentSymbol(symbol, this.options)) !== undefined)
      if (this.masterLetters.has(lettersOfMaster(symbol, this.options) ?? 0))
        if (!this.keys.has(symbolKey(symbol, this.options))) missing = symbol;
    return missing;
  }

  /** Cylinders and keys of each keyset against the sheets. */
  quantities(keysets: ReadonlyMap<string, Keyset>): ScheduleFinding[] {
    const found: ScheduleFinding[] = [];
    const bare = new Map<string, ScheduleLine[]>();
    for (const { key, lines } of keysets.values()) {
      const id = this.bareKey(key);
      bare.set(id, [...(bare.get(id) ?? []), ...lines]);
    }
    for (const [id, lines] of bare) {
      const symbol = this.spelt.get(id) ?? id;
      const at = { row: lines[0]!.row, role: 'quantity' as ScheduleRole };
      const schedule = lines.reduce((sum, line) => sum + line.quantity, 0);
      const cylinders = this.cylinders.get(id) ?? 0;
      if (this.cylinders.size > 0 && schedule !== cylinders)
        found.push({ code: 'cylinders-differ', symbol, schedule, cylinders, ...at });
      const asked = lines.filter((line) => line.keys !== undefined);
      if (asked.length === 0) continue;
      const keys = asked.reduce((sum, line) => sum + (line.keys ?? 0), 0);
      const copies = this.keys.get(id)?.find((k) => k.copies !== undefined)?.copies;
      if (copies !== undefined && copies !== keys)
        found.push({ code: 'keys-differ', symbol, schedule: keys, copies, row: asked[0]!.row, role: 'keys' });
    }
    return found;
  }

  /** Change keys that no door has: each that is issued, and the number of those in reserve. */
  keysWithoutDoor(keysets: ReadonlyMap<string, Keyset>): ScheduleFinding[] {
    // a sheet without keysets says nothing about any key
    if (keysets.size === 0) return [];
    const atDoors = new Set<string>();
    for (const { key } of keysets.values()) {
      atDoors.add(symbolKey(key, this.options));
      const parsed = parseKeySymbol(key, this.options);
      const by = parsed.ok && 'operatedBy' in parsed.value ? (parsed.value.operatedBy ?? []) : [];
      for (const other of by) atDoors.add(symbolKey(other, this.options));
    }
    const found: ScheduleFinding[] = [];
    let spares = 0;
    this.against.keys.forEach(({ symbol, level, status }, key) => {
      if (level !== 'CK' && level !== 'single') return;
      if (atDoors.has(symbolKey(symbol, this.options))) return;
      if (status === 'issued') found.push({ code: 'key-without-door', key, symbol });
      else if (status === 'reserved') spares++;
    });
    return spares > 0 ? [...found, { code: 'spare-keys', count: spares }] : found;
  }
}

/** Letters of a master's symbol; undefined of any other key's. */
function lettersOfMaster(symbol: string, options: SymbolOptions): number | undefined {
  const parsed = parseKeySymbol(symbol, options);
  if (!parsed.ok || parsed.value.kind !== 'hierarchy' || parsed.value.number !== undefined) return undefined;
  return parsed.value.letters.length;
}

/** Single-keyed and cross-keyed cylinders without a number, and quantities keyed alike, name no key. */
const needsKey = (symbol: KeySymbol): boolean =>
  symbol.kind === 'own' ||
  symbol.kind === 'top' ||
  ((symbol.kind === 'single-keyed' || symbol.kind === 'control' || symbol.kind === 'keyed-alike') &&
    symbol.number !== undefined);

/** The same door again, unless the rows say that they are different sides or leaves of it. */
function doorsTwice(lines: readonly ScheduleLine[], options: SymbolOptions): ScheduleFinding[] {
  const seen = new Map<string, ScheduleLine>();
  return lines.flatMap((line): ScheduleFinding[] => {
    const fold = (text: string | undefined): string => (text ?? '').toLowerCase().replace(/\s+/g, ' ');
    const id = [line.door, line.text.side, line.text.cylinder].map(fold).join('\n');
    const first = seen.get(id);
    if (!first) {
      seen.set(id, line);
      return [];
    }
    const differ = symbolKey(first.symbol, options) !== symbolKey(line.symbol, options);
    return [
      {
        code: 'door-twice',
        door: line.door,
        firstRow: first.row,
        row: line.row,
        role: 'door',
        ...(differ && { symbols: [first.symbol.trim(), line.symbol.trim()] as const }),
      },
    ];
  });
}

function notKeyed(lines: readonly ScheduleLine[]): ScheduleFinding[] {
  const bare = lines.filter((line) => line.symbol.trim() === '');
  // a schedule without any keyset has no column for them, or is yet to be keyed
  if (bare.length === 0 || bare.length === lines.length) return [];
  return [{ code: 'not-keyed', doors: bare.length, row: bare[0]!.row, role: 'symbol' }];
}

const WORDS: Readonly<Record<CautionKind, RegExp>> = {
  exit: wordsPattern('exit'),
  fire: wordsPattern('fire'),
  accessible: wordsPattern('accessible'),
};

function wordsPattern(...kinds: readonly CautionKind[]): RegExp {
  const words = kinds.flatMap((kind) => CAUTION_WORDS[kind]).join('|');
  return new RegExp(`(?<!\\p{L})(?:${words})(?!\\p{L})`, 'iu');
}

/** Most doors have none of these words. */
const ANY_WORD = wordsPattern(...CAUTIONS);

/** Doors whose remark, location, hardware or type says that local codes have a say. */
function cautions(line: ScheduleLine): ScheduleFinding[] {
  const { remarks, location, hardware, type } = line.text;
  if (!ANY_WORD.test([remarks, location, hardware, type].join(' '))) return [];
  return CAUTIONS.flatMap((kind): ScheduleFinding[] => {
    for (const role of ['remarks', 'location', 'hardware', 'type'] as const) {
      const match = WORDS[kind].exec(line.text[role] ?? '');
      if (match) return [{ code: 'caution', kind, door: line.door, word: match[0], row: line.row, role }];
    }
    return [];
  });
}
