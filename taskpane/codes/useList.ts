/** A list as it came, with what was guessed about it and what the person made of the guesses. */
import { useMemo, useState } from 'react';
import { packBitting } from '../../src/keying/bitting.ts';
import { readCode, type ImportCell } from '../../src/keying/importCode.ts';
import {
  guessColumns,
  joinCuts,
  type ColumnRole,
  type ColumnsGuess,
} from '../../src/keying/importColumns.ts';
import { guessOrder, guessSpecs, type OrderGuess, type SpecGuess } from '../../src/keying/importSpec.ts';
import type { Order, Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import type { BookReading, TargetReading } from '../../src/workbook/index.ts';
import { specChoices, type SpecChoices } from '../specs/choices.ts';

export interface SourceList {
  /** With the header row, where there is one. */
  readonly rows: readonly (readonly ImportCell[])[];
  /** Where it stands in the sheet; none for a pasted list. */
  readonly target?: TargetReading;
  readonly name: string;
  /** Blank rows above the list in a file, so that rows are numbered as the file shows them. */
  readonly above?: number;
}

export interface ListGuess {
  readonly columns: ColumnsGuess;
  readonly specs: readonly SpecGuess[];
}

export interface ListChoices {
  readonly header: boolean;
  readonly roles: readonly ColumnRole[];
  readonly spec: Specification;
  readonly order: Order;
}

/** Rows looked at for a guess. */
const LOOK = 1_000;

export function guessList(source: SourceList, choices: SpecChoices): ListGuess {
  const all = [...choices.own, ...choices.starters];
  const own = new Set(choices.own.map((spec) => foldName(spec.name)));
  const columns = guessColumns(source.rows, all);
  const cells = codesOf(source.rows.slice(columns.headerRows), columns.roles);
  return { columns, specs: guessSpecs(cells, all, (spec) => own.has(foldName(spec.name))) };
}

function codesOf(rows: SourceList['rows'], roles: readonly ColumnRole[]): ImportCell[] {
  const at = roles.flatMap((role, c) => (role === 'code' ? [c] : []));
  if (at.length === 0) return [];
  return rows
    .slice(0, LOOK)
    .map((row) => (at.length > 1 ? joinCuts(at.map((c) => row[c] ?? '')) : (row[at[0]!] ?? '')));
}

/** The direction of reading, from the bittings that the workbook has by the same spec. */
function orderOf(
  source: SourceList,
  header: boolean,
  roles: readonly ColumnRole[],
  spec: Specification,
  book: BookReading | undefined,
): OrderGuess {
  const known = new Set(
    (book?.systems ?? [])
      .filter((system) => system.spec && foldName(system.spec.name) === foldName(spec.name))
      .flatMap((system) => system.keys)
      .flatMap((key) => (key.bitting ? [packBitting(spec, key.bitting)] : [])),
  );
  const bittings = codesOf(source.rows.slice(header ? 1 : 0), roles).flatMap((cell) => {
    const { bitting } = readCode(spec, cell);
    return bitting ? [bitting] : [];
  });
  return guessOrder(spec, bittings, known);
}

/** Guesses about a list, and the choices that start from them. */
export function useListChoices(source: SourceList, book: BookReading | undefined) {
  const choices = useMemo(() => specChoices(book), [book]);
  const guess = useMemo(() => guessList(source, choices), [source, choices]);
  const [header, setHeader] = useState(guess.columns.headerRows === 1);
  const [roles, setRoles] = useState<readonly ColumnRole[]>(guess.columns.roles);
  const [specName, setSpec] = useState(guess.specs[0]?.spec.name ?? '');
  const [chosenOrder, setOrder] = useState<Order>();
  const all = [...choices.own, ...choices.starters];
  const spec = all.find((s) => s.name === specName) ?? all[0]!;
  const orderGuess = useMemo(
    () => orderOf(source, header, roles, spec, book),
    [source, header, roles, spec, book],
  );
  const order = chosenOrder ?? guess.columns.order ?? orderGuess.order;
  return { choices, guess, orderGuess, spec, order, header, roles, setHeader, setRoles, setSpec, setOrder };
}

export type ListState = ReturnType<typeof useListChoices>;
