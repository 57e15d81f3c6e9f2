/**
 * The words by which a shop's schedule is read: headings of its columns, words of a total, and remarks that call for
 * caution. This is the one file to change for another language or house style. The trade's usual headings, as common
 * practice has them; a heading counts when the whole of it, folded, is one of these, and the first word listed wins.
 */

/** What a column of a schedule can be. */
export const SCHEDULE_ROLES = [
  'door',
  'location',
  'zone',
  'hardware',
  'type',
  'length',
  'cam',
  'finish',
  'side',
  'symbol',
  'hand',
  'quantity',
  'keys',
  'cylinder',
  'remarks',
] as const;
export type ScheduleRole = (typeof SCHEDULE_ROLES)[number];

/** How each is named towards the user. */
export const ROLE_NAMES: Readonly<Record<ScheduleRole, string>> = {
  door: 'Door',
  location: 'Location',
  zone: 'Zone',
  hardware: 'Hardware set',
  type: 'Cylinder type',
  length: 'Length',
  cam: 'Cam or tailpiece',
  finish: 'Finish',
  side: 'Side',
  symbol: 'Keyset symbol',
  hand: 'Hand',
  quantity: 'Cylinders (quantity)',
  keys: 'Keys (quantity)',
  cylinder: 'Cylinder number',
  remarks: 'Remarks',
};

/**
 * Folded headings: small letters, single spaces, no `# . : _ ( )`. Roles are given out in this order, so that the
 * more particular words are taken before the general ones.
 */
export const HEADING_WORDS: readonly (readonly [ScheduleRole, readonly string[]])[] = [
  [
    'symbol',
    [
      'keyset symbol', 'key set symbol', 'keyset', 'key set', 'key symbol', 'keyset code', 'keying symbol', 'keying',
      'key group', 'key mark', 'symbol', 'key', 'key no', 'key code symbol',
    ],
  ],
  [
    'door',
    [
      'door no', 'door number', 'door nr', 'door id', 'door mark', 'door', 'opening no', 'opening number', 'opening',
      'room no', 'room number', 'mark', 'no',
    ],
  ],
  ['keys', ['key qty', 'qty keys', 'keys qty', 'key quantity', 'number of keys', 'no of keys', 'keys', 'key count']],
  [
    'quantity',
    [
      'cyl qty', 'qty cyl', 'cylinder qty', 'cylinder quantity', 'number of cylinders', 'no of cylinders', 'cylinders',
      'qty', 'quantity', 'count', 'pcs', 'pieces',
    ],
  ],
  ['cylinder', ['cylinder no', 'cylinder number', 'cylinder id', 'cyl no', 'cyl number', 'core no', 'core number']],
  ['type', ['cylinder type', 'cyl type', 'lock type', 'type of cylinder', 'cylinder', 'cyl', 'core', 'core type', 'type']],
  ['length', ['cylinder length', 'cyl length', 'length', 'cylinder size', 'cyl size', 'size']],
  ['cam', ['cam or tailpiece', 'cam/tailpiece', 'cam / tailpiece', 'cam', 'tailpiece', 'tail piece', 'cam type']],
  ['finish', ['cylinder finish', 'cyl finish', 'finish', 'fin']],
  ['side', ['side', 'leaf', 'inside/outside', 'in/out', 'face', 'side of door']],
  ['hand', ['hand', 'handing', 'door hand', 'swing']],
  ['hardware', ['hardware set', 'hw set', 'hdw set', 'hardware', 'hw', 'hardware group', 'hw group', 'set', 'hdwe set']],
  ['zone', ['zone', 'area', 'building', 'block', 'wing', 'floor', 'level', 'department']],
  [
    'location',
    [
      'door location', 'room / location', 'room/location', 'location', 'room name', 'room', 'place', 'description',
      'from / to', 'from/to', 'from', 'area name',
    ],
  ],
  ['remarks', ['remarks', 'remark', 'notes', 'note', 'comments', 'comment']],
]; // prettier-ignore

/** In a row without a door these make it a total; the first kind counts since the last of its kind. */
export const SUBTOTAL_WORDS: readonly string[] = ['subtotal', 'sub total', 'sub-total'];
export const TOTAL_WORDS: readonly string[] = ['total', 'totals', 'grand total', 'sum'];

/** Words behind a quantity that say nothing: `2 pcs`. */
export const QUANTITY_WORDS: readonly string[] = ['ea', 'each', 'pc', 'pcs', 'x', 'off'];

export const CAUTIONS = ['exit', 'fire', 'accessible'] as const;
export type CautionKind = (typeof CAUTIONS)[number];

/** Whole words in a remark, location, hardware set or type that make a door one for the local codes. */
export const CAUTION_WORDS: Readonly<Record<CautionKind, readonly string[]>> = {
  exit: ['exit', 'exits', 'egress', 'escape', 'panic', 'emergency', 'evacuation'],
  fire: ['fire', 'smoke', 'rated'],
  accessible: ['accessible', 'accessibility', 'barrier-free', 'wheelchair', 'disabled', 'handicapped'],
};
