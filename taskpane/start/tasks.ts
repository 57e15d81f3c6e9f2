/** Every task that the pane offers, grouped by whose work it is, and how a few typed words find one. */
import type { ScreenName } from '../shared/navigation.tsx';

export interface Task {
  readonly to: ScreenName;
  readonly title: string;
  readonly what: string;
  /** Other words that a person may look for it by. */
  readonly words: string;
  /** Needs a system in the workbook. */
  readonly system?: true;
}

export interface TaskGroup {
  readonly name: string;
  readonly tasks: readonly Task[];
}

export const GROUPS: readonly TaskGroup[] = [
  {
    name: 'Master-key systems',
    tasks: [
      {
        to: 'make',
        title: 'Make keys',
        what: 'A master-key system for so many doors: bittings, grid and pinning.',
        words: 'new system generate create progression grand master hierarchy bittings',
      },
      {
        to: 'solve',
        title: 'Solve a grid',
        what: 'Who opens what, as you marked it: keys and pinning, or proof that there are none.',
        words: 'matrix chart marks who opens what selective lock-out keyways cores control key',
      },
      {
        to: 'extend',
        title: 'Extend a system',
        what: 'New doors and keys into a system that stands, with nothing re-pinned that need not be.',
        words: 'add doors keys grow wing expand keyways cores',
        system: true,
      },
      {
        to: 'cross',
        title: 'Cross-key a door',
        what: 'Let further keys open one door: what it costs, before anything is written.',
        words: 'cross keying common door shared entrance',
        system: true,
      },
      {
        to: 'construction',
        title: 'Construction keying',
        what: 'A key that works while the building goes up and stops at hand-over.',
        words: 'builder contractor temporary key hand-over handover loose pin one-way',
        system: true,
      },
      {
        to: 'pools',
        title: 'Keys without a master',
        what: 'Keyed different or keyed alike: so many bittings, none used before.',
        words: 'KD KA padlocks cabinets keyed different alike pool',
      },
      {
        to: 'audit',
        title: 'Audit a system',
        what: 'Every key against every cylinder, from the sheets.',
        words: 'check interchange lock-out near miss ghost changed',
        system: true,
      },
    ],
  },
  {
    name: 'At the bench',
    tasks: [
      {
        to: 'check',
        title: 'Check codes',
        what: 'The codes in the selected cells against a spec.',
        words: 'bittings MACS adjacent cuts rules duplicates validate',
      },
      {
        to: 'codes',
        title: 'Cut from a list',
        what: 'Codes from elsewhere, checked and put on a cutting sheet.',
        words: 'paste import mail cutting job machine blanks',
      },
      {
        to: 'pin',
        title: 'Pin cylinders',
        what: 'Pin stacks chamber by chamber, as a sheet for the bench.',
        words: 'pinning bottom master driver top build-up kit rekey stack',
        system: true,
      },
      {
        to: 'decode',
        title: 'Decode a key',
        what: 'Caliper readings: the specs that fit best, the code, and how well.',
        words: 'measure caliper readings depths unknown',
      },
      {
        to: 'shop',
        title: 'Shop tables',
        what: 'Your cutters, set-ups, blanks and pins, and what they suit.',
        words: 'cutters jigs setups blanks pins kit stock keyway',
      },
    ],
  },
  {
    name: 'Schedule and reports',
    tasks: [
      {
        to: 'schedule',
        title: 'Look after the schedule',
        what: 'Your own door schedule: check it, correct it, order from it.',
        words: 'doors hardware order stamping keyset symbols columns totals',
      },
      {
        to: 'reports',
        title: 'Reports and privacy',
        what: 'For the customer without bittings, for the shop with them.',
        words: 'print customer copy protect hide secret tenant hand over',
        system: true,
      },
    ],
  },
  {
    name: 'Keys in hand',
    tasks: [
      {
        to: 'people',
        title: 'Keys and people',
        what: 'Who can open a door, what somebody can open, what is overdue.',
        words: 'holders who has access overdue left',
        system: true,
      },
      {
        to: 'ledger',
        title: 'Hand out and take back',
        what: 'Keys to and from people, one or many, as rows of the ledger.',
        words: 'issue return transfer receipt sign ledger',
        system: true,
      },
      {
        to: 'count',
        title: 'Count the keys',
        what: 'A key inventory by person or hook, typed or scanned.',
        words: 'inventory stock-taking hooks cabinet scan',
        system: true,
      },
      {
        to: 'lost',
        title: 'A key is lost',
        what: 'What it opens, what to change first, new bittings and a work order.',
        words: 'missing stolen exposed rekey replace recall',
        system: true,
      },
    ],
  },
  {
    name: 'This workbook',
    tasks: [
      {
        to: 'specs',
        title: 'Specs',
        what: 'Cut centres, depths and MACS: starters and your own.',
        words: 'specification depth and space data spacing increments unit inches mm millimetres compare',
      },
      {
        to: 'repair',
        title: 'Repair and freeze',
        what: 'Formulas of the add-in put back, or turned into the values that they show.',
        words: 'mend formula broken overwritten name ref values fix paste',
      },
      {
        to: 'about',
        title: 'About and cautions',
        what: 'What this add-in does and does not do.',
        words: 'help licence version privacy life safety',
      },
    ],
  },
];

const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/**
 * Tasks that hold every word typed, at the start of a word; those with it in the title come first.
 * @example findTasks('lost').map((t) => t.title) → ['A key is lost']
 */
export function findTasks(typed: string): Task[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [];
  const starts = (text: string): boolean => {
    const words = plain(text).split(/[^\p{L}\p{N}]+/u);
    return wanted.every((part) => words.some((word) => word.startsWith(part)));
  };
  const tasks = GROUPS.flatMap((group) => group.tasks);
  const found = tasks.filter((t) => starts(`${t.title} ${t.what} ${t.words}`));
  return [...found.filter((t) => starts(t.title)), ...found.filter((t) => !starts(t.title))];
}
