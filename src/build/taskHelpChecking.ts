/** Help pages: checking, auditing and pinning what stands in the sheets. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const CHECKING: readonly TaskPage[] = [
  {
    file: 'check-codes',
    title: 'Check codes',
    room: 'check',
    what: 'Are these codes good? Length, depths, MACS, too many equal cuts, codes that stand twice, and what else is switched on.',
    steps: [
      'Select the cells that hold the codes, or one cell of their table.',
      'Choose the *Spec*; open *Rules* to switch some on or off.',
      'Press *Check the selection*. If the wrong column was taken, choose another under *Column with the codes*.',
      'Read *Row by row*; each line goes to its cell.',
      'If the check is to stay in the sheet, press *Add a check column*, then *Add the column*.',
    ],
    answers: [
      ['Good', 'The code can be cut on this spec and breaks none of the rules that are switched on.'],
      ['A fault', 'The key can’t be cut so, or breaks a rule. The sentence says which cuts and what to do.'],
      ['A warning', 'The code stands twice, or lies near another. Both may be meant.'],
    ],
    writes: `One column of formulas to the right of the table or the cells. ${LEFT_ALONE} *The column follows the sheet: correct a code and its check changes with it.*`,
    trouble: [
      [
        'A code is one digit short.',
        'The cell is a number and has lost a leading zero. Make the cell text and type the code again.',
      ],
      [
        'Two cuts differ by too many steps.',
        'The cutter would eat the flat of the neighbour. Choose depths closer together.',
      ],
      [
        '*These cells are all empty. Choose another column, or select the codes.*',
        'The column that was taken holds no codes.',
      ],
    ],
    example: 'The same check in a cell, for one code:',
    formulas: [
      ['=KEYROW.CHECK("274153","S-018-6")', 'TRUE'],
      [
        '=KEYROW.WHY("283456","S-018-6")',
        '"The 2 and 8 at cuts 1 and 2 differ by 6 steps; this spec allows 5. Choose depths closer together."',
      ],
    ],
    cautions: ['secret'],
  },
  {
    file: 'audit-a-system',
    title: 'Audit a system',
    room: 'audit',
    what: 'Every key against every cylinder, as they stand in the sheets now. It finds keys that open what they should not and keys that do not open what they should.',
    steps: [
      'Choose the system if there are several, and press the audit button. *Stop* ends it early: what was found until then is shown, marked as a part.',
      'Read *Findings by kind*, then the picture of the grid; choose a cell of it to see why this key opens this door, chamber by chamber.',
      '*One by one* lists each finding; *Go to cell* goes there.',
      'Press *Write the findings to a sheet*, then *Write to Findings*, to keep them.',
      'Correct the sheet, and press *Audit again*. What is new, gone and as before since the last audit stands over the picture, with the keys and cylinders that came, went or were keyed otherwise.',
    ],
    answers: [
      [
        'Key interchange',
        'A key operates a cylinder that it should not. Change the key, or re-pin the cylinder.',
      ],
      ['Lock-out', 'A key does not operate a cylinder that it should. The chamber that fails is named.'],
      ['Near miss', 'One chamber, and little in it, keeps the key out. A worn lock may let it in.'],
      [
        'Master pin too thin',
        'It may tip or bind. Move one of the two cuts, or leave the chamber without a master pin.',
      ],
      [
        'Lost bitting issued again',
        'A retired bitting stands at a new key. Whoever has the lost key gets in.',
      ],
      [
        '*New bittings and pins can be told only between audits in one sitting: the workbook’s settings hold no bitting to compare with.*',
        'Names, statuses and findings are remembered with the workbook. What was recut or re-pinned is compared in memory, while the pane is open.',
      ],
      ['The price of master keying', 'How many further bittings, given to nobody, turn one cylinder.'],
    ],
    writes: `The sheet Findings, made anew at each audit. ${LEFT_ALONE}`,
    trouble: [
      [
        'The spec could not be read',
        'Mend its row in the sheet Specs first; the audit reads depths from there.',
      ],
      [
        '*The counts above are complete; the list holds the first thousand of each kind.*',
        'Mend the first ones and audit again; most have one cause.',
      ],
    ],
    example:
      'Key AA3 operates cylinder AB7: an interchange. Give AA3 another bitting under A key is lost, or re-pin AB7.',
    formulas: [['=KEYROW.OPERATES("241536",{"2 6","4","1 3","5","3","6 8"},"S-018-6")', 'TRUE']],
    cautions: ['exit-doors', 'secret', 'master-keyed'],
  },
  {
    file: 'pin-cylinders',
    title: 'Pin cylinders',
    room: 'pin',
    what: 'The pin stack of every chamber, from the bottom up, and how many pins of each size the job takes.',
    steps: [
      'Choose the *Cylinder* to see its stack; the picture and the table hold the same facts.',
      'Choose inches or millimetres under *Lengths here and on the sheet*.',
      'Press *Plan the pinning sheet and kit list*, then *Write the pinning sheet*.',
      '*Put this picture into the sheet* puts the drawing on the sheet Pictures. The same drawing again takes the place of the old one.',
    ],
    answers: [
      [
        'Bottom, master, top',
        'The pins of a chamber from below. Two masters lie one on the other where keys of three depths enter.',
      ],
      [
        'Rounded, with an error',
        'The kit in the sheet Pins has no pin of the exact length; the error stands beside it.',
      ],
    ],
    writes: `The sheet Pinning, laid out for printing, and the list of pins. ${LEFT_ALONE}`,
    trouble: [
      [
        'A master pin is too thin.',
        'Two keys of this cylinder lie closer than the spec’s least step. Change one of them.',
      ],
      ['No length for a pin.', 'Fill in Plug diameter or Bottom pins in the table Specs.'],
      ['No room for a top pin.', 'The stack is taller than Target stack. Check it in the table Specs.'],
      ['*This system has no cylinders yet.*', 'Add rows to the sheet Cylinders, or make keys.'],
    ],
    example: 'A chamber that takes depths 2 and 6 of S-018-6:',
    formulas: [
      ['=KEYROW.PINSTACK("2 6","S-018-6")', '"bottom 0.221 + master 0.072 + top 0.207 in"'],
      [
        '=KEYROW.PINSTACKWHY("2 3","S-018-6")',
        '"The master pin between 2 and 3 is too thin (1 of at least 2 steps)."',
      ],
    ],
    cautions: ['secret', 'first-original', 'exit-doors'],
  },
];
