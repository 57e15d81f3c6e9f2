/** The worksheet functions that the add-in's page registered, as the stand-in spreadsheet calls them. */
import type { FunctionTable, PreviewFunction, PreviewParameter } from '../src/preview/grid/index.ts';

interface Metadata {
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description?: string;
    readonly parameters: readonly PreviewParameter[];
    readonly options?: { readonly allowErrorForDataTypeAny?: boolean };
  }[];
  readonly allowErrorForDataTypeAny?: boolean;
}

interface AddinPage extends Window {
  readonly CustomFunctions?: {
    readonly _association?: { readonly mappings: Readonly<Record<string, (...args: unknown[]) => unknown>> };
  };
}

const NAMESPACE = 'KEYROW';
const WAIT = 50;
const ATTEMPTS = 400;

/** Waits until the page has registered its functions, then pairs them with their metadata. */
export async function functionsOf(page: Window, metadataAddress: string): Promise<FunctionTable> {
  const metadata = (await (await fetch(metadataAddress)).json()) as Metadata;
  const mappings = await registered(page as AddinPage, metadata);
  return new Map(
    metadata.functions.map(({ id, name, description, parameters, options }): [string, PreviewFunction] => {
      const run = mappings[id.toUpperCase()]!;
      return [
        `${NAMESPACE}.${name.toUpperCase()}`,
        {
          parameters,
          ...(description === undefined ? {} : { description }),
          allowErrors: options?.allowErrorForDataTypeAny ?? metadata.allowErrorForDataTypeAny ?? false,
          call: (args) => run(...args),
        },
      ];
    }),
  );
}

async function registered(
  page: AddinPage,
  metadata: Metadata,
): Promise<Readonly<Record<string, (...args: unknown[]) => unknown>>> {
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const mappings = page.CustomFunctions?._association?.mappings ?? {};
    if (metadata.functions.every(({ id }) => id.toUpperCase() in mappings)) return mappings;
    await new Promise((resolve) => setTimeout(resolve, WAIT));
  }
  throw new Error('The add-in’s page did not register its functions.');
}
