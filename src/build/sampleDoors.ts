/** The invented place of the sample workbook: Tarn Hollow School, three groups and about sixty doors. */

export interface SampleDoor {
  readonly door: string;
  readonly location: string;
  readonly hardware: string;
  /** Keyset symbol; doors of one symbol are keyed alike. Empty = not keyed yet. */
  readonly symbol: string;
  readonly hand?: 'LH' | 'RH' | 'LHR' | 'RHR';
  readonly remarks?: string;
}

export interface SampleSection {
  readonly title: string;
  readonly doors: readonly SampleDoor[];
}

type Row = readonly [door: string, location: string, hardware: string, symbol: string, remarks?: string];

const HANDS = ['LH', 'RH', 'LHR', 'RHR'] as const;

const section = (title: string, rows: readonly Row[]): SampleSection => ({
  title,
  doors: rows.map(([door, location, hardware, symbol, remarks], i) => ({
    door,
    location,
    hardware,
    symbol,
    hand: HANDS[i % HANDS.length]!,
    ...(remarks === undefined ? {} : { remarks }),
  })),
});

export const SECTIONS: readonly SampleSection[] = [
  section('MAIN BUILDING – GROUND FLOOR', [
    ['101', 'Main entrance', 'HW-1', 'AA1', 'exit route – panic hardware'],
    ['101A', 'Main entrance, inner lobby', 'HW-1', 'AA1'],
    ['102', 'Reception', 'HW-4', 'AA2'],
    ['103', 'Head of school', 'HW-4', 'AA3'],
    ['104', 'Office', 'HW-4', 'AA2'],
    ['105', 'Records', 'HW-5', 'AA4', 'no duplicates without the head’s signature'],
    ['106', 'Staff room', 'HW-4', 'AA5'],
    ['107', 'Corridor, west', 'HW-2', 'AA6', 'fire door – keep latch'],
    ['108', 'WC', 'HW-7', 'AA7', 'accessible'],
    ['109', 'WC', 'HW-7', 'AA7'],
    ['110', 'Classroom 1', 'HW-3', 'AA8'],
    ['111', 'Classroom 2', 'HW-3', 'AA9'],
    ['112', 'Classroom 3', 'HW-3', 'AA10'],
    ['113', 'Classroom 4', 'HW-3', 'AA11'],
    ['114', 'Cleaner', 'HW-6', 'AA12'],
    ['115', 'Electrical', 'HW-6', 'AA13'],
    ['116', 'Boiler room', 'HW-6', 'AA14', 'exit route'],
  ]),
  section('MAIN BUILDING – FIRST FLOOR', [
    ['201', 'Corridor, east', 'HW-2', 'AA6', 'fire door – keep latch'],
    ['202', 'Classroom 5', 'HW-3', 'AA15'],
    ['203', 'Classroom 6', 'HW-3', 'AA16'],
    ['204', 'Classroom 7', 'HW-3', 'AA17'],
    ['205', 'Classroom 8', 'HW-3', 'AA18'],
    ['206', 'Science', 'HW-3', 'AA19'],
    ['207', 'Science store', 'HW-5', 'AA20', 'chemicals'],
    ['208', 'Library', 'HW-4', 'AA21'],
    ['209', 'Library office', 'HW-4', 'AA21'],
    ['210', 'Server', 'HW-5', 'AA22'],
    ['211', 'WC', 'HW-7', 'AA7'],
  ]),
  section('SPORTS HALL', [
    ['301', 'Entrance', 'HW-1', 'AB1', 'exit route – panic hardware'],
    ['302', 'Hall, north', 'HW-2', 'AB2'],
    ['303', 'Hall, south', 'HW-2', 'AB2', 'exit route'],
    ['304', 'Changing 1', 'HW-7', 'AB3'],
    ['305', 'Changing 2', 'HW-7', 'AB3'],
    ['306', 'Equipment', 'HW-6', 'AB4'],
    ['307', 'Coach', 'HW-4', 'AB5'],
    ['308', 'First aid', 'HW-4', 'AB6'],
    ['309', 'Kitchen', 'HW-4', 'AB7'],
    ['310', 'Plant', 'HW-6', 'AB8'],
  ]),
  section('WORKSHOPS', [
    ['401', 'Wood', 'HW-3', 'AC1'],
    ['402', 'Metal', 'HW-3', 'AC2'],
    ['403', 'Machine store', 'HW-5', 'AC3'],
    ['404', 'Timber store', 'HW-6', 'AC4'],
    ['405', 'Art', 'HW-3', 'AC5'],
    ['406', 'Kiln', 'HW-6', 'AC6'],
    ['407', 'Technician', 'HW-4', 'AC7'],
    ['408', 'Yard gate', 'HW-8', 'AC8', 'padlock'],
  ]),
  section('NEW WING (not keyed yet)', [
    ['501', 'Entrance', 'HW-1', ''],
    ['502', 'Group room 1', 'HW-3', ''],
    ['503', 'Group room 2', 'HW-3', ''],
    ['504', 'Group room 3', 'HW-3', ''],
    ['505', 'Office', 'HW-4', ''],
    ['506', 'Store', 'HW-6', ''],
    ['507', 'WC', 'HW-7', '', 'accessible'],
    ['508', 'Music', 'HW-3', ''],
    ['509', 'Music store', 'HW-5', ''],
    ['510', 'Sensory room', 'HW-3', ''],
    ['511', 'Cleaner', 'HW-6', ''],
    ['512', 'Fire exit, east', 'HW-1', '', 'exit route'],
    ['513', 'Plant', 'HW-6', ''],
    ['514', 'Tank room', 'HW-6', ''],
  ]),
];

/** Codes that came with older padlocks and cabinets, with the faults that such lists have. */
export const OLD_CODES: readonly (readonly [mark: string, code: string | number, where: string])[] = [
  ['P1', '241536', 'Bicycle store'],
  ['P2', '3-5-2-6-4-1', 'Garden gate'],
  ['P3', 27413, 'Pump house'],
  ['P4', '4 6 2 5 1 3', 'Caretaker’s cabinet'],
  ['P5', '283456', 'Loft hatch'],
  ['P6', '524163', 'Stage trap'],
  ['P7', '241536', 'Bicycle store, spare'],
  ['P8', '6l5243', 'Chair store'],
  ['P9', '35264', 'Cupboard 2'],
  ['P10', '463152', 'Cupboard 3'],
  ['P11', '555555', 'Cupboard 4'],
  ['P12', '364251', 'Cupboard 5'],
  ['P13', '136425', 'Notice board'],
  ['P14', '425361', 'Ticket desk'],
];
