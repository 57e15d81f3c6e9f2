/**
 * Help pages of the worksheet functions: one plain static page each, and an index, made from the doc comments.
 */
import { functionDocs, type FunctionDoc, type ParameterDoc } from './functionDocs.ts';
import { exampleFigure } from './helpExample.ts';
import { escape, page, paragraph, section, STYLE } from './helpPage.ts';

/** Path below the add-in's `help/` folder → content. */
export async function functionHelp(): Promise<[path: string, content: string][]> {
  const docs = functionDocs();
  return [
    ['functions/help.css', STYLE],
    ['functions/index.html', indexPage(docs)],
    ...docs.map((doc): [string, string] => [`functions/${doc.id.toLowerCase()}.html`, functionPage(doc)]),
  ];
}

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
      section(
        doc.examples.length > 1 ? 'Examples' : 'Example',
        doc.examples.map(({ formula, result }) => exampleFigure(formula, result)).join('\n'),
      ),
      section('Errors', doc.errors.map(paragraph).join('\n')),
      section('Source', doc.sources.map(paragraph).join('\n')),
    ].join('\n'),
  );
}

const argument = (p: ParameterDoc): string =>
  `<dt><code>${escape(p.name)}</code>${p.optional ? ' <span>may be left out</span>' : ''}</dt>\n<dd>${escape(p.description)}</dd>`;

function indexPage(docs: readonly FunctionDoc[]): string {
  const families = [...new Set(docs.map((doc) => doc.family))];
  const entry = (doc: FunctionDoc): string =>
    `<dt><a href="${doc.id.toLowerCase()}.html">${doc.id}</a></dt>\n<dd>${escape(doc.summary)}</dd>`;
  return page(
    'Keyrow worksheet functions',
    [
      '<nav><a href="../index.html">All help</a></nav>',
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
