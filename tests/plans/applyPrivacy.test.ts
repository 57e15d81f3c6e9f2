/** Hiding and protecting sheets with bittings, as plans: which sheets, in which words, and what bars it. */
import { describe, expect, it } from 'vitest';
import type { BookReading, SheetReading } from '../../src/workbook/index.ts';
import { planOpenUp, planPrivacy } from '../../src/workbook/applyPrivacy.ts';
import { EMPTY_BOOK, tableWith } from './plainBook.ts';

const sheet = (name: string, more: Partial<SheetReading> = {}): SheetReading => ({
  name,
  visible: true,
  protected: false,
  ...more,
});
/** Bittings stand on Keys and on Systems; Doors is the shop's. */
const book = (...sheets: SheetReading[]): BookReading => ({
  ...EMPTY_BOOK,
  tables: [tableWith('KeyrowKeys', 'Keys', [['Key'], ['']]), tableWith('KeyrowSystems', 'Systems', [['System'], ['']])],
  sheets,
}); // prettier-ignore
const OPEN = book(sheet('Doors'), sheet('Keys'), sheet('Systems'));
const SHUT = book(sheet('Doors'), sheet('Keys', { visible: false, protected: true }), sheet('Systems', { visible: false })); // prettier-ignore

describe('keeping sheets private', () => {
  it('protects and hides those with bittings', () => {
    expect(planPrivacy(OPEN, { hide: true, protect: true })).toEqual({
      steps: [
        { sheet: 'Keys', act: 'protect' },
        { sheet: 'Systems', act: 'protect' },
        { sheet: 'Keys', act: 'hide' },
        { sheet: 'Systems', act: 'hide' },
      ],
      sentence: 'Protects Keys, Systems; hides Keys, Systems; touches no cell.',
      conflicts: [],
    });
    expect(planPrivacy(OPEN, { hide: true, protect: false }).sentence).toBe(
      'Hides Keys, Systems; touches no cell.',
    );
    expect(planPrivacy(OPEN, { hide: false, protect: true }).sentence).toBe(
      'Protects Keys, Systems; touches no cell.',
    );
  });

  it('takes further sheets that were chosen, and leaves alone what is so already', () => {
    expect(
      planPrivacy(OPEN, { hide: true, protect: false }, ['Doors']).steps.map((step) => step.sheet),
    ).toEqual(['Doors', 'Keys', 'Systems']);
    expect(planPrivacy(SHUT, { hide: true, protect: true })).toEqual({
      steps: [{ sheet: 'Systems', act: 'protect' }],
      sentence: 'Protects Systems; touches no cell.',
      conflicts: [],
    });
    expect(planPrivacy(OPEN, { hide: false, protect: false })).toEqual({
      steps: [],
      sentence: 'There is nothing to change.',
      conflicts: [],
    });
  });

  it('needs the structure of the workbook to be open where a sheet is hidden or shown', () => {
    const shut = {
      sentence:
        'The workbook’s structure is protected, so no sheet can be hidden or shown. Take that protection off first.',
    };
    const locked = { ...OPEN, structureProtected: true };
    expect(planPrivacy(locked, { hide: true, protect: true }).conflicts).toEqual([shut]);
    expect(planPrivacy(locked, { hide: false, protect: true }).conflicts).toEqual([]);
    expect(planOpenUp({ ...SHUT, structureProtected: true }).conflicts).toEqual([shut]);
    const guarded = book(sheet('Doors'), sheet('Keys', { protected: true }));
    expect(planOpenUp({ ...guarded, structureProtected: true }).conflicts).toEqual([]);
  });

  it('leaves one sheet visible', () => {
    const one = { sentence: 'One sheet has to stay visible. Add a sheet without bittings first.' };
    const alone = book(sheet('Keys'), sheet('Systems'), sheet('Doors', { visible: false }));
    expect(planPrivacy(alone, { hide: true, protect: false }).conflicts).toEqual([one]);
    expect(planPrivacy(alone, { hide: false, protect: true }).conflicts).toEqual([]);
    expect(planPrivacy(OPEN, { hide: true, protect: false }).conflicts).toEqual([]);
    // nothing is hidden where all of them are so already
    expect(
      planPrivacy(book(sheet('Keys', { visible: false })), { hide: true, protect: true }).conflicts,
    ).toEqual([]);
  });
});

describe('opening them up', () => {
  it('shows what is hidden and takes protection off', () => {
    expect(planOpenUp(SHUT)).toEqual({
      steps: [
        { sheet: 'Keys', act: 'show' },
        { sheet: 'Systems', act: 'show' },
        { sheet: 'Keys', act: 'unprotect' },
      ],
      sentence: 'Shows Keys, Systems; takes the protection off Keys; touches no cell.',
      conflicts: [],
    });
    expect(planOpenUp(OPEN)).toMatchObject({ steps: [], sentence: 'There is nothing to change.' });
    const hidden = book(sheet('Doors', { visible: false }), sheet('Keys'));
    expect(planOpenUp(hidden).steps).toEqual([]);
    expect(planOpenUp(hidden, ['Doors']).steps).toEqual([{ sheet: 'Doors', act: 'show' }]);
  });
});
