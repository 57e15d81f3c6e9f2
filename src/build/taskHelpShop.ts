/** Help pages: codes from elsewhere, measured keys, the shop’s tables and specs. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const SHOP: readonly TaskPage[] = [
  {
    file: 'cut-from-a-list',
    title: 'Cut from a list',
    room: 'codes',
    what: 'Codes from a mail or a file: read, checked, and put on a cutting sheet, one original for each bitting.',
    steps: [
      'Paste the list under *Pasted list* and press *Take the pasted list*; or *Open a file (.csv, .xlsx)*; or select the cells and press *Take the selected cells*.',
      'A file with several sheets: *Which sheet of this file holds the codes?* Press its name. The file itself is only read.',
      'Confirm the *Spec*, the columns and *The list reads its codes*. Everything guessed is named, with how sure the guess is.',
      '*Check against* a system finds codes that interchange with its keys. *Reading and rules* says what may be put right on the way.',
      'Press *Read and check the list*, and read *Rows with something to look at*.',
      'Choose the *Blank for rows that name none*, the *Cutter at hand* and the unit of *Lengths here and on the sheet*, then press *Plan the cutting sheet* and *Write the cutting sheet*. Its rows go by blank; what can’t be cut comes last.',
    ],
    answers: [
      ['Plain', 'Read without a doubt, and it breaks no rule.'],
      ['To look at', 'Something was put right or guessed. Compare with the original.'],
      [
        'Can’t be cut',
        'It breaks a rule or is no bitting: a blind code or a reference stands for a bitting that the list does not hold.',
      ],
    ],
    writes: `The sheet Cutting: one row a bitting and blank, printed one page wide. Behind what is printed, type caliper readings under Read 1, Read 2 and so on, as you cut; Judged says which cut is off, by how much and which way. ${LEFT_ALONE}`,
    trouble: [
      [
        'A code was taken for a date.',
        'The sheet changed what was typed. The codes that it may have been are named: look it up and type it as text.',
      ],
      [
        'O for 0, l for 1.',
        'They are read as digits while *Take O for 0 and l for 1, and say so* is ticked. Compare with the original.',
      ],
      ['*No column looks like codes. Say which one holds them.*', 'Choose the column for the code yourself.'],
      [
        '*The columns are not clear. Look at each before you go on.*',
        'Two columns could be the code, or none has a heading.',
      ],
      [
        'Another spec *fits better*.',
        'Most codes can’t be read by the spec chosen, or break its MACS. Choose the one named under *Spec*.',
      ],
    ],
    example: '“Office 12: 2-7-4-1-5-3 x 2” is read as mark Office 12, code 274153, 2 keys.',
    formulas: [['=KEYROW.BITTING("2-7-4-1-5-3","S-018-6")', '"274153"']],
    cautions: ['secret', 'first-original'],
  },
  {
    file: 'decode-a-key',
    title: 'Decode a key',
    room: 'decode',
    what: 'Caliper readings of a key: the specs that fit best, the code, and how well each cut fits it.',
    steps: [
      'Type the *Root depths, along the code*, apart by spaces, or select the cells that hold them and press *Take the selected cells*.',
      'Choose the *Unit of the readings*; a unit typed behind a reading goes before it. *Centres from the stop, if measured* tell specs apart that have the same depths; alone, of a blade too worn to read, they still name the specs whose spacing they fit.',
      'Choose among *Spec, best first*.',
      'Read *Cuts in doubt*, and measure those again.',
    ],
    answers: [
      ['*Fits well*', 'Every reading lies within the tolerance of a depth.'],
      ['*Fits with reserve*', 'Most do. The code has a question mark where one does not.'],
      ['*Does not fit*', 'The key was made on other dimensions, or the unit is wrong.'],
    ],
    writes: 'Nothing.',
    trouble: [
      ['A cut is suspect.', 'It is farther from every depth than the tolerance. Measure it again.'],
      ['All cuts are off by the same.', 'The key is worn, or the stop of the gauge is off.'],
      [
        '*No spec of this workbook and no starter has this number of cuts. Make the spec first.*',
        'Go to Specs and press Start empty.',
      ],
    ],
    example: 'Six readings in inches; the second lies between two depths:',
    formulas: [
      ['=KEYROW.DECODE({0.28,0.189,0.242,0.297,0.225,0.261},"S-018-6")', '"274153"'],
      ['=KEYROW.DECODE({0.28,0.198,0.242,0.297,0.225,0.261},"S-018-6")', '"2?4153"'],
    ],
    cautions: ['first-original', 'memory'],
  },
  {
    file: 'shop-tables',
    title: 'Shop tables',
    room: 'shop',
    what: 'What the shop has: cutters, set-ups, blanks and pins, and what suits a spec.',
    steps: [
      'Press the button at the foot, then *Add the sheets*, and fill them in with what you have, as you measured it.',
      'Press *Read again*.',
      'Choose a *Spec* to see which of your *Cutters* makes its cuts and in how many passes, and a *Keyway* to see which blanks enter.',
    ],
    answers: [
      ['A cutter suits', 'Its tip is as wide as the flat of the cut, and its angle is the spec’s.'],
      ['Several passes', 'The tip is narrower than the flat; so many cuts side by side make it.'],
      ['Too wide', 'It leaves a wider flat than the spec and lowers the MACS.'],
      [
        'Eats the shallower flat',
        'The slope of the deeper cut reaches into its neighbour, from so many steps between the two on.',
      ],
      [
        '*Held* and *Stopped*',
        'How the key sits in the vice, from the sheet Setups. The cutting sheet for this spec repeats it above its rows.',
      ],
    ],
    writes: `The sheets Cutters, Setups, Blanks and Pins, empty, where they are missing. ${LEFT_ALONE}`,
    trouble: [
      ['*What can’t be read in the shop’s tables*', 'Each line names its cell and what belongs there.'],
      [
        '*The sheets are empty: fill them with what you have, as you measured it.*',
        'Nothing is compared until there is a row.',
      ],
    ],
    example: 'How many passes a tip takes on S-018-6:',
    formulas: [
      ['=KEYROW.PASSES(0.054,"S-018-6")', '1'],
      ['=KEYROW.PASSES(0.035,"S-018-6")', '2'],
    ],
    cautions: ['first-original'],
  },
  {
    file: 'specs',
    title: 'Specs',
    room: 'specs',
    what: 'The dimensions that turn a code into metal: stop, first cut, spacing, root depths, the shape of the cut, MACS.',
    steps: [
      'Choose a starter under *Spec* and read its dimensions. *Show lengths* sets inches or millimetres for the whole pane; it is kept with the workbook, and every starter and sheet stays exact, since an inch is 25.4 mm.',
      'Press *Copy to this workbook*, or *Start empty* for one of your own.',
      'Fill in the fields from your depth and space data; *What this gives* is worked out as you type.',
      'Press *Plan the Specs sheet*, then *Write to Specs*. From then on it is one row of the table Specs, to be corrected there.',
      'Press *Compare with another spec* to see two or three specs side by side. *Only what differs* leaves out what they share; a dimension that differs has ≠ beside its name.',
      '*As a table: copy out, paste in* gives a spec as a row of text, and takes rows from another workbook under *Specs from elsewhere*.',
      'Use its name in the pane and in the worksheet functions, or press *Make keys with this spec*.',
    ],
    answers: [
      [
        'Neighbours may differ by so many steps',
        'The MACS: what you typed, against what root width, angle and spacing allow.',
      ],
      [
        '*Any depth may stand beside any other: no cut reaches the flat of its neighbour.*',
        'The MACS need not be limited.',
      ],
      ['*Bittings*', '*All bittings within MACS, before any other rule.*'],
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
      [
        'Uneven spacing',
        'Leave *Spacing* empty and give the centres: *Only where the spacing is uneven: 0.237; 0.393; …*',
      ],
    ],
    example: 'Where the second cut of S-018-6 lies, how deep a 7 is, and what its geometry allows:',
    formulas: [
      ['=KEYROW.CUTCENTRE(2,"S-018-6")', '0.393'],
      ['=KEYROW.ROOTDEPTHS("274153","S-018-6")', '{0.279,0.189,0.243,0.297,0.225,0.261}'],
      ['=KEYROW.GEOMETRICMACS("S-018-6")', '5'],
    ],
    cautions: ['memory', 'first-original'],
  },
];
