/** Help pages: care of the workbook itself. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const BOOK: readonly TaskPage[] = [
  {
    file: 'repair-and-freeze',
    title: 'Repair and freeze',
    room: 'repair',
    what: 'Looks after the formulas that the add-in wrote: puts back those that were typed over, deleted or broken, and turns formulas into values where a copy goes to somebody without the add-in.',
    steps: [
      'Open the screen and read *Formulas gone wrong*; *Go to cell* goes there.',
      'Press the button that puts them back, read which cells it concerns, then *Put them back*.',
      'To freeze, choose a table and press *Freeze this table*; or select cells anywhere and press *Freeze the selection*. Then *Freeze them*.',
    ],
    answers: [
      [
        'holds … where a formula was',
        'Somebody typed or pasted into the column Check or Combinations. The value goes when the formula comes back; undo brings it again.',
      ],
      ['#NAME?', 'Excel did not know the function when it calculated. The formula is written anew.'],
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
