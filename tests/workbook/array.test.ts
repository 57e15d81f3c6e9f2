/**
 * Key bitting arrays on a sheet of their own: written, edited there by hand, read again with every fault at its cell.
 * The counts beside the arrays are published: six and five positions of four choices have 4,096 and 1,024 changes
 * (trade-association magazine article on interchangeable-core systems, fig. 11; 4,096 also in US patent 6,516,644).
 */
import { describe, expect, it } from 'vitest';
import { defaultArray, theoreticalChanges } from '../../src/keying/array.ts';
import { bittingOf } from '../../src/keying/bitting.ts';
import {
  arrayNames,
  describePlan,
  planArray,
  readArray,
  undoPlan,
  type ArrayInput,
} from '../../src/workbook/index.ts';
import { openBook, type OpenBook } from '../support/office.ts';
import { at, MADE, picture, put, reading, write } from './book.ts';
import { SPEC } from './school.ts';

const TOP = bittingOf(SPEC, [3, 5, 4, 6, 3, 5]);
const HALL: ArrayInput = { system: 'Hall', spec: SPEC, topMaster: TOP, array: defaultArray(SPEC, TOP) };

async function written(input = HALL): Promise<OpenBook> {
  const book = openBook();
  await write(planArray(await reading(), input, MADE).plan);
  return book;
}

const read = async () => readArray(await reading(), 'hall', SPEC)!;
const faults = async (): Promise<string[]> =>
  (await read()).problems.map(({ address, sentence }) => `${address} ${sentence}`);

describe('a key bitting array on its sheet', () => {
  it('is read as it was written', async () => {
    const book = await written();
    expect(arrayNames(await reading())).toEqual(['Hall']);
    const { array, problems } = await read();
    expect(problems).toEqual([]);
    expect(array).toEqual({ topMaster: TOP, array: HALL.array });
    expect(theoreticalChanges(array!.array)).toBe(4096);
    // top master 3 at chamber 1, two-step: 1 5 7 9
    expect([at(book.model, 'Array', 'D5'), at(book.model, 'Array', 'E5')]).toEqual(['3', '1 5 7 9']);
  });

  it('carries levels and a sequence of progression', async () => {
    const deal = ['MK', 'CK', 'CK', 'CK', 'constant', 'CK'] as const;
    await written({ ...HALL, deal, sequence: [5, 4, 3, 2, 1, 0] });
    expect((await read()).array).toMatchObject({ deal, sequence: [5, 4, 3, 2, 1, 0] });
  });

  it('is what the locksmith makes of it there', async () => {
    const book = await written();
    await put(book, 'Array', { E5: '9, 7 5 1', E6: '', F5: 'Master', F6: 'kept', F7: 'CK', F8: 'ck' });
    await put(book, 'Array', { F9: 'change key', F10: 'CK' });
    const { array } = await read();
    expect(array!.array[0]).toEqual([9, 7, 5, 1]);
    expect(array!.deal).toEqual(['MK', 'constant', 'CK', 'CK', 'CK', 'CK']);
    expect(theoreticalChanges(array!.array)).toBe(1024);
  });

  it('says every fault at its cell', async () => {
    const book = await written();
    await put(book, 'Array', { E5: '3 4 5', E6: '2 2', E7: 'any', E8: '99', D9: '', F10: 'CK' });
    expect(await faults()).toEqual([
      'E6 The depth 2 stands there twice.',
      'E7 “any” is not a list of depths; write them with spaces, such as 2 6.',
      'E8 “99” runs together; write the depths as text with spaces: 9 9.',
      'D9 Type the one cut of the top master in this chamber.',
      'F5 Give every chamber its level, or leave all of them blank.',
    ]);
    await put(book, 'Array', { E6: '1', E7: '0', E8: '0', D9: '3', F10: '', G5: '1', G6: '1' });
    expect(await faults()).toEqual([
      'G5 Number the chambers from 1 to 6 in the sequence of progression, each once, or leave all blank.',
    ]);
    await put(book, 'Array', { G5: '', G6: '' });
    expect(await faults()).toEqual([
      expect.stringMatching(/^E5 Depth 3 in chamber 1 .* top master's own cut/),
      expect.stringMatching(/^E5 Depth 4 in chamber 1 .* lies 1 step from the top master/),
    ]);
  });

  it('says which chamber is lost, twice there, or too many', async () => {
    const book = await written();
    await put(book, 'Array', { C5: '2', C7: '7', B8: 'other' });
    expect(await faults()).toEqual([
      'C6 Chamber 2 has two rows. Take one away.',
      `C7 ${SPEC.name} has 6 chambers. Take this row away.`,
      `B8 This array is for the spec other, not for ${SPEC.name}. Choose that spec, or correct the cell.`,
      'A5 The array of Hall has no row for chamber 1, 3. Give each chamber a row.',
    ]);
  });

  it('changes the cells of its own rows alone, shows what they held, and is taken back', async () => {
    const book = await written();
    await put(book, 'Array', { H4: 'Remark', H5: 'mine' });
    const before = picture(book.model);
    const array = HALL.array.map((choices, i) => (i === 2 ? choices.slice(1) : choices));
    const { plan, changes } = planArray(await reading(), { ...HALL, array }, MADE);
    expect(changes).toEqual([
      {
        at: { sheet: 'Array', address: 'E7' },
        what: 'Depths in order, chamber 3',
        from: '0 2 6 8',
        to: '2 6 8',
      },
    ]);
    expect(describePlan(plan).conflicts).toEqual([]);
    const undo = await write(plan);
    expect((await read()).array!.array).toEqual(array);
    expect((await undoPlan(undo)).outcome).toBe('done');
    expect(picture(book.model)).toEqual(before);
  });

  it('puts a second one below the first', async () => {
    await written();
    await write(planArray(await reading(), { ...HALL, system: 'Annex' }, MADE).plan);
    expect(arrayNames(await reading())).toEqual(['Hall', 'Annex']);
    expect((await read()).array).toEqual({ topMaster: TOP, array: HALL.array });
  });
});
