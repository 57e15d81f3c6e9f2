/**
 * What Excel hands to an add-in's function and what it makes of the answer, without any spreadsheet behind it.
 *
 * From the documentation of custom functions: types and dimensionality as declared, an omitted optional argument is
 * null, errors reach only `any` parameters of functions that allow them. From memory of Excel, not documented: a
 * blank cell is null for a scalar `any`, 0 for a number, '' for text and FALSE for a boolean; inside a range it is ''
 * (0 in a range of numbers); numeric text passes for a number; a range given to a scalar parameter calls the function
 * for each cell.
 */
import type { CellError, CellValue, ErrorCode } from '../model/types.ts';

export interface PreviewParameter {
  readonly name: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  readonly repeating?: boolean;
}

/** A function of the add-in, callable by the grid. */
export interface PreviewFunction {
  readonly parameters: readonly PreviewParameter[];
  /** Whether errors reach parameters of type `any`. */
  readonly allowErrors?: boolean;
  /** For the list of functions shown while typing. */
  readonly description?: string;
  /** Called with the converted arguments and, last, the invocation object. */
  readonly call: (args: unknown[]) => unknown;
}

/** By full name, upper case: `KEYROW.CUTS`. */
export type FunctionTable = ReadonlyMap<string, PreviewFunction>;

export type Scalar = string | number | boolean | CellError | null;
/** One argument as the sheet has it; undefined was left out. */
export type Argument = Scalar | readonly (readonly Scalar[])[] | undefined;
export type Answer = CellValue | readonly (readonly CellValue[])[];

const isError = (value: unknown): value is CellError =>
  typeof value === 'object' && value !== null && typeof (value as { error?: unknown }).error === 'string';
const isMatrix = (value: Argument): value is readonly (readonly Scalar[])[] => Array.isArray(value);

/** Stops an argument list: the cell shows this. */
class Refusal {
  constructor(readonly error: CellError) {}
}

const refuse = (error: ErrorCode): never => {
  throw new Refusal({ error });
};

/** The names that Excel's error objects carry. */
const ERROR_TYPES: Partial<Record<ErrorCode, string>> = {
  '#VALUE!': 'Value',
  '#N/A': 'NotAvailable',
  '#REF!': 'Reference',
  '#NAME?': 'Name',
  '#DIV/0!': 'Div0',
  '#NUM!': 'Num',
  '#NULL!': 'Null',
  '#SPILL!': 'Spill',
  '#CALC!': 'Calc',
  '#BUSY!': 'Busy',
};

function errorObject(error: CellError): object {
  return {
    type: 'Error',
    basicType: 'Error',
    basicValue: error.error,
    errorType: ERROR_TYPES[error.error] ?? 'Value',
  };
}

function convert(value: Scalar, type: string, inRange: boolean, allowErrors: boolean): unknown {
  if (isError(value)) {
    if (type === 'any' && allowErrors) return errorObject(value);
    throw new Refusal(value);
  }
  switch (type) {
    case 'number':
      if (value === null) return 0;
      if (typeof value === 'number') return value;
      if (typeof value === 'boolean') return value ? 1 : 0;
      return value.trim() !== '' && Number.isFinite(Number(value)) ? Number(value) : refuse('#VALUE!');
    case 'string':
      if (value === null) return '';
      return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
    case 'boolean':
      if (value === null) return false;
      if (typeof value === 'boolean') return value;
      if (typeof value === 'number') return value !== 0;
      return /^(true|false)$/i.test(value) ? value.toLowerCase() === 'true' : refuse('#VALUE!');
    default:
      return value === null && inRange ? '' : value;
  }
}

function convertArgument(argument: Argument, parameter: PreviewParameter, allowErrors: boolean): unknown {
  const type = parameter.type ?? 'any';
  if (parameter.dimensionality === 'matrix') {
    const rows = isMatrix(argument) ? argument : [[argument ?? null]];
    return rows.map((row) => row.map((cell) => convert(cell, type, true, allowErrors)));
  }
  const scalar = isMatrix(argument) ? (argument[0]?.[0] ?? null) : (argument ?? null);
  return convert(scalar, type, false, allowErrors);
}

