/** A formula with its result, as the help shows it. */
import { parseResult, type Literal } from './formulaText.ts';
import { escape } from './helpPage.ts';

/** @param result as in the doc comments: `0.393`, `"OK"`, `{1;2}` */
export function exampleFigure(formula: string, result: string): string {
  const value = parseResult(result);
  const shown = Array.isArray(value) ? table(value) : `<p class="result">${escape(cell(value))}</p>`;
  return `<figure>\n<p><code>${escape(formula)}</code></p>\n${shown}\n</figure>`;
}

const table = (rows: readonly (readonly Literal[])[]): string =>
  `<div class="wide" role="group" tabindex="0" aria-label="Table"><table>\n${rows
    .map((row) => `<tr>${row.map((value) => `<td>${escape(cell(value))}</td>`).join('')}</tr>`)
    .join('\n')}\n</table></div>`;

const cell = (value: Literal): string =>
  typeof value === 'boolean' ? (value ? 'TRUE' : 'FALSE') : String(value);
