/** Sheet `Keys`: one row a key. */
import { parseBitting, formatBitting, type Bitting } from '../keying/bitting.ts';
import type { Specification } from '../keying/specification.ts';
import type { KeyRecord, Status } from '../keying/system.ts';
import { missingColumns, type ColumnSpec } from './columns.ts';
import { codeField, countField, neededText, readRows, textField, wordField } from './fields.ts';
import { CHECK_KEY } from './formulas.ts';
import { sameName } from './names.ts';
import type { CellInput } from './plan.ts';
import { bittingProblems, numberProblem } from './problems.ts';
import type { KeyRow, Problem, TableReading } from './reading.ts';

/** In the order in which a new sheet is laid out. */
export const KEY_COLUMNS = [
  { heading: 'System', format: 'text', width: 16, needed: true },
  { heading: 'Symbol', format: 'text', width: 10, needed: true },
  { heading: 'Level', format: 'text', width: 9 },
  { heading: 'Parent', format: 'text', width: 10 },
  { heading: 'Bitting', format: 'text', width: 14, needed: true },
  { heading: 'Status', format: 'text', width: 10 },
  { heading: 'Keyway', format: 'text', width: 10 },
  { heading: 'Cuts', format: 'general', width: 8 },
  { heading: 'Copies', format: 'general', width: 10 },
  { heading: 'Spec', format: 'text', width: 12 },
  { heading: 'Check', format: 'general', width: 44, formula: CHECK_KEY },
  { heading: 'Note', format: 'text', width: 24 },
] as const satisfies readonly ColumnSpec[];

const LEVEL_WORDS: Readonly<Record<string, KeyRecord['level']>> = {
  ck: 'CK',
  'change key': 'CK',
  mk: 'MK',
  master: 'MK',
  'master key': 'MK',
  gmk: 'GMK',
  'grand master': 'GMK',
  'grand master key': 'GMK',
  ggmk: 'GGMK',
  'great grand master': 'GGMK',
  'great grand master key': 'GGMK',
  control: 'control',
  'control key': 'control',
  ctr: 'control',
  single: 'single',
  'single keyed': 'single',
  skd: 'single',
};
const STATUS_WORDS: Readonly<Record<string, Status>> = {
  free: 'free',
  reserved: 'reserved',
  issued: 'issued',
  void: 'void',
  retired: 'retired',
};

const FIELDS = {
  system: { heading: 'System', schema: textField },
  symbol: { heading: 'Symbol', schema: neededText('key symbol') },
  level: {
    heading: 'Level',
    schema: wordField(LEVEL_WORDS, ['CK', 'MK', 'GMK', 'GGMK', 'Control', 'Single'], 'single'),
  },
  parent: { heading: 'Parent', schema: textField },
  bitting: { heading: 'Bitting', schema: codeField },
  status: { heading: 'Status', schema: wordField(STATUS_WORDS, Object.keys(STATUS_WORDS), 'reserved') },
  keyway: { heading: 'Keyway', schema: textField },
  cuts: { heading: 'Cuts', schema: countField(undefined, 1) },
  copies: { heading: 'Copies', schema: countField(undefined) },
  spec: { heading: 'Spec', schema: textField },
  note: { heading: 'Note', schema: textField },
};

/** Without these the rows can be read, but no key can be audited. */
const AUDITED = KEY_COLUMNS.filter(({ heading }) => heading === 'Level' || heading === 'Status').map(
  (column) => ({ ...column, needed: true }),
);

/** `specFor` gives the spec that a row's bitting is read against, its system's; undefined where it has none. */
export function readKeys(
  table: TableReading,
  specFor: (system: string, spec: string) => Specification | undefined,
): { readonly rows: readonly KeyRow[]; readonly problems: readonly Problem[] } {
  const { rows, problems } = readRows(table, FIELDS);
  const all = [...problems, ...missingColumns(table, AUDITED)];
  const keys = rows.map((read): KeyRow => {
    const v = read.values;
    const at = {
      row: read.at('symbol'),
      system: read.at('system'),
      symbol: read.at('symbol'),
      bitting: read.at('bitting'),
    };
    const code = v.bitting ?? '';
    const spec = specFor(v.system ?? '', v.spec ?? '');
    const foreign =
      spec !== undefined && v.spec !== undefined && v.spec !== '' && !sameName(v.spec, spec.name);
    if (foreign)
      all.push({
        ...read.at('spec'),
        severity: 'fault',
        sentence: `This key names the spec ${v.spec!}, but its system has ${spec.name}. Correct one of the two; until then the key is not audited.`,
      });
    let bitting: Bitting | undefined;
    if (code === '') all.push({ ...at.bitting, severity: 'warning', sentence: 'This key has no bitting.' });
    else {
      if (typeof code === 'number') all.push(numberProblem(at.bitting));
      if (spec) {
        const parsed = parseBitting(spec, code);
        if (parsed.ok) bitting = parsed.value;
        else all.push(...bittingProblems(at.bitting, parsed.error));
      }
    }
    const complete =
      !foreign &&
      bitting !== undefined &&
      v.level !== undefined &&
      v.status !== undefined &&
      v.symbol !== undefined;
    return {
      system: v.system ?? '',
      symbol: v.symbol ?? '',
      bittingText: String(code),
      specName: v.spec ?? '',
      at,
      ...(bitting && { bitting }),
      ...(v.level && { level: v.level }),
      ...(v.parent && { parent: v.parent }),
      ...(v.status && { status: v.status }),
      ...(v.keyway && { keyway: v.keyway }),
      ...(v.copies !== undefined && { copies: v.copies }),
      ...(complete && {
        record: {
          symbol: v.symbol!,
          level: v.level!,
          bitting: bitting!,
          status: v.status!,
          ...(v.parent && { parent: v.parent }),
          ...(v.keyway && { keyway: v.keyway }),
          ...(v.cuts !== undefined && { cuts: v.cuts }),
        },
      }),
    };
  });
  return { rows: keys, problems: all };
}

const LEVEL_SHOWN: Readonly<Record<KeyRecord['level'], string>> = {
  CK: 'CK',
  MK: 'MK',
  GMK: 'GMK',
  GGMK: 'GGMK',
  control: 'Control',
  single: 'Single',
};

/** The cells of a key's row in the order of `KEY_COLUMNS`, without the formula. */
export function keyRow(
  key: KeyRecord,
  spec: Specification,
  beside: { readonly system: string; readonly copies?: number | undefined },
): CellInput[] {
  return [
    beside.system,
    key.symbol,
    LEVEL_SHOWN[key.level],
    key.parent ?? '',
    formatBitting(spec, key.bitting),
    key.status,
    key.keyway ?? '',
    key.cuts ?? '',
    beside.copies ?? '',
    spec.name,
    '',
    '',
  ];
}
