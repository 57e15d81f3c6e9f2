/**
 * Who refers to the sheets that an undo would take away: formulas on other sheets, defined names, and what refers
 * without a cell (`referencesBeside.ts`). They would turn into #REF!. INDIRECT names a sheet within a text: where the text
 * stands in the formula it counts, and where it is made up of cells the person is told to look. Links are left out: they
 * break without losing anything.
 */
import { addedSheets } from './blocks.ts';
import { isFormula, loadBox } from './cells.ts';
import { codeOf } from './formulaCode.ts';
import { fold } from './names.ts';
import type { UndoPlan } from './outcome.ts';
import { contains, formatPlace, place, type Place } from './places.ts';
import type { Conflict } from './plan.ts';
import { referencesBeside } from './referencesBeside.ts';

/**
 * Whether a formula refers to one of the sheets or tables; names are folded.
 * @example refersTo("=SUM('Keys'!A1:A9)", { sheets: new Set(['keys']), tables: new Set() }) → true
 */
export function refersTo(formula: string, { sheets, tables }: Going): boolean {
  const code = codeOf(formula);
  for (let at = code.indexOf('!'); at >= 0; at = code.indexOf('!', at + 1)) {
    // a reference through several sheets names the first and the last: Keys:Grid!A1
    const parts = sheetBefore(code, at).split(':');
    if (parts.some((part) => sheets.has(fold(part)))) return true;
  }
  // whole words, so that none is looked at from each of its letters; one before a "!" is a sheet, before a "(" a function
  for (const { 0: word, index } of code.matchAll(/[\p{L}\p{N}_.\\]+/gu)) {
    const name = word.replace(/^[\p{N}.]+/u, '');
    if (tables.has(fold(name)) && !/^\s*[!(]/.test(code.slice(index + word.length))) return true;
  }
  return false;
}

/** The sheet's name that ends before an exclamation mark, quoted or plain; blank where there is none. */
function sheetBefore(code: string, mark: number): string {
  let from = mark - 1;
  if (code[from] !== "'") {
    while (from >= 0 && /[\p{L}\p{N}\p{Cs}_.:]/u.test(code[from]!)) from--;
    return code.slice(from + 1, mark);
  }
  // back to the quote that stands alone: two of them are one within the name
  for (from--; from >= 0; from--) {
    if (code[from] !== "'") continue;
    if (code[from - 1] !== "'") break;
    from--;
  }
  return code.slice(from + 1, mark - 1).replaceAll("''", "'");
}

/**
 * How a formula looks a sheet or table up by its name in a text: it names one of these, it may, or it doesn't.
 * @example looksUp('=INDIRECT("Keys!A1")', names) → 'names'; looksUp('=INDIRECT(A1)', names) → 'may'
 */
export function looksUp(formula: string, going: Going): 'names' | 'may' | undefined {
  const texts: string[] = [];
  const code = formula.replace(/"([^"]*(?:""[^"]*)*)(?:"|$)/g, (_, text: string) => {
    texts.push(text.replaceAll('""', '"'));
    return '""';
  });
  if (!/\bINDIRECT\s*\(/i.test(code)) return undefined;
  const all = [...going.sheets, ...going.tables];
  if (texts.some((text) => refersTo(`=${text}`, going) || all.includes(fold(text.replace(/[!']/g, '')))))
    return 'names';
  // a text alone says all that it looks up
  return /\bINDIRECT\s*\((?!\s*""\s*[,)])/i.test(code) ? 'may' : undefined;
}

/** Folded names of what would be taken away. */
interface Going {
  readonly sheets: ReadonlySet<string>;
  readonly tables: ReadonlySet<string>;
}

export interface References {
  readonly found: readonly Conflict[];
  /** Sentences about what could not be looked into. */
  readonly doubts: readonly string[];
}

/** Every cell, name, rule and chart that stays and refers to a sheet that goes. */
export async function referencesTo(context: Excel.RequestContext, undo: UndoPlan): Promise<References> {
  const { worksheets, names } = context.workbook;
  const sheets = addedSheets(undo.steps);
  worksheets.load('items/name');
  names.load('items/name,items/formula');
  await context.sync();
  const going = worksheets.items.filter((sheet) => sheets.has(fold(sheet.name)));
  const staying = worksheets.items.filter((sheet) => !sheets.has(fold(sheet.name)));
  for (const sheet of going) sheet.tables.load('items/name');
  const used = staying.map((sheet) => {
    sheet.names.load('items/name,items/formula');
    const range = sheet.getUsedRangeOrNullObject(true);
    range.load('rowIndex,columnIndex,rowCount,columnCount');
    return { sheet, range };
  });
  await context.sync();
  const tables = new Set(going.flatMap((sheet) => sheet.tables.items.map((table) => fold(table.name))));
  const refers = (formula: unknown): boolean =>
    typeof formula === 'string' && formula.startsWith('=') && refersTo(formula, { sheets, tables });
  const beside = await referencesBeside(context, staying, refers);
  const unsure: Place[] = [];
  const found: Conflict[] = [...names.items, ...staying.flatMap((sheet) => sheet.names.items)]
    // what Excel keeps for printing and filtering goes with its sheet
    .filter((item) => !/^(?:_xlnm|Print_|_FilterDatabase)/i.test(item.name) && refers(item.formula))
    .map((item) => ({
      sentence: `The name ${item.name} refers to a sheet that would be taken away. Delete the name first.`,
      holds: String(item.formula),
    }));
  for (const { sheet, range } of used) {
    if (range.isNullObject) continue;
    const box = {
      sheet: sheet.name,
      row: range.rowIndex,
      column: range.columnIndex,
      rows: range.rowCount,
      columns: range.columnCount,
    };
    const ours = undo.after.filter(({ box: own }) => fold(own.sheet) === fold(sheet.name));
    const { formulas, values } = await loadBox(context, box);
    formulas.forEach((row, r) =>
      row.forEach((cell, c) => {
        // a text that begins with "=" breaks nowhere
        if (typeof cell !== 'string' || !isFormula(cell, values[r]![c]!)) return;
        if (ours.some((after) => contains(after.box, box.row + r, box.column + c))) return;
        const at = place(sheet.name, box.row + r, box.column + c);
        const lookUp = looksUp(cell, { sheets, tables });
        if (refers(cell) || lookUp === 'names')
          found.push({
            at,
            holds: cell,
            sentence:
              'This formula refers to a sheet that would be taken away, and would turn into #REF!. Change or delete it first.',
          });
        else if (lookUp === 'may') unsure.push(at);
      }),
    );
  }
  found.push(...beside.found);
  return { found, doubts: [...beside.doubts, ...sayUnsure(unsure)] };
}

function sayUnsure(places: readonly Place[]): string[] {
  if (places.length === 0) return [];
  const shown = places.slice(0, 3).map(formatPlace).join(', ');
  const more = places.length > 3 ? ` and ${places.length - 3} more` : '';
  return [
    `Which cells INDIRECT looks up at ${shown}${more} can’t be told. Check whether it still finds them.`,
  ];
}
