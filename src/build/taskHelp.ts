/** The help's own pages: an index, a page for each task, the glossary and the cautions. Words in `taskHelpPages.ts`. */
import { exampleFigure } from './helpExample.ts';
import { hostingPage } from './helpHosting.ts';
import { escape, list, page, paragraph, section } from './helpPage.ts';
import { GLOSSARY } from './helpGlossary.ts';
import { CAUTIONS, type CautionName } from './helpCautions.ts';
import type { TaskPage } from './taskHelpPage.ts';
import { TASK_PAGES } from './taskHelpPages.ts';

/** The style sheet of the function pages does for these too. */
const CSS = 'functions/help.css';
const BACK = '<nav><a href="index.html">All help</a></nav>';

/** Path below the add-in's `help/` folder → content. */
export function taskHelp(): [path: string, content: string][] {
  return [
    ['index.html', indexPage()],
    ['glossary.html', glossaryPage()],
    ['cautions.html', cautionsPage()],
    ['hosting.html', hostingPage(CSS)],
    ...TASK_PAGES.map((task): [string, string] => [`${task.file}.html`, taskPage(task)]),
  ];
}

const link = (file: string, text: string): string => `<a href="${file}">${escape(text)}</a>`;

function indexPage(): string {
  return page(
    'Keyrow help',
    [
      '<h1>Keyrow help</h1>',
      paragraph(
        'Keying schedules in your own workbook. The pane makes, checks and audits; the worksheet functions do the same cell by cell. Nothing is written that a plan has not shown, and nothing leaves this computer.',
      ),
      section('In a hurry', list(FIRST_STEPS, 'ol')),
      '<p>In any cell <code>=KEYROW.WHY("274153","S-018-6")</code> says in words whether a code is good.</p>',
      section(
        'Tasks',
        `<dl>\n${TASK_PAGES.map(({ file, title, what }) => `<dt>${link(`${file}.html`, title)}</dt>\n<dd>${escape(what)}</dd>`).join('\n')}\n</dl>`,
      ),
      section(
        'To look up',
        `<ul>\n<li>${link('functions/index.html', 'Worksheet functions')}</li>\n<li>${link('glossary.html', 'The trade’s words')}</li>\n<li>${link('cautions.html', 'Cautions')}</li>\n<li>${link('hosting.html', 'Put it on your computers')}</li>\n<li>${link('licences.html', 'Licences')}</li>\n</ul>`,
      ),
    ].join('\n'),
    CSS,
  );
}

const FIRST_STEPS = [
  'Open the Keying pane from the Home tab.',
  'Empty workbook: choose Make keys, take a starter spec, type how many keys, press Make the keys, then Write the system. Or press Sample data for an invented hall to try things with.',
  'A workbook with keys in it: the pane says what it found and what is wrong; Audit a system tries every key in every cylinder.',
];

/** Text with *words of the pane* as HTML. */
const rich = (text: string): string => escape(text).replace(/\*([^*]+)\*/g, '<b>$1</b>');

const richPairs = (pairs: readonly (readonly [string, string])[]): string =>
  `<dl>\n${pairs.map(([term, text]) => `<dt>${rich(term)}</dt>\n<dd>${rich(text)}</dd>`).join('\n')}\n</dl>`;

function taskPage(task: TaskPage): string {
  const { title, what, steps, answers, writes, trouble, example, formulas = [], cautions } = task;
  return page(
    title,
    [
      BACK,
      `<h1>${escape(title)}</h1>`,
      `<p>${rich(what)}</p>`,
      section('How', `<ol>\n${steps.map((step) => `<li>${rich(step)}</li>`).join('\n')}\n</ol>`),
      section('What the answer means', richPairs(answers)),
      section('What it writes', `<p>${rich(writes)}</p>`),
      section('When it says', richPairs(trouble)),
      section(
        'For example',
        [
          `<p>${rich(example)}</p>`,
          ...formulas.map(([formula, result]) => exampleFigure(formula, result)),
        ].join('\n'),
      ),
      ...cautions.map(caution),
    ].join('\n'),
    CSS,
  );
}

function caution(name: CautionName): string {
  const [heading, text] = CAUTIONS[name];
  return `<aside aria-label="${escape(heading)}">\n<h2>${escape(heading)}</h2>\n${paragraph(text)}\n</aside>`;
}

function glossaryPage(): string {
  const entries = GLOSSARY.map(([word, meaning]) => `<dt>${escape(word)}</dt>\n<dd>${escape(meaning)}</dd>`);
  return page(
    'The trade’s words',
    [BACK, '<h1>The trade’s words</h1>', `<dl>\n${entries.join('\n')}\n</dl>`].join('\n'),
    CSS,
  );
}

function cautionsPage(): string {
  const all = (Object.keys(CAUTIONS) as CautionName[]).map((name) =>
    section(escape(CAUTIONS[name][0]), paragraph(CAUTIONS[name][1])),
  );
  return page('Cautions', [BACK, '<h1>Cautions</h1>', ...all].join('\n'), CSS);
}
