import { ProgrammerError } from '../keying/result.ts';
import type { Place } from './places.ts';
import type { BookReading, CellValue, CylinderRow, KeyRow, SpecReading, SystemReading } from './reading.ts';

export type SelectedSubject =
  | { readonly kind: 'key'; readonly system: SystemReading; readonly key: KeyRow; readonly at: Place }
  | {
      readonly kind: 'cylinder';
      readonly system: SystemReading;
      readonly cylinder: CylinderRow;
      readonly at: Place;
    }
  | {
      readonly kind: 'grid';
      readonly system: SystemReading;
      readonly key?: KeyRow;
      readonly cylinder?: CylinderRow;
      readonly marked: boolean;
      readonly at: Place;
    }
  | { readonly kind: 'spec'; readonly spec: SpecReading; readonly at: Place }
  | { readonly kind: 'other'; readonly at: Place; readonly value: CellValue };

/** What a selected cell is, by its place in the last reading. */
export function subjectAt(_book: BookReading, _at: Place, _value: CellValue = ''): SelectedSubject {
  throw new ProgrammerError('not written yet');
}
/** Calls back with the active cell at once and after each change; the result stops it. */
export async function watchSelection(
  _onSelect: (at: Place, value: CellValue) => void,
): Promise<() => Promise<void>> {
  throw new ProgrammerError('not written yet');
}
/** Shows a cell. False where its sheet is gone or hidden. */
export async function goTo(_at: Place): Promise<boolean> {
  throw new ProgrammerError('not written yet');
}
