/** The add-in's functions as executors of the calculation engine. */
import type { Nullable } from '@univerjs/core';
import {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorValueObject,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
  FunctionType,
  type BaseValueObject,
  type ErrorType,
  type IFunctionInfo,
} from '@univerjs/engine-formula';
import { ERROR_CODES } from '../model/input.ts';
import type { CellValue, ErrorCode } from '../model/types.ts';
import { callFunction, type Argument, type FunctionTable, type Scalar } from './arguments.ts';

/** Messages of errors by the cell whose formula gave them: the engine's own cells have no room for them. */
export type MessageSink = (sheetId: string, row: number, column: number, message: string | undefined) => void;

function scalarOf(value: Nullable<BaseValueObject>): Scalar {
  if (!value || value.isNull()) return null;
  const plain: unknown = value.getValue();
  if (value.isError()) {
    const error = ERROR_CODES.find(
      (code) => code === (value as unknown as { getErrorType(): string }).getErrorType(),
    );
    return { error: error ?? '#VALUE!' };
  }
  return typeof plain === 'string' || typeof plain === 'number' || typeof plain === 'boolean' ? plain : null;
}

function argumentOf(value: BaseValueObject): Argument {
  // A reference to one cell arrives as a matrix of one; it is a scalar where a scalar is wanted.
  if (value.isArray()) return (value as ArrayValueObject).getArrayValue().map((row) => row.map(scalarOf));
  return scalarOf(value);
}

const engineError = (code: ErrorCode): ErrorValueObject =>
  ErrorValueObject.create(code as unknown as ErrorType);

function valueObject(value: CellValue): BaseValueObject {
  if (value === null) return NullValueObject.create();
  // Text is made text on purpose: the engine's own factory reads numbers into it and drops leading zeros.
  if (typeof value === 'string') return StringValueObject.create(value);
  if (typeof value === 'number') return NumberValueObject.create(value);
  if (typeof value === 'boolean') return BooleanValueObject.create(value);
  return engineError(value.error);
}

/** An engine function for every entry of the table. The table is asked again at each call, so it may change. */
export function executorsFor(table: () => FunctionTable, note: MessageSink): BaseFunction[] {
  return [...table().keys()].map((name) => new AddinExecutor(name, table, note));
}

class AddinExecutor extends BaseFunction {
  override minParams = 0;
  override maxParams = 255;

  constructor(
    private readonly fullName: string,
    private readonly table: () => FunctionTable,
    private readonly note: MessageSink,
  ) {
    super(fullName);
  }

  override calculate(...variants: BaseValueObject[]): BaseValueObject {
    const fn = this.table().get(this.fullName);
    if (fn === undefined) return engineError('#NAME?');
    const args = variants.map(argumentOf).map((argument, i) => {
      // An argument left out (`F(A1,,2)`) comes as null and not as a reference to a blank cell.
      return argument === null && fn.parameters[i]?.optional === true && variants[i]?.isNull() === true
        ? undefined
        : argument;
    });
    const answer = callFunction(fn, this.fullName, args);
    const isMatrix = Array.isArray(answer);
    const first: CellValue = isMatrix
      ? ((answer as readonly (readonly CellValue[])[])[0]?.[0] ?? null)
      : (answer as CellValue);
    const message = first !== null && typeof first === 'object' ? first.message : undefined;
    this.note(this.subUnitId ?? '', this.row, this.column, message);
    if (!isMatrix) return valueObject(first);
    const rows = answer as readonly (readonly CellValue[])[];
    return ArrayValueObject.create({
      calculateValueList: rows.map((row) => row.map(valueObject)),
      rowCount: rows.length,
      columnCount: rows[0]?.length ?? 0,
      unitId: this.unitId ?? '',
      sheetId: this.subUnitId ?? '',
      row: -1,
      column: -1,
    });
  }
}

/** What the component shows while a function's name is typed. */
export function describeFunctions(table: FunctionTable): IFunctionInfo[] {
  return [...table].map(([name, fn]) => ({
    functionName: name,
    functionType: FunctionType.User,
    description: fn.description ?? '',
    abstract: fn.description ?? '',
    functionParameter: fn.parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.name,
      example: '',
      require: parameter.optional === true ? 0 : 1,
      repeat: parameter.repeating === true ? 1 : 0,
    })),
  }));
}