function callOnce(fn: PreviewFunction, args: readonly Argument[], name: string): Answer {
  const given: unknown[] = [];
  for (const [i, parameter] of fn.parameters.entries()) {
    if (parameter.repeating === true) {
      given.push(
        args.slice(i).map((argument) => convertArgument(argument, parameter, fn.allowErrors === true)),
      );
      break;
    }
    const argument = args[i];
    if (argument === undefined) {
      if (parameter.optional !== true) return { error: '#VALUE!' };
      given.push(null);
    } else given.push(convertArgument(argument, parameter, fn.allowErrors === true));
  }
  return readAnswer(fn.call([...given, { functionName: name }]));
}

const ERRORS = Object.keys(ERROR_TYPES);

/** An error object of the add-in's runtime, whatever frame it was made in. */
function thrownError(thrown: unknown): CellError {
  if (thrown instanceof Refusal) return thrown.error;
  const { code, message } = (typeof thrown === 'object' && thrown !== null ? thrown : {}) as {
    code?: unknown;
    message?: unknown;
  };
  if (typeof code !== 'string' || !ERRORS.includes(code)) return { error: '#VALUE!' };
  const error = code as ErrorCode;
  return typeof message === 'string' && message !== '' ? { error, message } : { error };
}

function readScalar(value: unknown): CellValue {
  if (value === null || value === undefined) return null;
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value === 'number') return Number.isFinite(value) ? value : { error: '#NUM!' };
  if (typeof value !== 'object') return { error: '#VALUE!' };
  if ('code' in value) return thrownError(value);
  // Rich values show their plain side.
  if ('basicValue' in value) return readScalar((value as { basicValue: unknown }).basicValue);
  return { error: '#VALUE!' };
}

function readAnswer(answer: unknown): Answer {
  if (!Array.isArray(answer)) return readScalar(answer);
  const rows = answer.map((row: unknown) => (Array.isArray(row) ? row.map(readScalar) : [readScalar(row)]));
  const width = Math.max(0, ...rows.map((row) => row.length));
  if (width === 0) return { error: '#CALC!' };
  return rows.map((row) =>
    Array.from({ length: width }, (_, i): CellValue =>
      i < row.length ? (row[i] ?? null) : { error: '#N/A' },
    ),
  );
}

/** The size that ranges given to scalar parameters spread a call over; 1 × 1 when there are none. */
function spread(fn: PreviewFunction, args: readonly Argument[]): { rows: number; columns: number } {
  let [rows, columns] = [1, 1];
  args.forEach((argument, i) => {
    const parameter = fn.parameters[i];
    if (!isMatrix(argument) || parameter === undefined) return;
    if (parameter.dimensionality === 'matrix' || parameter.repeating === true) return;
    rows = Math.max(rows, argument.length);
    columns = Math.max(columns, argument[0]?.length ?? 1);
  });
  return { rows, columns };
}

/**
 * Calls a function as a cell does. Never throws: what the function throws becomes an error value.
 *
 * @example callFunction(doubling, 'KEYROW.DOUBLE', [21]) // 42
 */
export function callFunction(fn: PreviewFunction, name: string, args: readonly Argument[]): Answer {
  const repeating = fn.parameters.at(-1)?.repeating === true;
  if (args.length > fn.parameters.length && !repeating) return { error: '#VALUE!' };
  const attempt = (given: readonly Argument[]): Answer => {
    try {
      return callOnce(fn, given, name);
    } catch (thrown) {
      return thrownError(thrown);
    }
  };
  const { rows, columns } = spread(fn, args);
  if (rows === 1 && columns === 1) return attempt(args);
  const pick = (argument: Argument, i: number, row: number, column: number): Argument => {
    const parameter = fn.parameters[i];
    if (!isMatrix(argument) || parameter?.dimensionality === 'matrix' || parameter?.repeating === true)
      return argument;
    const line = argument.length === 1 ? argument[0] : argument[row];
    const cell = line?.length === 1 ? line[0] : line?.[column];
    return cell === undefined ? { error: '#N/A' } : cell;
  };
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (__, column): CellValue => {
      const answer = attempt(args.map((argument, i) => pick(argument, i, row, column)));
      return Array.isArray(answer) ? ((answer[0] as readonly CellValue[])[0] ?? null) : (answer as CellValue);
    }),
  );
}
