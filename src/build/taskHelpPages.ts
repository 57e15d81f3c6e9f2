/** The words of the help: one page for each task of the pane. Shown as static pages by `taskHelp.ts`. */

import type { CautionName } from './helpCautions.ts';

export interface TaskPage {
  /** File name below `help/`, without the ending. */
  readonly file: string;
  /** As the start screen calls it. */
  readonly title: string;
  readonly what: string;
  readonly steps: readonly string[];
  /** What it writes, and where. */
  readonly writes: string;
  /** What may be said on the way, and what to do about it. */
  readonly trouble: readonly (readonly [said: string, remedy: string])[];
  readonly cautions: readonly CautionName[];
}

const LEFT_ALONE =
  'It touches nothing else, and Undo takes it back as long as nobody has changed those cells.';

export const TASK_PAGES: readonly TaskPage[] = [
  {
    file: 'make-keys',
    title: 'Make keys',
    what: 'A new master-key system from a few numbers: so many masters, so many keys under each. The bittings keep to the spec and the rules, and no key operates a cylinder of another.',
    steps: [
      'Choose the spec and the number of levels, and give the system a name.',
      'Type how many masters there are and how many change keys each needs. Different numbers go with commas: 6, 8.',
      'Look at what fits: the theoretical changes, those left by the rules, and the smallest and the largest group.',
      'Under Key bitting array and levels: which depths each chamber may have, in which order, and for which level. Change them there, or put them on the sheet Array and edit them in its cells.',
      'Under Reserve for later: masters and grand masters whose bittings are set aside. A chamber kept at the top master’s cut leaves room for a whole further level.',
      'Press Make the keys, look at the grid, then press Write the system.',
    ],
    writes: `New rows in Systems, Keys and Cylinders, and a grid sheet of its own; an array only where you put it on its sheet. ${LEFT_ALONE}`,
    trouble: [
      [
        'It does not fit.',
        'Ask for fewer keys in the largest group, one level less, or leave a rule out after reading what it costs.',
      ],
      ['The name is taken.', 'Choose another; a system that exists is never written over.'],
    ],
    cautions: ['master-keyed', 'secret', 'first-original'],
  },
  {
    file: 'solve-a-grid',
    title: 'Solve a grid',
    what: 'Who opens what, marked by hand: rows are cylinders, columns are keys. The program finds bittings, proves that there are none, or says how far it got.',
    steps: [
      'Mark the grid in a sheet, any mark where a key must operate, and select it or its sheet.',
      'Choose the spec and what may be given up, then press Solve the grid.',
      'Read the answer. A solution has passed the audit; a proof names the keys and cylinders that can’t go together.',
      'Press Write the system.',
    ],
    writes: `A system as under Make keys. The marked sheet stays as it is. ${LEFT_ALONE}`,
    trouble: [
      [
        'No solution.',
        'Take away one of the marks that are named, or leave chambers of a common door empty.',
      ],
      ['Not found.', 'Search on, or take another seed: nothing is proved until the program says so.'],
    ],
    cautions: ['master-keyed', 'secret'],
  },
  {
    file: 'extend-a-system',
    title: 'Extend a system',
    what: 'Further keys in a system that stands in the workbook, without a new key for anybody who has one.',
    steps: [
      'Add the new doors to the system’s grid, or say how many keys are to come.',
      'Press Fit them in, and read which bittings are taken.',
      'Press Write the extension.',
    ],
    writes: `New rows for the new keys and cylinders. Keys that exist are not changed. ${LEFT_ALONE}`,
    trouble: [
      [
        'The system can’t be extended blind.',
        'It needs its key bitting array and a list of every bitting in use, the lost ones too. Without them key singly, or start a new system.',
      ],
    ],
    cautions: ['secret', 'master-keyed'],
  },
  {
    file: 'cross-key-a-door',
    title: 'Cross-key a door',
    what: 'Further keys for one door. What it costs is shown before anything is written: combinations, extra master pins, who else gets in.',
    steps: [
      'Choose the cylinder and the keys that are to open it too.',
      'Read the cost, and the alternatives: chambers left empty or constant.',
      'Write it only if the keys that get in besides may do so.',
    ],
    writes: `The cylinder’s row and its marks in the grid. ${LEFT_ALONE}`,
    trouble: [
      [
        'Cross-keying is uncontrolled.',
        'The keys lie under different higher keys, so every cylinder of this kind lets more people in. Keep it under one master, or give the door a cylinder of its own.',
      ],
    ],
    cautions: ['master-keyed', 'exit-doors'],
  },
  {
    file: 'construction-keying',
    title: 'Construction keying',
    what: 'One more key while the building goes up, which stops working at hand-over. The keys and cylinders as they shall be afterwards stand in the workbook already; the construction key comes on top, and both states are audited.',
    steps: [
      'Make the system first, best with a chamber kept at the top master’s cut: there every key of the owner’s ends the construction key.',
      'Choose the cylinders, none for all, and what ends it: the first turn of the owner’s key, or re-pinning at hand-over.',
      'Press Find a construction key. Read for each cylinder how it is pinned before and after, what leaves, and which keys end it.',
      'Press Write the construction key. At hand-over come back, choose the cylinders that were turned, and press Show the hand-over.',
    ],
    writes: `The key in Keys, its column in the grid, the chambers that get a further pin with what they held, and a sheet Construction with both states. The hand-over puts chambers and marks as that sheet says, and retires the key. ${LEFT_ALONE}`,
    trouble: [
      [
        'Keys turn a cylinder without ending it.',
        'They are cut shallower in that chamber. Turn each cylinder once with a key that is named, or keep a chamber for construction keying when the system is made.',
      ],
      [
        'No construction bitting was found.',
        'Choose fewer cylinders, or let them be re-pinned at hand-over.',
      ],
    ],
    cautions: ['secret', 'master-keyed'],
  },
  {
    file: 'keys-without-a-master',
    title: 'Keys without a master',
    what: 'Keyed different or keyed alike: so many bittings, none used before, with a least difference between them.',
    steps: ['Choose the spec, how many bittings and how they differ.', 'Read the list, and write it.'],
    writes: `New rows in Keys, and in Cylinders if you ask for them. ${LEFT_ALONE}`,
    trouble: [['There are not so many.', 'Ask for fewer, or for a smaller difference between two keys.']],
    cautions: ['secret', 'first-original'],
  },
  {
    file: 'check-codes',
    title: 'Check codes',
    what: 'Are these codes good? Length, depths, MACS, too many equal cuts, codes that stand twice, and what else is switched on.',
    steps: [
      'Select the codes, a column or a table.',
      'Choose the spec, and the rules if you want others.',
      'Press Check the selection. Each fault names its row, what is wrong and what to do.',
      'If you want it to stay, press Add a check column.',
    ],
    writes: `One column of formulas to the right, which follow what you type. ${LEFT_ALONE}`,
    trouble: [
      [
        'A code is one digit short.',
        'The cell is a number and has lost a leading zero. Make the cell text and type the code again.',
      ],
      [
        'Two cuts differ by too many steps.',
        'The cutter would eat the flat of the neighbour. Choose depths closer together.',
      ],
    ],
    cautions: ['secret'],
  },
  {
    file: 'audit-a-system',
    title: 'Audit a system',
    what: 'Every key against every cylinder, as they stand in the sheets now. It finds keys that open what they should not and keys that do not open what they should.',
    steps: [
      'Choose the system and press Audit.',
      'Read the findings; each goes to its cell.',
      'Press Write the findings to a sheet to keep them.',
    ],
    writes: `The sheet Findings, made anew at each audit. ${LEFT_ALONE}`,
    trouble: [
      [
        'Key interchange.',
        'A key operates a cylinder that it should not. Change the key, or re-pin the cylinder.',
      ],
      ['Lock-out.', 'A key does not operate a cylinder that it should. The chamber that fails is named.'],
      ['Near miss.', 'One chamber, and little in it, keeps the key out. A worn lock may let it in.'],
    ],
    cautions: ['exit-doors', 'secret'],
  },
  {
    file: 'pin-cylinders',
    title: 'Pin cylinders',
    what: 'The pin stack of every chamber, from the bottom up, and how many pins of each size the job takes.',
    steps: [
      'Choose the system, and one cylinder or all.',
      'Choose whether the sheet shows lengths or numbers of steps.',
      'Press Plan the pinning sheet and kit list, then Write the pinning sheet.',
    ],
    writes: `The sheet Pinning, laid out for printing, and the list of pins. ${LEFT_ALONE}`,
    trouble: [
      [
        'A master pin is too thin.',
        'Two keys of this cylinder lie closer than the spec’s step. Change one of them.',
      ],
      ['No length for a pin.', 'Fill in Plug diameter or Pins in the Specs table.'],
      ['No room for a top pin.', 'The stack is taller than the target. Check Target stack.'],
    ],
    cautions: ['secret', 'exit-doors'],
  },
  {
    file: 'schedule',
    title: 'Look after the schedule',
    what: 'The door schedule that you have: checked against the keys, corrected where you say so, counted for the order.',
    steps: [
      'Choose the sheet with the doors and confirm its columns once; the workbook remembers them.',
      'Read what is wrong. For each correction you see the old and the new text.',
      'Tick the corrections that you want and write them.',
      'Press Order totals for cylinders and keys to order, and the stamping.',
    ],
    writes:
      'Only the cells that you ticked, and new sheets for order and stamping. Your columns are never renamed or moved. Undo puts the old text back.',
    trouble: [
      [
        'A symbol is not in the system.',
        'Correct it, or make the key. A spelling of your own is left alone.',
      ],
      ['The total differs.', 'The sheet’s own total and the rows don’t agree. One of them is wrong.'],
    ],
    cautions: ['exit-doors'],
  },
  {
    file: 'keys-and-people',
    title: 'Keys and people',
    what: 'Who can open this door, by the keys that are really in hand? What can this person open? Who holds masters? What is overdue?',
    steps: [
      'Choose the question, the door or the person, and the day.',
      'Read the answer, and write it to a sheet if somebody needs it.',
    ],
    writes: `A sheet with the answer, if you ask for it. ${LEFT_ALONE}`,
    trouble: [
      [
        'A row of the ledger can’t be right.',
        'Two rows contradict each other. The later one counts; strike the wrong one.',
      ],
    ],
    cautions: ['secret'],
  },
  {
    file: 'hand-out',
    title: 'Hand out and take back',
    what: 'Keys to people and back, by symbol and copy number. The ledger is a history: nothing in it is edited away.',
    steps: [
      'Say what happened, which keys, to whom and on which day.',
      'Press Plan the rows and read them.',
      'Press Add to the ledger. A receipt to sign can be written beside it.',
    ],
    writes: `New rows at the end of Ledger. ${LEFT_ALONE}`,
    trouble: [
      ['This copy is in somebody’s hands.', 'Take it back first, or write it as going from hand to hand.'],
      ['A row was a mistake.', 'Strike it with a new row that names its number.'],
    ],
    cautions: [],
  },
  {
    file: 'count-the-keys',
    title: 'Count the keys',
    what: 'A key inventory: what should be at one place, what is there, and where the two differ.',
    steps: [
      'Choose the person, the hook or the cabinet.',
      'Type or scan what is there.',
      'Read the differences, and write them to a sheet.',
    ],
    writes: `A count sheet. The ledger changes only by rows that you add. ${LEFT_ALONE}`,
    trouble: [['A key is missing.', 'Ask who had it last. If it stays away, go on with A key is lost.']],
    cautions: [],
  },
  {
    file: 'a-key-is-lost',
    title: 'A key is lost',
    what: 'What the key opens, what to change first, whom to call keys back from, and new bittings that pass the audit.',
    steps: [
      'Choose the key. Read the doors that are exposed and the people who are concerned.',
      'Say which doors come first: outside doors, then doors with the words that you give.',
      'Press Find new bittings, read them, then plan the change and the work order.',
    ],
    writes:
      'New bittings in Keys and Cylinders, the old ones kept as retired, and a work order, if you like also one without bittings for the tenant. Undo takes it back.',
    trouble: [
      [
        'A lost master also exposes its change keys.',
        'In total position progression every change key of its group lets the old master in. They get new bittings too.',
      ],
    ],
    cautions: ['exit-doors', 'secret'],
  },
  {
    file: 'reports',
    title: 'Reports and privacy',
    what: 'Sheets to hand over, laid out for printing: for the customer without bittings, for the shop with them.',
    steps: [
      'Choose whom it is for and the revision.',
      'Press Write the report, and print the sheet from Excel.',
    ],
    writes: `A new sheet. Sheets with bittings are marked as secret and can be hidden. ${LEFT_ALONE}`,
    trouble: [
      [
        'A text gives a bitting away.',
        'A note or a name holds a code that is in use. Change it, or leave it out.',
      ],
    ],
    cautions: ['secret'],
  },
  {
    file: 'cut-from-a-list',
    title: 'Cut from a list',
    what: 'Codes from a mail or a file: read, checked, and put on a cutting sheet, one original for each bitting.',
    steps: [
      'Paste the list, open a .csv file or select the cells.',
      'Confirm the spec, the columns and the direction of the codes. Everything guessed is named.',
      'Read what is wrong, then press Plan the cutting sheet.',
    ],
    writes: `The sheet Cutting, sorted by blank. ${LEFT_ALONE}`,
    trouble: [
      [
        'A code was taken for a date.',
        'The sheet changed what was typed. The codes that it may have been are offered; choose one.',
      ],
      ['O for 0, l for 1.', 'They are read as digits and noted. Compare with the original.'],
    ],
    cautions: ['secret', 'first-original'],
  },
  {
    file: 'decode-a-key',
    title: 'Decode a key',
    what: 'Caliper readings of a key: the specs that fit best, the code, and how well each cut fits it.',
    steps: [
      'Type or select the root depths in the order of the code.',
      'Choose the spec among those that fit.',
      'Read the cuts in doubt; measure those again.',
    ],
    writes: 'Nothing.',
    trouble: [
      ['A cut is suspect.', 'It is farther from every depth than the tolerance. Measure it again.'],
      ['All cuts are off by the same.', 'The key is worn, or the stop of the gauge is off.'],
    ],
    cautions: ['first-original', 'memory'],
  },
  {
    file: 'shop-tables',
    title: 'Shop tables',
    what: 'What the shop has: cutters, set-ups, blanks and pins, and what suits a spec.',
    steps: [
      'Add the sheets, and fill them in.',
      'Choose a spec to see which cutter makes its cuts, in how many passes, and which blanks enter.',
    ],
    writes: `The sheets Cutters, Setups, Blanks and Pins, empty, where they are missing. ${LEFT_ALONE}`,
    trouble: [
      [
        'The cutter is too wide.',
        'It leaves a wider flat than the spec and lowers the MACS. Use a narrower one.',
      ],
    ],
    cautions: [],
  },
  {
    file: 'specs',
    title: 'Specs',
    what: 'The dimensions that turn a code into metal: stop, first cut, spacing, root depths, the shape of the cut, MACS.',
    steps: [
      'Look at a starter, or press Start empty for one of your own.',
      'Copy it to this workbook, and correct it there: it is one row of the table Specs.',
      'Use its name in the pane and in the worksheet functions.',
    ],
    writes: `One row of the table Specs. ${LEFT_ALONE}`,
    trouble: [
      [
        'The name is reserved.',
        'Starters keep their names, so that one name never means two sets of dimensions. Choose another.',
      ],
      [
        'MACS is larger than the geometry allows.',
        'With this cutter neighbours would eat each other’s flats. Check root width, angle and spacing.',
      ],
    ],
    cautions: ['memory'],
  },
];
