/** The add-in's metadata and implementations as one table. */
import type { FunctionTable, PreviewFunction, PreviewParameter } from './arguments.ts';

/** `functions.json` as far as the grid reads it. */
export interface FunctionsMetadata {
  readonly allowErrorForDataTypeAny?: boolean;
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description?: string;
    readonly parameters?: readonly PreviewParameter[];
  }[];
}

/**
 * Joins metadata with what the add-in associated. Functions without an implementation are left out, so their cells
 * show `#NAME?` as in Excel before an add-in has loaded.
 *
 * @param associated by id, as given to `CustomFunctions.associate`
 */
export function functionTable(
  namespace: string,
  metadata: FunctionsMetadata,
  associated: ReadonlyMap<string, (...args: never[]) => unknown>,
): FunctionTable {
  const table = new Map<string, PreviewFunction>();
  for (const { id, name, description, parameters } of metadata.functions) {
    const implementation = associated.get(id);
    if (implementation === undefined) continue;
    table.set(`${namespace}.${name}`.toUpperCase(), {
      parameters: parameters ?? [],
      allowErrors: metadata.allowErrorForDataTypeAny === true,
      ...(description === undefined ? {} : { description }),
      call: (args) => implementation(...(args as never[])),
    });
  }
  return table;
}
