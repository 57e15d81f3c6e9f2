/**
 * Load and sync discipline by a second judge: the vendor's mock (office-addin-mock) answers a property that was not
 * loaded, or not synced yet, with an error text instead of a value.
 */
import { OfficeMockObject } from 'office-addin-mock';
import { afterEach, describe, expect, it } from 'vitest';
import { goTo } from '../../src/workbook/index.ts';

const real: unknown = Reflect.get(globalThis, 'Excel');
afterEach(() => {
  Reflect.set(globalThis, 'Excel', real);
});

function mockExcel(sheet: Record<string, unknown>): { readonly shown: string[] } {
  const shown: string[] = [];
  const data = {
    context: {
      workbook: {
        worksheets: {
          sheet: {
            ...sheet,
            range: { select: () => shown.push('selected') },
            activate: () => shown.push('activated'),
            getRange() {
              return this.range;
            },
          },
          getItemOrNullObject() {
            return this.sheet;
          },
        },
      },
    },
    run(callback: (context: unknown) => Promise<unknown>) {
      return callback(this.context);
    },
  };
  Reflect.set(globalThis, 'Excel', new OfficeMockObject(data));
  return { shown };
}

describe('going to a cell', () => {
  it('loads what it reads before it reads it', async () => {
    const { shown } = mockExcel({ visibility: 'Visible' });
    expect(await goTo({ sheet: 'Keys', address: 'E5' })).toBe(true);
    expect(shown).toEqual(['activated', 'selected']);
  });

  it('leaves a hidden sheet alone', async () => {
    const { shown } = mockExcel({ visibility: 'Hidden' });
    expect(await goTo({ sheet: 'Keys', address: 'E5' })).toBe(false);
    expect(shown).toEqual([]);
  });
});
