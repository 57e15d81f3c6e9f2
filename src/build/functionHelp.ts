/**
 * Help pages of the worksheet functions: one plain static page each, and an index, made from the doc comments. No
 * scripts and no inline styles, so that they show under a strict content security policy; light or dark as the
 * reader's system is; readable in a pane of 350 px.
 */
import { functionDocs, type FunctionDoc, type ParameterDoc } from './functionDocs.ts';
import { parseResult, type Literal } from './formulaText.ts';

/** Path below the add-in's `help/` folder → content. */
export async function functionHelp(): Promise<[path: string, content: string][]> {
  const docs = functionDocs();
  return [
    ['functions/help.css', STYLE],
    ['functions/index.html', indexPage(docs)],
    ...docs.map((doc): [string, string] => [`functions/${doc.id.toLowerCase()}.html`, functionPage(doc)]),
  ];
}

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escape(title)}</title>
<link rel="stylesheet" href="help.css">
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

const paragraph = (text: string): string => `<p>${escape(text)}</p>`;
const section = (heading: string, body: string): string => `<h2>${heading}</h2>\n${body}`;

function functionPage(doc: FunctionDoc): string {
  const signature = doc.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ');
  return page(
    `KEYROW.${doc.id}`,
    [
      '<nav><a href="index.html">All functions</a></nav>',
      `<h1>${doc.id}</h1>`,
      paragraph(doc.summary),
      `<p><code>=KEYROW.${doc.id}(${escape(signature)})</code></p>`,
      ...doc.details.map(paragraph),
      section('Arguments', `<dl>\n${doc.parameters.map(argument).join('\n')}\n</dl>`),
      section('Answer', paragraph(doc.returns)),
      section(doc.examples.length > 1 ? 'Examples' : 'Example', doc.examples.map(example).join('\n')),
      section('Errors', doc.errors.map(paragraph).join('\n')),
      section('Source', doc.sources.map(paragraph).join('\n')),
    ].join('\n'),
  );
}

const argument = (p: ParameterDoc): string =>
  `<dt><code>${escape(p.name)}</code>${p.optional ? ' <span>may be left out</span>' : ''}</dt>\n<dd>${escape(p.description)}</dd>`;

function example({ formula, result }: FunctionDoc['examples'][number]): string {
  const value = parseResult(result);
  const shown = Array.isArray(value) ? table(value) : `<p class="result">${escape(cell(value))}</p>`;
  return `<figure>\n<p><code>${escape(formula)}</code></p>\n${shown}\n</figure>`;
}

const table = (rows: readonly (readonly Literal[])[]): string =>
  `<div class="wide"><table>\n${rows
    .map((row) => `<tr>${row.map((value) => `<td>${escape(cell(value))}</td>`).join('')}</tr>`)
    .join('\n')}\n</table></div>`;

const cell = (value: Literal): string =>
  typeof value === 'boolean' ? (value ? 'TRUE' : 'FALSE') : String(value);

function indexPage(docs: readonly FunctionDoc[]): string {
  const families = [...new Set(docs.map((doc) => doc.family))];
  const entry = (doc: FunctionDoc): string =>
    `<dt><a href="${doc.id.toLowerCase()}.html">${doc.id}</a></dt>\n<dd>${escape(doc.summary)}</dd>`;
  return page(
    'Keyrow worksheet functions',
    [
      '<h1>Worksheet functions</h1>',
      paragraph(
        'Type them in a cell as =KEYROW.NAME(…). A function with its own answer in each row works inside tables; one that spills stands outside them.',
      ),
      paragraph(
        'The spec is a name. For a spec of your own give the range of the Specs table with its header row too, such as KeyrowSpecs[#All]; starter specs need no range. They are written from memory: check them against your depth and space data before you cut.',
      ),
      ...families.map((family) =>
        section(
          escape(family),
          `<dl>\n${docs
            .filter((doc) => doc.family === family)
            .map(entry)
            .join('\n')}\n</dl>`,
        ),
      ),
    ].join('\n'),
  );
}

const STYLE = `:root { color-scheme: light dark; }
body { margin: 0; font: 1rem/1.5 system-ui, sans-serif; background: Canvas; color: CanvasText; }
main { max-width: 42rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; margin: 0.5rem 0; overflow-wrap: anywhere; }
h2 { font-size: 1.125rem; margin: 1.5rem 0 0.5rem; }
code { font-family: ui-monospace, Consolas, monospace; overflow-wrap: anywhere; }
dt { margin-top: 0.75rem; }
dt span { font-size: 0.875rem; font-style: italic; }
dd { margin: 0 0 0 1rem; }
figure { margin: 0.75rem 0; padding: 0.5rem 0.75rem; border: 1px solid; border-radius: 0.25rem; }
figure p { margin: 0.25rem 0; overflow-wrap: anywhere; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
td { border: 1px solid; padding: 0.125rem 0.5rem; }
a:focus-visible { outline: 2px solid; outline-offset: 2px; }
`;
