/** Ranges of a Specs table as Excel hands them over: a fresh array at every call, blanks as empty text. */
import { SPEC_COLUMNS, type SpecColumn } from '../../src/keying/specTable.ts';

type Row = Partial<Record<SpecColumn, string | number>>;

/** Six cuts from 0.237 in by 0.156 in, ten depths from 0.315 in by 0.018 in: common practice. */
const SIX: Row = {
  Name: 'House 6',
  Unit: 'in',
  Gauge: 'shoulder',
  Order: 'bow-to-tip',
  Cuts: 6,
  'First cut': 0.237,
  Spacing: 0.156,
  Depths: '0=0.315; 1=0.297; 2=0.279; 3=0.261; 4=0.243; 5=0.225; 6=0.207; 7=0.189; 8=0.171; 9=0.153',
  'Root width': 0.054,
  Angle: 90,
  MACS: 5,
  'Plug diameter': 0.5,
};

/** Letters for symbols, the later letter the shallower cut, uneven steps; measured from the tip. */
const LETTERS: Row = {
  Name: 'Letters',
  Unit: 'mm',
  Gauge: 'tip',
  Order: 'bow-to-tip',
  Cuts: 4,
  'First cut': 3,
  Spacing: 4,
  Depths: 'A=5; B=5.5; C=6.2; D=7',
  'Root width': 1.5,
  Angle: 90,
  MACS: 2,
  Step: 1,
  Pins: 'A=6; B=5.5; C=4.8; D=4',
};

/** Two-character symbols. */
const WIDE: Row = { ...LETTERS, Name: 'Wide', Depths: '9=5; 10=5.5; 11=6.2', Pins: '', MACS: 2 };

/** MACS left out: a row with a fault. */
const BROKEN: Row = { ...SIX, Name: 'Broken', MACS: '' };

export const specsRange = (extra: readonly Row[] = []): unknown[][] => [
  [...SPEC_COLUMNS],
  ...[SIX, LETTERS, WIDE, BROKEN, ...extra].map((row) => SPEC_COLUMNS.map((column) => row[column] ?? '')),
];

/** A starter's name with other dimensions. */
export const reservedRow: Row = { ...SIX, Name: 'S-018-6', MACS: 4 };
