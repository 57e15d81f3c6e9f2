/** Bittings that were taken out of use for good: not even a new system gets one, where its blanks go in the same doors. */
import { describe, expect, it } from 'vitest';
import { evenTree, generateSystem } from '../../src/keying/hierarchy.ts';
import { runToEnd } from '../../src/keying/system.ts';
import { retiredUnder } from '../../src/workbook/index.ts';
import { bittingsUnder } from '../../taskpane/solve/solveForm.ts';
import { openBook } from '../support/office.ts';
import { reading, writeSystem } from './book.ts';
import { school, SPEC } from './school.ts';

describe('retired bittings', () => {
  it('are kept from new systems and pools', async () => {
    const { host } = openBook();
    await writeSystem(school());
    const request = {
      name: 'Annexe',
      spec: SPEC,
      levels: 2 as const,
      grands: evenTree(2, { masters: 1, changeKeys: 6 }),
      seed: 4,
    };
    const first = runToEnd(generateSystem(request));
    if (!first.ok) throw new Error('the annexe does not fit');
    // the key that the annexe would get first is one that the school lost
    const taken = first.system.keys.find((k) => k.level === 'CK')!.bitting;
    const key = (await reading()).systems[0]!.keys.find((k) => k.symbol === 'AA1')!;
    const row = key.at.row.address.replace(/\D/g, '');
    host.userEdit('Keys', key.at.bitting.address, [[`${taken.map((d) => SPEC.depths[d]!.symbol).join('')}`]]);
    const status = (await reading()).tables.find((t) => t.name === 'KeyrowKeys')!.headers.indexOf('Status');
    host.userEdit('Keys', `${'ABCDEFGHIJKL'[status]!}${row}`, [['retired']]);
    const book = await reading();
    const avoid = retiredUnder(book, SPEC, undefined);
    expect(avoid.map(String)).toEqual([String(taken)]);
    expect(bittingsUnder(book, SPEC).map(String)).toContain(String(taken));
    const again = runToEnd(generateSystem({ ...request, avoid }));
    if (!again.ok) throw new Error('the annexe does not fit any more');
    expect(again.system.keys.map((k) => String(k.bitting))).not.toContain(String(taken));
  });
});
