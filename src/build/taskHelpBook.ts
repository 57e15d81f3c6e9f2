/** Help pages: care of the workbook itself. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const BOOK: readonly TaskPage[] = [
  {
    file: 'sample-data',
    title: 'Sample data',
    room: 'start',
    what: 'An invented hall on new sheets of this workbook, to try things with: its door schedule, its keys and grid, and a list of codes with a few faults.',
    steps: [
      'In a workbook without anything of the add-in’s, press *Sample data* under *Begin*.',
      'Read which sheets will be added, and press *Write the sample*.',
      'Try on it: *A key is lost*, *Check codes*, *Pin cylinders*. Select a key, a cylinder or a cell of the grid and look at the foot of the pane.',
      'Undo right afterwards takes the sample away. Later, delete its sheets, or go on in another workbook.',
    ],
    answers: [
      ['*Skip this*', 'The start screen then offers every task, and *Begin* is not shown again.'],
      ['*Try again*', 'The system could not be made the first time.'],
    ],
    writes: `The sheets Sample doors and Sample codes, and a system with its sheets: Specs, Systems, Keys, Cylinders and a grid. ${LEFT_ALONE}`,
    trouble: [
      [
        '*Sample data* is not there.',
        'It is offered only in a workbook that holds nothing of the add-in’s. Open an empty one.',
      ],
      [
        'Is any of it real?',
        'No. People, doors and bittings are invented; the spec is a starter from memory. Cut nothing by it.',
      ],
    ],
    example: 'The third code of the list, checked in a cell:',
    formulas: [
      [
        '=KEYROW.WHY("283456","S-018-6")',
        '"The 2 and 8 at cuts 1 and 2 differ by 6 steps; this spec allows 5. Choose depths closer together."',
      ],
    ],
    cautions: ['secret'],
  },
  {
    file: 'repair-and-freeze',
    title: 'Repair and freeze',
    room: 'repair',
    what: 'Looks after the formulas that the add-in wrote: puts back those that were typed over, deleted or broken, and turns formulas into values where a copy goes to somebody without the add-in.',
    steps: [
      'Open the screen, which reads the workbook afresh, and read *Formulas gone wrong*; *Go to cell* goes there.',
      'Press the button that puts them back, read which cells it concerns, then *Put them back*.',
      'To freeze, choose a table and press *Freeze this table*; or select cells anywhere and press *Freeze the selection*. Then *Freeze them*.',
    ],
    answers: [
      [
        'holds … where a formula was',
        'Somebody typed or pasted into the column Check or Combinations. The value goes when the formula comes back; undo brings it again.',
      ],
      [
        '#NAME?',
        'Excel did not know the function when it calculated, as happens just after a workbook was opened. Press *Read again* first; what still shows it is written anew.',
      ],
      [
        '#REF!',
        'Something that the formula named was deleted. The formula is written anew with the headings as they stand now.',
      ],
      [
        '*Stays a formula: it shows an error, or fills the cells around it.*',
        'As a value an error would stay for good. Repair it first, or leave it.',
      ],
    ],
    writes: `Cells of the columns Check in Keys and Combinations in Cylinders; when freezing, the formulas in the chosen table or selection that are one call of the add-in. Text becomes text, so that codes keep their zeros. ${LEFT_ALONE}`,
    trouble: [
      [
        '*No formula of the add-in stands in these cells. Choose others.*',
        'A formula of your own that only uses a function of the add-in is yours, and is left alone.',
      ],
      [
        'A column is missing.',
        'The formula needs it. Add it, or give the renamed column its name back, and try again.',
      ],
      [
        'Frozen cells are listed as gone wrong.',
        'Their formulas are no longer there, as you wished. Leave them, or put them back here.',
      ],
    ],
    example: 'A check as a formula, and what stands in the cell once it is frozen:',
    formulas: [
      [
        '=KEYROW.WHY("283456","S-018-6")',
        '"The 2 and 8 at cuts 1 and 2 differ by 6 steps; this spec allows 5. Choose depths closer together."',
      ],
    ],
    cautions: ['secret'],
  },
];
