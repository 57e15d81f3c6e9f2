/**
 * The sheet `Findings`: everything that the last audits found and everything in our sheets that could not be read,
 * one row each, with a link to the cell. It is derived, so a new run replaces it as a whole.
 */
import { severityOf, type Finding } from '../keying/findings.ts';
import { findingIn } from '../keying/shownIn.ts';
import type { Unit } from '../keying/units.ts';
import { say } from '../keying/wording.ts';
import { namesIn, placesOf } from './auditInput.ts';
import type { ColumnSpec } from './columns.ts';
import { findTable, systemNamed } from './find.ts';
import { labelOf } from './findingLabels.ts';
import { linkTo } from './formulas.ts';
import { TABLES } from './names.ts';
import type { Place } from './places.ts';
import type { CellInput, WritePlan } from './plan.ts';
import { replaceOrCreate } from './planRows.ts';
import { PlanBuilder } from './planTable.ts';
import type { BookReading, Problem } from './reading.ts';

export interface FindingsInput {
  readonly made: string;
  /** Unit of the lengths in the sentences; none = each spec's own. */
  readonly unit?: Unit | undefined;
  /** Findings of each audited system. */
  readonly audits: readonly {
    readonly system: string;
    readonly findings: readonly Finding[];
    /** Of an audit that was stopped: how far it came. It stands above the table, so that nobody takes it for whole. */
    readonly part?: string | undefined;
  }[];
}

const FINDING_COLUMNS: readonly ColumnSpec[] = [
  { heading: 'Severity', format: 'text', width: 12, needed: true },
  { heading: 'What', format: 'text', width: 22 },
  { heading: 'Where', format: 'general', width: 18 },
  { heading: 'System', format: 'text', width: 16 },
  { heading: 'Key', format: 'text', width: 10 },
  { heading: 'Cylinder', format: 'text', width: 12 },
  { heading: 'Detail', format: 'text', width: 80 },
];

/** Replaces the content of our Findings table, or adds the sheet. Reading problems of the book go in too. */
export function planFindings(book: BookReading, input: FindingsInput): WritePlan {
  const builder = new PlanBuilder(book);
  const rows = [
    ...book.problems.map(problemRow),
    ...input.audits.flatMap((audit) => auditRows(book, audit, input.unit)),
  ];
  // faults first, else in the order found
  rows.sort((a, b) => Number(a[0] !== 'Fault') - Number(b[0] !== 'Fault'));
  const audited = input.audits.map((audit) => audit.system).join(', ') || 'no system';
  const parts = input.audits.flatMap(({ system, part }) => (part === undefined ? [] : `${system}: ${part}`));
  const nothing: CellInput[] =
    parts.length === 0
      ? ['None', 'Nothing found', '', '', '', '', 'No fault and no warning.']
      : ['Note', 'Audit not finished', '', '', '', '', parts.join(' ')];
  const content = {
    table: TABLES.Findings,
    sheet: 'Findings',
    title: 'Findings',
    line: `${parts.map((part) => `PARTIAL. ${part} `).join('')}What the audit of ${audited} and the reading of the sheets found on ${input.made}. Each new audit replaces these rows.`,
    columns: FINDING_COLUMNS,
    rows: rows.length > 0 ? rows : [nothing],
    frozen: 3,
  };
  replaceOrCreate(builder, findTable(book.tables, TABLES.Findings), content);
  return builder.plan('Write the findings');
}

const SHOWN = { fault: 'Fault', warning: 'Warning', note: 'Note' } as const;

const link = (at: Place | undefined): CellInput => (at ? { formula: linkTo(at) } : '');

const problemRow = (problem: Problem): CellInput[] => [
  SHOWN[problem.severity],
  'Cell can’t be read',
  link(problem),
  '',
  '',
  '',
  problem.sentence,
];

function auditRows(
  book: BookReading,
  audit: FindingsInput['audits'][number],
  unit: Unit | undefined,
): CellInput[][] {
  const system = systemNamed(book, audit.system);
  return audit.findings.map((finding) => {
    const { key, cylinder } = namesIn(finding);
    const at = system && placesOf(system, finding)[0];
    return [
      SHOWN[severityOf(finding)],
      labelOf(finding),
      link(at),
      audit.system,
      key ?? '',
      cylinder ?? '',
      say(findingIn(finding, unit)),
    ];
  });
}
