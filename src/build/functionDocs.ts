/**
 * The doc comments of the worksheet functions as data: the one source of the help pages, the lint and the tests that
 * run the examples. Read with the TypeScript parser, without running anything.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

export interface ParameterDoc {
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
  /** As written in the source: `unknown`, `string`, `unknown[][]`. */
  readonly type: string;
}

export interface FunctionDoc {
  readonly id: string;
  readonly file: string;
  /** What the file's functions are about, from its header: `Where the cuts lie and how deep they are`. */
  readonly family: string;
  /** First paragraph: what Excel shows while the formula is typed. */
  readonly summary: string;
  readonly details: readonly string[];
  readonly parameters: readonly ParameterDoc[];
  readonly returns: string;
  readonly resultType: string;
  readonly examples: readonly { readonly formula: string; readonly result: string }[];
  readonly errors: readonly string[];
  readonly sources: readonly string[];
}

export const FUNCTIONS_FOLDER = 'functions';

/** Every source of the folder, in a fixed order. */
export function functionFiles(folder = FUNCTIONS_FOLDER): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .map((name) => join(folder, name));
}

/** The docs of every function marked `@customfunction`, by id. */
export function functionDocs(files: readonly string[] = functionFiles()): FunctionDoc[] {
  return files.flatMap(docsOfFile).sort((a, b) => (a.id < b.id ? -1 : 1));
}

function docsOfFile(file: string): FunctionDoc[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((statement) => {
    if (!ts.isFunctionDeclaration(statement)) return [];
    const tags = ts.getJSDocTags(statement);
    const marker = tags.find((tag) => tag.tagName.text === 'customfunction');
    return marker ? [docOf(file, statement, tags, textOf(marker.comment))] : [];
  });
}

function docOf(
  file: string,
  node: ts.FunctionDeclaration,
  tags: readonly ts.JSDocTag[],
  id: string,
): FunctionDoc {
  const all = (name: string): string[] =>
    tags.filter((tag) => tag.tagName.text === name).map((tag) => textOf(tag.comment));
  const [summary = '', ...details] = commentOf(node)
    .split(/\n\s*\n/)
    .map(oneLine);
  return {
    id,
    file,
    family: familyOf(node.getSourceFile().text),
    summary,
    details,
    parameters: node.parameters.map((parameter) => {
      const tag = ts.getJSDocParameterTags(parameter)[0];
      return {
        name: parameter.name.getText(),
        description: textOf(tag?.comment),
        optional: parameter.questionToken !== undefined,
        type: parameter.type?.getText() ?? '',
      };
    }),
    returns: all('returns')[0] ?? '',
    resultType: node.type?.getText() ?? '',
    examples: all('example').map((text) => {
      const [formula = '', result = ''] = text.split(' → ');
      return { formula, result };
    }),
    errors: all('errors'),
    sources: all('source'),
  };
}

/** The first sentence of a header that starts with `Worksheet functions:`. */
function familyOf(source: string): string {
  const header = /^\/\*\*\s*Worksheet functions: ([^.?]+[.?]?)/.exec(source)?.[1] ?? '';
  return oneLine(header.charAt(0).toUpperCase() + header.slice(1)).replace(/\.$/, '');
}

function commentOf(node: ts.FunctionDeclaration): string {
  const doc = ts.getJSDocCommentsAndTags(node).find(ts.isJSDoc);
  return (ts.getTextOfJSDocComment(doc?.comment) ?? '').trim();
}

const textOf = (comment: string | ts.NodeArray<ts.JSDocComment> | undefined): string =>
  oneLine(ts.getTextOfJSDocComment(comment) ?? '');

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
