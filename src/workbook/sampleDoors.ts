/** An invented village hall with a workshop beside it, for trying things in a workbook of one's own. */

export const SAMPLE_SYSTEM = 'Sample hall';

export const SAMPLE_DOOR_HEADINGS = ['Door', 'Room', 'Key set', 'Hand', 'Remarks'] as const;

/** Doors of one key set are keyed alike. */
export const SAMPLE_DOORS: readonly (readonly [
  door: string,
  room: string,
  symbol: string,
  hand: string,
  remarks: string,
])[] = [
  ['01', 'Main entrance', 'AA1', 'RHR', 'exit route'],
  ['02', 'Garden entrance', 'AA1', 'LHR', 'exit route'],
  ['03', 'Office', 'AA2', 'LH', ''],
  ['04', 'Records', 'AA3', 'RH', ''],
  ['05', 'Great hall, west', 'AA4', 'LHR', 'fire door'],
  ['06', 'Great hall, east', 'AA4', 'RHR', 'fire door'],
  ['07', 'Kitchen', 'AA5', 'LH', ''],
  ['08', 'Larder', 'AA6', 'LH', ''],
  ['09', 'Stage', 'AA7', 'RH', ''],
  ['10', 'Dressing room', 'AA8', 'RH', ''],
  ['11', 'Cleaner', 'AA9', 'LH', ''],
  ['12', 'Boiler room', 'AA10', 'RH', ''],
  ['21', 'Workshop entrance', 'AB1', 'RHR', 'exit route'],
  ['22', 'Wood', 'AB2', 'LH', ''],
  ['23', 'Metal', 'AB3', 'LH', ''],
  ['24', 'Timber store', 'AB4', 'RH', ''],
  ['25', 'Paint store', 'AB5', 'RH', 'chemicals'],
  ['26', 'Yard gate', 'AB6', '', 'padlock'],
];

export const SAMPLE_CODE_HEADINGS = ['Mark', 'Code', 'Where'] as const;

/** A list as it comes in a mail: two codes that break the adjacent-cut limit, one twice, one too short. */
export const SAMPLE_CODES: readonly (readonly [mark: string, code: string, where: string])[] = [
  ['L1', '241536', 'Bicycle shed'],
  ['L2', '352641', 'Chair store'],
  ['L3', '283456', 'Loft hatch'],
  ['L4', '463152', 'Notice board'],
  ['L5', '241536', 'Bicycle shed, spare'],
  ['L6', '35264', 'Cupboard'],
  ['L7', '142536', 'Meter box'],
  ['L8', '518243', 'Ticket desk'],
];
