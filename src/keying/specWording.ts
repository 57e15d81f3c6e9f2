/**
 * Words for what is wrong in the `Specs` table and in a chamber's cell: what is wrong, in which column, what to do.
 * The address of the row is added by whoever knows the sheet.
 */
import type { ChamberFault } from './chamberText.ts';
import { NEEDED_COLUMNS } from './specRow.ts';
import type { SpecCellFault } from './specTable.ts';
import { say } from './wording.ts';
import { brief } from './words.ts';

/** @example saySpecFault({ column: 'Unit', fault: { code: 'cell-blank' } }) → 'Unit is blank; fill it in.' */
export const saySpecFault = (found: Pick<SpecCellFault, 'column' | 'fault'>): string =>
  brief(specFault(found));

function specFault({ column, fault }: Pick<SpecCellFault, 'column' | 'fault'>): string {
  switch (fault.code) {
    case 'table-empty':
      return `The table has no header row; its first row must hold the column names (${NEEDED_COLUMNS.join(', ')} at least).`;
    case 'column-missing':
      return `The column ${column} is missing; add a column with that header.`;
    case 'column-repeated':
      return `There are two columns called ${column}; rename one of them.`;
    case 'name-reserved':
      return `The name ${fault.name} belongs to a starter spec with other dimensions; give this row a name of its own.`;
    case 'name-repeated':
      return `Two rows are called ${fault.name}; give each spec a name of its own.`;
    case 'cell-blank':
      return `${column} is blank; fill it in.`;
    case 'cell-not-length':
      return `${column}: “${fault.text}” is not a length; write a number in the row's unit, such as 0.237.`;
    case 'cell-not-number':
      return `${column}: “${fault.text}” is not a number.`;
    case 'cell-not-choice':
      return `${column}: “${fault.text}” is not one of ${fault.choices.join(', ')}.`;
    case 'list-not-lengths':
      return `${column}: “${fault.text}” is not a length; write them as 0.237; 0.393; 0.549.`;
    case 'list-not-depths':
      return `${column}: “${fault.text}” is not a symbol and a length; write them as 0=0.315; 1=0.297.`;
    case 'list-symbol-repeated':
      return `${column}: the symbol ${fault.symbol} stands there twice.`;
    case 'centres-twice':
      return 'Centres are given as a list and as First cut and Spacing; leave one of the two blank.';
    case 'core-half':
      return `${column} is blank; an interchangeable core needs both Core total and Core addition.`;
    case 'pin-without-depth':
      return `Pins: there is no depth ${fault.symbol} in the column Depths.`;
    default:
      return `${column}: ${say(fault)}`;
  }
}

/** @example sayChamberFault({ code: 'chamber-blank' }) → 'the cell is blank; write any for an empty chamber' */
export const sayChamberFault = (fault: ChamberFault): string => brief(chamberFault(fault));

function chamberFault(fault: ChamberFault): string {
  switch (fault.code) {
    case 'chamber-blank':
      return 'the cell is blank; write any for an empty chamber';
    case 'chamber-not-depths':
      return `“${fault.text}” is not a list of depths; write them with spaces, such as 2 6`;
    case 'chamber-run-together':
      return `“${fault.text}” runs together; write the depths as text with spaces: ${fault.suggestion}`;
    case 'chamber-depth-repeated':
      return `the depth ${fault.symbol} stands there twice`;
    case 'chamber-depth-unknown':
      return `there is no depth ${fault.symbol}; the depths are ${fault.allowed.join(' ')}`;
  }
}
