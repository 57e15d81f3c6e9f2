/** Help pages: the schedule, keys in people’s hands, lost keys and reports. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const PEOPLE: readonly TaskPage[] = [
  {
    file: 'schedule',
    title: 'Look after the schedule',
    room: 'schedule',
    what: 'The door schedule that you have: checked against the keys, corrected where you say so, counted for the order.',
    steps: [
      'Choose the *Sheet with the doors*.',
      'Confirm the columns once; the workbook remembers them. *Row of the headings* and *Further columns* are there if the guess is wrong; *Change the columns* comes back to them later.',
      'Read *One by one* and *Better spellings on offer*. For each correction you see the old and the new text; untick those that you don’t want.',
      'Press the button that corrects the spellings, then *Correct these cells*.',
      'Press *Order totals* for cylinders and keys to order, and *Write Order and Stamping*.',
    ],
    answers: [
      [
        'Nothing wrong',
        'Every row has a door and a keyset that the system knows, totals agree, and no door stands twice.',
      ],
      [
        '*Better spellings on offer*',
        'The text means a keyset or a word that is written otherwise elsewhere. It is only ever offered.',
      ],
      [
        '*Doors under local codes*',
        'The row speaks of an exit, a fire door or an accessible door. It is a reminder, not a fault.',
      ],
    ],
    writes:
      'Only the cells that you ticked, and new sheets for order and stamping. Your columns are never renamed or moved. *Undo* puts the old text back.',
    trouble: [
      [
        'A symbol is not in the system.',
        'Correct it, or make the key. A spelling of your own is left alone.',
      ],
      ['The total differs.', 'The sheet’s own total and the rows don’t agree. One of them is wrong.'],
      ['No row has a keyset', 'The column of the keysets was not found. Press *Change the columns*.'],
      [
        '*Nobody is recorded. The order says so until somebody is.*',
        'Say under *Who may sign* who may order, and press *Record in Authorised*.',
      ],
    ],
    example:
      'A row says “AA-3”, the keys say AA3: offered as a better spelling, written when you press the button.',
    cautions: ['exit-doors'],
  },
  {
    file: 'keys-and-people',
    title: 'Keys and people',
    room: 'people',
    what: 'Who can open this door, by the keys that are really in hand? What can this person open? Who holds masters? What is overdue?',
    steps: [
      'Choose the *Question*, the *Door* or the *Person*, and the day under *As of*.',
      'Read the answer: it goes by the cuts of the keys, not by what the grid says they should open.',
      'If somebody needs it on paper, press *Plan this answer as a sheet*, then *Write the sheet*. A person’s keys can be written as a *Receipt to sign*.',
    ],
    answers: [
      [
        '*Who can open this door?*',
        'Everybody who has a key in hand that operates its cylinder, masters included.',
      ],
      [
        '*Doors that nobody can open*',
        'No key of theirs is in anybody’s hands. Somebody must be able to open every exit from outside.',
      ],
      [
        '*Copies unaccounted for*',
        'The ledger does not say where they are: neither in the cabinet, nor with a person, nor lost or destroyed.',
      ],
      [
        '*Keys of people who left*',
        'The sheet Holders says that they left, the ledger that they still have keys.',
      ],
    ],
    writes: `A sheet with the answer, if you ask for it. ${LEFT_ALONE}`,
    trouble: [
      [
        '*There is no ledger in this workbook yet, so nobody has a key in hand by it.*',
        'Press *Hand out the first keys*.',
      ],
      [
        'A row of the ledger can’t be right.',
        'Two rows contradict each other. The later one counts; strike the wrong one under Hand out and take back.',
      ],
    ],
    example: 'Question: what can this person open? Person: the caretaker. 61 doors by AA, 1 by AB7.',
    cautions: ['secret', 'personal'],
  },
  {
    file: 'hand-out',
    title: 'Hand out and take back',
    room: 'people',
    what: 'Keys to people and back, by symbol and copy number. The ledger is a history: nothing in it is edited away.',
    steps: [
      'Choose *What happened*.',
      'Type the *Keys*, such as AA1/2 for copy 2 of AA1, or AA1-AA8; type or choose the person.',
      '*On* is today if you leave it; *Due back* is for keys on loan. *Given by, taken by, hook, correction* holds the rest.',
      'Press *Plan the rows* and read them, then press *Add to the ledger*.',
    ],
    answers: [
      ['Rows to add', 'One row for each copy. Copies are chosen by number where you gave only the symbol.'],
      ['*See what it opens*', 'After a loss: goes on to A key is lost.'],
    ],
    writes: `New rows at the end of Ledger, and a new name in Holders. ${LEFT_ALONE}`,
    trouble: [
      [
        'A copy is in somebody’s hands already.',
        'Take it back first, or choose *Keys go from hand to hand*.',
      ],
      [
        '*Say which keys, such as AA1/2 or AA1-AA8.*',
        'The field is empty, or a symbol in it is not in the system.',
      ],
      [
        'A row was a mistake.',
        'Choose *A row was a mistake: strike it* and name its number: *Corrects row number*. The row stays and counts no more.',
      ],
    ],
    example: 'Keys are given out, AA1/2, to the caretaker, due back in a year: one row, signature required.',
    cautions: ['personal'],
  },
  {
    file: 'count-the-keys',
    title: 'Count the keys',
    room: 'people',
    what: 'A key inventory: what should be at one place, what is there, and where the two differ.',
    steps: [
      'Choose *Where*: the cabinet, a hook or a person.',
      'For a paper count press *Plan a count sheet* and print it.',
      'Type or scan what is there under *Counted*, one to a line: AA1/2 is copy 2 of AA1.',
      'Read *Differences*; press *Plan the result as a sheet*, then *Write the count sheet*, to keep them.',
    ],
    answers: [
      ['No difference', 'Every key that the ledger expects was counted, and no other.'],
      ['A key is missing', 'The ledger expects it here. Ask who had it last.'],
      ['A key is too many', 'The ledger has it elsewhere: record how it came here.'],
    ],
    writes: `A count sheet. The ledger changes only by rows that you add yourself. ${LEFT_ALONE}`,
    trouble: [
      ['*Can’t be read*', 'A line is no key of this workbook. Correct it, or leave it out and note it.'],
      ['A key stays away.', 'Go on with A key is lost.'],
    ],
    example: 'The cabinet should hold 14 keys; 13 were scanned. AA5/1 is missing, last given back on hook 7.',
    cautions: ['personal'],
  },
  {
    file: 'a-key-is-lost',
    title: 'A key is lost',
    room: 'lost',
    what: 'What the key opens, what to change first, whom to call keys back from, and new bittings that pass the audit.',
    steps: [
      'Choose the *Lost key*. Read the doors that are exposed and the people who are concerned.',
      '*Which doors come first* holds the words by which doors are told apart: outside doors, then what is sensitive.',
      'Read *In this order*, and *Call back*.',
      'Press *Find new bittings*, read them, then press *Plan the change and the work order*.',
      'Tick *Also a work order without bittings, for the tenant* if one leaves the shop. Press *Change the sheets*.',
    ],
    answers: [
      ['Doors exposed', 'Doors whose cylinders the lost key operates.'],
      [
        'Cylinders to change',
        'Those, and the ones that must change with them so that the lost key opens nothing any more.',
      ],
      ['Still exposed', 'After each part of the work order: how many doors the lost key still opens.'],
      [
        '*Only this key gets a new bitting; every other key stays.*',
        'No other key keeps the lost key’s cuts in a cylinder. Otherwise the keys that must change with it are named.',
      ],
    ],
    writes:
      'New bittings in Keys and Cylinders, the old ones kept as retired, and a work order, if you like also one without bittings. *Undo* takes it back.',
    trouble: [
      [
        '*To be mended first*',
        'A bitting or a cylinder can’t be read, so nobody can say what the lost key opens.',
      ],
      [
        'A lost master also exposes its change keys.',
        'In total position progression every cylinder of its group is pinned for the old master too, so its change keys get new bittings with it.',
      ],
      [
        '*The system was changed since the bittings were found. Look for them again.*',
        'Somebody typed in the meantime.',
      ],
    ],
    example:
      'Master AA is lost: 61 doors, 14 people. First the 19 outside doors, then 42 are still exposed; at the end none is.',
    cautions: ['exit-doors', 'secret', 'first-original', 'personal'],
  },
  {
    file: 'reports',
    title: 'Reports and privacy',
    room: 'report',
    what: 'Sheets to hand over, laid out for printing: for the customer without bittings, for the shop with them. Sheets with bittings can be hidden.',
    steps: [
      'Choose *For whom* and type the *Revision*.',
      'Press *Report for the customer* or *Report for the shop*, read the plan and press *Write the report*. Print the sheet from Excel.',
      'Before a copy leaves the shop, look at *Sheets that hold bittings*: *Hide them*, and *Protect them, without a password*, or *Show and unprotect all*.',
    ],
    answers: [
      [
        '*The customer: doors, keysets and keys, no bittings*',
        'Every text is searched for bittings in use before it is written.',
      ],
      ['*The shop: with bittings, marked as secret*', 'The sheet says so in its title.'],
      ['*All are in view.*', 'No sheet with bittings is hidden.'],
    ],
    writes: `A new sheet. Hiding and protecting changes no cell. ${LEFT_ALONE}`,
    trouble: [
      [
        'A text gives a bitting away.',
        'A note or a name holds a code that is in use. Change it, or leave it out.',
      ],
      [
        '*While a sheet is protected, nothing can be written to it, not by this pane either.*',
        'Press *Show and unprotect all* before you go on working.',
      ],
    ],
    example:
      'Revision B for the customer: doors, keysets, number of keys, what each key opens; no bitting in it.',
    cautions: ['secret', 'personal'],
  },
];
