/**
 * `functions.json`: what Excel knows of the worksheet functions, made from their doc comments by the add-in vendor's
 * `custom-functions-metadata`, then completed and checked. The generator takes names that look like cell addresses
 * and turns a union of types into `any` without a word, so names and types are checked here.
 *
 * Run by itself: `tsx src/build/functionsMetadata.ts dist/functions.json https://localhost:3000`.
 */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { generateCustomFunctionsMetadata } from 'custom-functions-metadata';
import { functionDocs, functionFiles, type FunctionDoc } from './functionDocs.ts';

export interface FunctionMetadata {
  id: string;
  name: string;
  description: string;
  helpUrl: string;
  parameters: {
    name: string;
    description?: string;
    type?: string;
    dimensionality?: string;
    optional?: boolean;
  }[];
  result: { type?: string; dimensionality?: string };
}

export interface FunctionsMetadata {
  /** A range with an error in one cell still reaches the function, which answers for the other cells. */
  allowErrorForDataTypeAny: true;
  functions: FunctionMetadata[];
}

/** Address of a function's help page, below the base address. */
export const helpPath = (id: string): string => `help/functions/${id.toLowerCase()}.html`;

/**
 * The text of `functions.json` for a base address without a trailing slash. Throws with every problem where a
 * function breaks a rule of Excel's or of ours.
 */
export async function functionsMetadata(base: string): Promise<string> {
  const docs = functionDocs();
  const generated = await generateCustomFunctionsMetadata(
    functionFiles().filter((file) => docs.some((doc) => doc.file === file)),
    false,
  );
  if (generated.errors.length > 0) throw new Error(generated.errors.join('\n'));
  const { functions } = JSON.parse(generated.metadataJson) as { functions: FunctionMetadata[] };
  const metadata: FunctionsMetadata = {
    allowErrorForDataTypeAny: true,
    functions: functions
      .map((f) => ({
        ...f,
        description: docs.find((doc) => doc.id === f.id)?.summary ?? '',
        helpUrl: `${base}/${helpPath(f.id)}`,
      }))
      .sort((a, b) => (a.id < b.id ? -1 : 1)),
  };
  const problems = [...metadataProblems(metadata), ...docProblems(docs)];
  if (problems.length > 0) throw new Error(problems.join('\n'));
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

/** Longest text that Excel shows for a function or a parameter without cutting it, by our own rule. */
const LONGEST_DESCRIPTION = 255;

/** What is wrong with the metadata; none when Excel can load it. */
export function metadataProblems({ functions }: FunctionsMetadata): string[] {
  const problems: string[] = [];
  const seen = new Set<string>();
  for (const f of functions) {
    const say = (text: string): number => problems.push(`${f.id}: ${text}`);
    if (seen.has(f.id)) say('the id is there twice');
    seen.add(f.id);
    if (f.name !== f.id) say(`the name ${f.name} is not the id`);
    if (!/^[A-Z][A-Z.]{2,127}$/.test(f.name))
      say('a name has at least 3 capital letters, and no digit, which could make it a cell address');
    if (!/^https:\/\//.test(f.helpUrl)) say('no https help address');
    if (f.description === '' || f.description.length > LONGEST_DESCRIPTION)
      say(`the description has ${f.description.length} characters, not 1 to ${LONGEST_DESCRIPTION}`);
    let optional = false;
    for (const p of f.parameters) {
      if (!p.description || p.description.length > LONGEST_DESCRIPTION)
        say(`the parameter ${p.name} has no description, or too long a one`);
      if (optional && !p.optional) say(`the parameter ${p.name} must be optional after an optional one`);
      optional ||= p.optional === true;
    }
  }
  return problems;
}

/** Types that a parameter may be written with: `unknown` is read by cells.ts, which refuses what isn't right. */
const PARAMETER_TYPES = new Set(['unknown', 'string', 'unknown[][]']);

/** A union only where a blank is answered with a blank, and `unknown` only in the cells of a spill. */
const RESULT_TYPES = new Set([
  'string',
  'number',
  'boolean | string',
  'number | string',
  'number[][]',
  'unknown[][]',
]);

/** What is wrong with the doc comments and the types in the sources. */
export function docProblems(docs: readonly FunctionDoc[]): string[] {
  const problems: string[] = [];
  for (const doc of docs) {
    const say = (text: string): number => problems.push(`${doc.id} (${doc.file}): ${text}`);
    for (const p of doc.parameters) {
      if (!PARAMETER_TYPES.has(p.type))
        say(`the parameter ${p.name} is a ${p.type}; use ${[...PARAMETER_TYPES].join(', ')}`);
      if (!p.description) say(`the parameter ${p.name} has no @param line`);
    }
    if (!RESULT_TYPES.has(doc.resultType)) say(`the result is a ${doc.resultType}`);
    if (!doc.family) say('the file does not start with “Worksheet functions: …”');
    if (!doc.returns) say('no @returns line');
    if (doc.examples.length === 0) say('no @example line');
    if (doc.examples.some((e) => !e.formula.startsWith('=KEYROW.') || e.result === ''))
      say('an @example line is not “=KEYROW.NAME(…) → result”');
    if (doc.errors.length === 0) say('no @errors line');
    if (doc.sources.length === 0) say('no @source line');
    const specs = doc.parameters.findIndex((p) => p.name === 'specs');
    const spec = doc.parameters.findIndex((p) => p.name === 'spec');
    // a function that looks for a spec takes the table alone
    if (specs < 0 || (spec >= 0 && specs !== spec + 1))
      say('the parameter specs must stand right after spec');
  }
  return problems;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [, , outFile, base] = process.argv;
  if (!outFile || !base) throw new Error('usage: tsx src/build/functionsMetadata.ts <outFile> <baseUrl>');
  writeFileSync(outFile, await functionsMetadata(base.replace(/\/+$/, '')));
}
