/** Help pages: making keys and systems. */
import { LEFT_ALONE, type TaskPage } from './taskHelpPage.ts';

export const MAKING: readonly TaskPage[] = [
  {
    file: 'make-keys',
    title: 'Make keys',
    room: 'make',
    what: 'A new master-key system from a few numbers: so many masters, so many keys under each. The bittings keep to the spec and the rules, and no key operates a cylinder of another.',
    steps: [
      'Choose the *Spec* and the *Levels*. *Name of the system* may stay as proposed.',
      'Type how many *Masters* there are and *Change keys under each master*. Different numbers go with commas: 12, 8, 20.',
      'Or let the doors decide: open *Doors from my sheet*, choose the sheet and the columns, and press *Read the doors*.',
      'Read *Room*: what the spec gives, what the rules leave, and whether the system fits.',
      'Under *Key bitting array and levels*: which depths each chamber may have, in which order, and for which level. Change them there, or put them on the sheet Array and edit them in its cells.',
      'Under *Reserve for later*: masters and grand masters whose bittings are set aside. A chamber kept at the top master’s cut leaves room for a whole further level.',
      'Press *Make the keys*. *Look at the keys* and *Look at the grid* show what was found; nothing is written yet.',
      'Read what will be written, and press *Write the system*.',
    ],
    answers: [
      [
        'Theoretical and usable changes',
        'All bittings that the spec allows, and those left by the rules. *What each rule costs* says how many each rule takes.',
      ],
      [
        'Smallest and largest group',
        'How many change keys fit under one master. Groups differ, because the rules reject more bittings in one than in another.',
      ],
      [
        'It fits, or It does not fit',
        'Whether the largest group that you ask for has room, spares included.',
      ],
    ],
    writes: `New rows in Systems, Keys and Cylinders, and a grid sheet of its own; an array only where you put it on its sheet. ${LEFT_ALONE}`,
    trouble: [
      [
        '*It does not fit: see under Room.*',
        'Ask for fewer keys in the largest group, take one level less, or leave a rule out after reading what it costs.',
      ],
      [
        '*Mend the marked fields first.*',
        'A number is missing or out of bounds; the field says which are allowed.',
      ],
      ['The name is taken.', 'Choose another; a system that exists is never written over.'],
      [
        '*Doors that could not be read*',
        'Each line names its cell. Correct the symbol there and read the doors again.',
      ],
    ],
    example:
      'S-018-6, levels 3, masters 4, change keys 12: a grand master, 4 masters and 48 change keys, for 48 cylinders.',
    formulas: [['=KEYROW.CHANGES("241536","S-018-6")', '4096']],
    cautions: ['master-keyed', 'secret', 'first-original'],
  },
  {
    file: 'solve-a-grid',
    title: 'Solve a grid',
    room: 'solve',
    what: 'Who opens what, marked by hand: rows are cylinders, columns are keys. The program finds bittings, proves that there are none, or says how far it got.',
    steps: [
      'Mark the grid in a sheet, any mark where a key must operate, and select it or one cell of it.',
      'Choose the *Spec* and the *Grid*. *Only read it* shows what was understood without searching; *Layout and marks* corrects it.',
      'With more than one keyway, a short blank or interchangeable cores, say so in the sheet (a row Keyway, Blank or Cuts above the keys, columns Keyway, Pins and Control beside the cylinders) or under *Keyways, blanks, control key*: one for all, and *Other keyways or blanks* with their keys and doors, such as K2: A1, Store.',
      'Under *More: differences, depths, seed, rules* say what keys must keep apart and which bittings are taken.',
      'Press *Solve the grid*. *Stop* ends the search at any time.',
      'Read *What it costs* and *Cost by cylinder*, then press *Write the system*.',
    ],
    answers: [
      ['Keys were found', 'They have passed the audit: every marked pair operates, no other does.'],
      [
        '*There is no solution, and this is proved.*',
        '*Keys and doors in conflict* names marks that can’t go together: take one away, or give the door two cylinders.',
      ],
      [
        '*Not found*',
        'Nothing is proved. *Search on* takes four times as many steps; or try *Another seed*.',
      ],
    ],
    writes: `A system as under Make keys, with the keyway and the cuts of each key, the keyway and the control cuts of each cylinder, and the control keys that its cores need. The marked sheet stays as it is. ${LEFT_ALONE}`,
    trouble: [
      [
        '*Cells that could not be read*',
        'A cell holds neither a mark nor a blank. Correct it, or add it under *Further words that mean yes*.',
      ],
      [
        'No blank of the sheet Blanks enters a keyway',
        'The shop’s own table of blanks decides which keyways there are. Correct the name, or add the blank there. Without that table any name will do.',
      ],
      [
        'A key is marked for a cylinder that its blank does not enter, or is too short for',
        'Take the mark away or name another blank. A number under Pins says how many chambers of a cylinder are pinned, counted from the stop: a short blank needs such cylinders.',
      ],
      [
        '*Pairs still wrong*',
        'Where the best attempt fails. These doors ask too much of the spec: allow more depths in a chamber, or change the marks.',
      ],
    ],
    example:
      'Rows: Front door, Office, Store. Columns: K1, K2, K3. A mark for K1 at all three, K2 at Front door and Office, K3 at Front door and Store: solved with K1 as the master.',
    cautions: ['master-keyed', 'secret', 'exit-doors'],
  },
  {
    file: 'extend-a-system',
    title: 'Extend a system',
    room: 'extend',
    what: 'Further keys and doors in a system that stands in the workbook, without a new key for anybody who has one.',
    steps: [
      'Go to the system’s grid sheet. Type a new key’s symbol to the right of the headings, a new cylinder’s number below the last row, and mark who must open what.',
      'In the pane press *Read the grid again*: it says what is new.',
      'New keys and cylinders have the keyway of the system, new cores the control cuts of the others. Where they differ, say so in the grid (columns Keyway, Pins and Control; a row Keyway, Blank or Cuts; a mark under a control key for the cores that it pulls) or in the pane under Keyways, blanks, control key.',
      'Press *Fit them in*. New bittings keep clear of every bitting of the workbook under the same spec.',
      'Read the plan, and press *Write the extension*.',
    ],
    answers: [
      ['New keys were found', 'No cylinder and no key that exists is changed.'],
      [
        '*Not as it stands*',
        'It can’t be done without touching a cylinder. Where the fewest cylinders to re-pin were found, they are named with their old pinning, and a button re-pins them and fits the new ones in.',
      ],
      ['*Not found*', 'Nothing is proved. Search on or try another seed.'],
    ],
    writes: `New rows for the new keys and cylinders, with their keyways and control cuts, and a control key where new cores have cuts that no control key has. Re-pinned cylinders only if you asked for it. ${LEFT_ALONE}`,
    trouble: [
      [
        '*This system is not extended until its record is complete.*',
        'It needs its key bitting array and every bitting in use, the lost ones too. Fill in what *What is in the way* names; without it, key new doors singly or start a new system.',
      ],
      [
        '*The grid or the system was changed since. Go back and fit them in again.*',
        'Somebody typed in the meantime. Read the grid again.',
      ],
    ],
    example:
      'Two new offices under master AB: type AB13 and AB14 as headings, their cylinders below, and mark AB13, AB14 and the masters above.',
    cautions: ['secret', 'master-keyed'],
  },
  {
    file: 'cross-key-a-door',
    title: 'Cross-key a door',
    room: 'cross',
    what: 'Further keys for one door. What it costs is shown before anything is written: combinations, extra master pins, who else gets in.',
    steps: [
      'Choose the *Door* and the *Keys that shall open it too*.',
      'Read the table: *Combinations*, *Those a blank can carry*, *Incidental bittings*, *Master pins*, before and after.',
      'Under *How it is pinned* compare *With further master pins* with chambers left empty.',
      'Press *Show the change*, read the cells, and press *Change these cells*.',
    ],
    answers: [
      [
        '*Nobody else gets in.*',
        'No listed key but those that you chose opens the door. *No other listed key gets in.* says so where bittings that nobody has would.',
      ],
      [
        'Controlled',
        'All its keys stand under the same master: the door can be found and changed with them.',
      ],
      [
        'Uncontrolled',
        'Its keys stand under different masters. It costs the system bittings for good. Do it only where nothing else serves, and record it.',
      ],
    ],
    writes: `The cylinder’s row and its marks in the grid. ${LEFT_ALONE}`,
    trouble: [
      ['A master pin would be too thin', 'Leave that chamber empty, or choose another key.'],
      [
        '*Some of these keys are no longer in the system. Choose them again.*',
        'The sheet was changed since they were chosen.',
      ],
    ],
    example:
      'The mail room is AA7; AB3 is to open it too. With chamber 3 left empty nobody else gets in, but the cylinder is easier to pick by one chamber.',
    formulas: [['=KEYROW.OPERATINGCOUNT({"2 6","4","1 3","5","3","6 8"},"S-018-6")', '8']],
    cautions: ['master-keyed', 'exit-doors'],
  },
  {
    file: 'construction-keying',
    title: 'Construction keying',
    room: 'construction',
    what: 'One more key while the building goes up, which stops working at hand-over. The keys and cylinders as they shall be afterwards stand in the workbook already; the construction key comes on top, and both states are audited.',
    steps: [
      'Make the system first, best with a chamber kept at the top master’s cut: there every key of the owner’s ends the construction key.',
      'Choose the *Cylinders*, none for all, and *What ends it*: the first turn of the owner’s key, or re-pinning at hand-over.',
      'Press *Find a construction key*. Read for each cylinder how it is pinned before and after, what leaves, and which keys end it.',
      'Press *Write the construction key*. At hand-over come back, choose the *Cylinders handed over*, press Show the hand-over, and then *Write the hand-over*.',
    ],
    answers: [
      [
        'Before and after',
        'The chambers of each cylinder while the construction key works, and once it has ended. Both have passed the audit.',
      ],
      [
        'Keys that end it',
        'Turned once, they take the construction pin out; from then on the construction key does not turn.',
      ],
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
    example:
      'A school is built with the builders’ key on all outside doors. The owner’s keys are turned in each once, and the builders’ key opens nothing any more.',
    cautions: ['secret', 'master-keyed'],
  },
  {
    file: 'keys-without-a-master',
    title: 'Keys without a master',
    room: 'pools',
    what: 'Keyed different or keyed alike: so many bittings, none used before, with a least difference between them.',
    steps: [
      'Choose the *Spec* and the *Kind*: keyed different, or keyed alike in groups.',
      'Type how many, and a *Name* if the proposed one does not suit.',
      '*More: difference, seed, rules* says how far keys stand apart and which bittings to avoid.',
      'Press *Draw the bittings*, *Look at the keys*, then press *Write the keys*.',
    ],
    answers: [
      [
        'So many bittings, any two apart in so many chambers',
        'Also from those in this workbook, while *Avoid every bitting in this workbook under the same spec* is ticked.',
      ],
      [
        'Only some were found',
        'Either every bitting was looked at and no more fit, or the search stopped at its limit; the sentence says which.',
      ],
    ],
    writes: `New rows in Systems, Keys and Cylinders, without a grid. ${LEFT_ALONE}`,
    trouble: [
      [
        '*No bitting meets these rules beside those used. Ease a rule, or ask for a smaller difference.*',
        'The space is used up under these rules. Another spec may have room.',
      ],
    ],
    example:
      '20 padlocks, all different, any two keys apart in 2 chambers; or 6 groups of 4 cylinders keyed alike.',
    cautions: ['secret', 'first-original', 'exit-doors'],
  },
];
