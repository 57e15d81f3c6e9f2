/** The help's own pages: an index, a page for each task, the glossary and the cautions. Words in `taskHelpPages.ts`. */
import { escape, list, page, paragraph, section } from './helpPage.ts';
import { GLOSSARY } from './helpGlossary.ts';
import { CAUTIONS, type CautionName } from './helpCautions.ts';
import { TASK_PAGES, type TaskPage } from './taskHelpPages.ts';

/** The style sheet of the function pages does for these too. */
const CSS = 'functions/help.css';
const BACK = '<nav><a href="index.html">All help</a></nav>';

/** Path below the add-in's `help/` folder → content. */
export function taskHelp(): [path: string, content: string][] {
  return [
    ['index.html', indexPage()],
    ['glossary.html', glossaryPage()],
    ['cautions.html', cautionsPage()],
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
        `<ul>\n<li>${link('functions/index.html', 'Worksheet functions')}</li>\n<li>${link('glossary.html', 'The trade’s words')}</li>\n<li>${link('cautions.html', 'Cautions')}</li>\n<li>${link('licences.html', 'Licences')}</li>\n</ul>`,
      ),
    ].join('\n'),
    CSS,
  );
}

const FIRST_STEPS = [
  'Open the Keying pane from the Home tab.',
  'Empty workbook: choose Make keys, take a starter spec, type how many keys, press Make the keys, then Write the system.',
  'A workbook with keys in it: the pane says what it found and what is wrong; Audit a system tries every key in every cylinder.',
];

function taskPage({ title, what, steps, writes, trouble, cautions }: TaskPage): string {
  const remedies = trouble.map(([said, remedy]) => `<dt>${escape(said)}</dt>\n<dd>${escape(remedy)}</dd>`);
  return page(
    title,
    [
      BACK,
      `<h1>${escape(title)}</h1>`,
      paragraph(what),
      section('How', list(steps, 'ol')),
      section('What it writes', paragraph(writes)),
      section('When it says', `<dl>\n${remedies.join('\n')}\n</dl>`),
      ...cautions.map(caution),
    ].join('\n'),
    CSS,
  );
}

function caution(name: CautionName): string {
  const [heading, text] = CAUTIONS[name];
  return `<aside>\n<h2>${escape(heading)}</h2>\n${paragraph(text)}\n</aside>`;
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
