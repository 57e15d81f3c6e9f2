/**
 * Hiding and protecting sheets that hold bittings: offered, never done unasked, and taken back in one go. It keeps out
 * slips of the hand and no more, which the pane says beside the button. No cell is touched. Without a password: one
 * that is forgotten would lock the shop out of its own keys, and it would not keep anybody else out.
 */
import { explain } from './excelErrors.ts';
import { runExcel } from './excelRun.ts';
import { sameName } from './names.ts';
import type { Conflict } from './plan.ts';
import type { BookReading } from './reading.ts';
import { secretSheets } from './secretCells.ts';

export interface PrivacyStep {
  readonly sheet: string;
  readonly act: 'hide' | 'show' | 'protect' | 'unprotect';
}

export interface PrivacyPlan {
  readonly steps: readonly PrivacyStep[];
  /** "Hides Keys and Systems; protects Keys; touches no cell." */
  readonly sentence: string;
  readonly conflicts: readonly Conflict[];
}

/**
 * What hiding or protecting the sheets with bittings takes; those that are so already are left alone. `also` names
 * further sheets that the user chose.
 */
export function planPrivacy(
  book: BookReading,
  wanted: { readonly hide: boolean; readonly protect: boolean },
  also: readonly string[] = [],
): PrivacyPlan {
  const names = [...secretSheets(book), ...also];
  const sheets = book.sheets.filter((sheet) => names.includes(sheet.name));
  const steps: PrivacyStep[] = [
    ...(wanted.protect
      ? sheets.filter((s) => !s.protected).map((s) => ({ sheet: s.name, act: 'protect' as const }))
      : []),
    ...(wanted.hide
      ? sheets.filter((s) => s.visible).map((s) => ({ sheet: s.name, act: 'hide' as const }))
      : []),
  ];
  return { steps, sentence: sentenceOf(steps, true), conflicts: conflictsOf(book, steps) };
}

/** The reverse for every sheet with bittings that is hidden or protected now. */
export function planOpenUp(book: BookReading, also: readonly string[] = []): PrivacyPlan {
  const names = [...secretSheets(book), ...also];
  const sheets = book.sheets.filter((sheet) => names.includes(sheet.name));
  const steps: PrivacyStep[] = [
    ...sheets.filter((s) => !s.visible).map((s) => ({ sheet: s.name, act: 'show' as const })),
    ...sheets.filter((s) => s.protected).map((s) => ({ sheet: s.name, act: 'unprotect' as const })),
  ];
  return { steps, sentence: sentenceOf(steps, true), conflicts: conflictsOf(book, steps) };
}

function conflictsOf(book: BookReading, steps: readonly PrivacyStep[]): Conflict[] {
  const conflicts: Conflict[] = [];
  const visibility = steps.some(({ act }) => act === 'hide' || act === 'show');
  if (visibility && book.structureProtected)
    conflicts.push({
      sentence:
        'The workbook’s structure is protected, so no sheet can be hidden or shown. Take that protection off first.',
    });
  const hidden = new Set(steps.filter(({ act }) => act === 'hide').map(({ sheet }) => sheet));
  const left = book.sheets.filter((sheet) => sheet.visible && !hidden.has(sheet.name));
  if (hidden.size > 0 && left.length === 0)
    conflicts.push({ sentence: 'One sheet has to stay visible. Add a sheet without bittings first.' });
  return conflicts;
}

const WORDS: Readonly<Record<PrivacyStep['act'], readonly [ahead: string, done: string]>> = {
  protect: ['protects', 'protected'],
  hide: ['hides', 'hid'],
  show: ['shows', 'showed'],
  unprotect: ['takes the protection off', 'took the protection off'],
};

function sentenceOf(steps: readonly PrivacyStep[], ahead: boolean): string {
  const parts = (['protect', 'hide', 'show', 'unprotect'] as const).flatMap((act) => {
    const sheets = steps.filter((step) => step.act === act).map((step) => step.sheet);
    return sheets.length === 0 ? [] : [`${WORDS[act][ahead ? 0 : 1]} ${sheets.join(', ')}`];
  });
  if (parts.length === 0) return 'There is nothing to change.';
  const all = parts.join('; ') + (ahead ? '; touches no cell.' : '.');
  return all.charAt(0).toUpperCase() + all.slice(1);
}

export type PrivacyOutcome =
  | { readonly outcome: 'done'; readonly sentence: string; readonly undo: readonly PrivacyStep[] }
  | { readonly outcome: 'failed'; readonly sentence: string };

const REVERSE: Readonly<Record<PrivacyStep['act'], PrivacyStep['act']>> = {
  protect: 'unprotect',
  unprotect: 'protect',
  hide: 'show',
  show: 'hide',
};

/** Carries the steps out in one request; where Excel refuses one, those before it are taken back. */
export async function applyPrivacy(steps: readonly PrivacyStep[]): Promise<PrivacyOutcome> {
  const undo = [...steps].reverse().map(({ sheet, act }) => ({ sheet, act: REVERSE[act] }));
  try {
    await carryOut(steps);
    return { outcome: 'done', sentence: sentenceOf(steps, false), undo };
  } catch (error) {
    const { sentence } = explain(error);
    try {
      await carryOut(undo);
      return { outcome: 'failed', sentence: `${sentence} The sheets are as they were before.` };
    } catch (again) {
      explain(again);
      return { outcome: 'failed', sentence: `${sentence} Check which sheets are hidden or protected now.` };
    }
  }
}

/** Steps whose state is there already are passed over, so that repeating does no harm. */
async function carryOut(steps: readonly PrivacyStep[]): Promise<void> {
  await runExcel(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/name,items/visibility');
    await context.sync();
    const found = steps.flatMap((step) => {
      const sheet = worksheets.items.find((item) => sameName(item.name, step.sheet));
      sheet?.protection.load('protected');
      return sheet ? [{ step, sheet }] : [];
    });
    await context.sync();
    for (const { step, sheet } of found) {
      if (step.act === 'hide') sheet.visibility = 'Hidden';
      if (step.act === 'show') sheet.visibility = 'Visible';
      if (step.act === 'protect' && !sheet.protection.protected)
        sheet.protection.protect({ allowAutoFilter: true, allowFormatColumns: true });
      if (step.act === 'unprotect' && sheet.protection.protected) sheet.protection.unprotect();
    }
    await context.sync();
  });
}
