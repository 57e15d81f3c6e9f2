/** The worksheet functions that the add-in's page registered, as the stand-in spreadsheet calls them. */
import { functionTable, type FunctionsMetadata, type FunctionTable } from '../../src/preview/grid/index.ts';

type Implementation = (...args: never[]) => unknown;

interface AddinPage extends Window {
  readonly CustomFunctions?: {
    readonly _association?: { readonly mappings: Readonly<Record<string, Implementation>> };
  };
}

const NAMESPACE = 'KEYROW';
const WAIT = 50;
const ATTEMPTS = 400;

/** Waits until the page has registered its functions, then pairs them with their metadata. */
export async function functionsOf(page: Window, metadataAddress: string): Promise<FunctionTable> {
  const metadata = (await (await fetch(metadataAddress)).json()) as FunctionsMetadata;
  const mappings = await registered(page, metadata);
  return functionTable(NAMESPACE, metadata, new Map(Object.entries(mappings)));
}

async function registered(
  page: AddinPage,
  metadata: FunctionsMetadata,
): Promise<Readonly<Record<string, Implementation>>> {
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const mappings = page.CustomFunctions?._association?.mappings ?? {};
    if (metadata.functions.every(({ id }) => id.toUpperCase() in mappings)) return mappings;
    await new Promise((resolve) => setTimeout(resolve, WAIT));
  }
  throw new Error('The add-in’s page did not register its functions.');
}
