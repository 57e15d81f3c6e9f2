/** What the workbook's settings keep of every choice, and what is left of one that can't be read or written. */
import { describe, expect, it } from 'vitest';
import {
  changeSettings,
  parseSettings,
  readSettings,
  writeSettings,
  type BookSettings,
} from '../../src/workbook/settings.ts';
import { openBook } from '../support/office.ts';

const ALL: BookSettings = {
  spec: 'S-018-6',
  unit: 'mm',
  begun: true,
  folded: ['Keys in hand'],
  stripFolded: false,
  audits: [{ system: 'School', made: '2026-03-14', faults: 1, warnings: 2 }],
  lastAudits: [
    {
      system: 'School',
      made: '2026-03-14',
      keys: 7,
      cylinders: 4,
      counts: { 'lock-out': 1 },
      findings: [['lock-out', 'A', 'C1', '']],
      names: { keys: [['A', 'A']], cylinders: [['C1', 'C1']] },
      withheld: 0,
    },
  ],
  schedule: {
    sheet: 'Doors',
    columns: { headerRow: 2, door: 0, location: 1, zone: 2, hardware: 3, type: 4, length: 5, cam: 6, finish: 7, side: 8, symbol: 9, hand: 10, quantity: 11, keys: 12, cylinder: 13, remarks: 14 }, // prettier-ignore
    headings: { door: 'Door', remarks: 'Notes' },
  },
};

describe('a stored text', () => {
  it('gives every choice back', () => {
    expect(parseSettings(JSON.stringify(ALL))).toStrictEqual(ALL);
    expect(parseSettings('{}')).toStrictEqual({});
  });

  it('gives nothing where it is none of ours', () => {
    for (const text of ['', '{', 'null', '3', '"x"', '[]', 'true'])
      expect(parseSettings(text)).toStrictEqual({});
  });

  it('loses the one choice that can’t be read, and not the others', () => {
    const bad: Readonly<Record<keyof BookSettings, unknown>> = {
      spec: 1,
      unit: 'furlong',
      begun: 'yes',
      folded: 'all',
      stripFolded: null,
      audits: [{ system: 'School' }],
      lastAudits: {},
      schedule: { sheet: 'Doors', columns: { door: 0 } },
    };
    for (const [name, value] of Object.entries(bad)) {
      const others = Object.fromEntries(Object.entries(ALL).filter(([other]) => other !== name));
      expect(parseSettings(JSON.stringify({ ...ALL, [name]: value })), name).toStrictEqual(others);
    }
    // what a later version may know is nobody's
    expect(parseSettings('{"spec":"S","later":1}')).toStrictEqual({ spec: 'S' });
  });
});

describe('the workbook', () => {
  it('keeps one text under one name', async () => {
    const { model } = openBook();
    expect(await writeSettings(ALL)).toBe(true);
    // a setting holds JSON, and ours is a text
    expect([...model.state.settings]).toEqual([['Keyrow', JSON.stringify(JSON.stringify(ALL))]]);
    expect(await readSettings()).toStrictEqual(ALL);
  });

  it('gives nothing where another wrote something else there', async () => {
    const { model } = openBook();
    model.setSetting('Keyrow', 3 as never, 'user');
    expect(await readSettings()).toEqual({});
    // and a change begins anew
    expect(await changeSettings((now) => ({ ...now, spec: 'S' }))).toBe(true);
    expect(await readSettings()).toEqual({ spec: 'S' });
  });

  it('that is being edited gives nothing and keeps nothing', async () => {
    const { host, model } = openBook();
    await writeSettings({ spec: 'S' });
    host.setCellEditMode(true);
    expect(await readSettings()).toEqual({});
    expect(await writeSettings({ spec: 'T' })).toBe(false);
    let asked = false;
    const change = (now: BookSettings): BookSettings => {
      asked = true;
      return now;
    };
    expect([await changeSettings(change), asked]).toEqual([false, false]);
    host.setCellEditMode(false);
    expect([...model.state.settings]).toEqual([['Keyrow', JSON.stringify('{"spec":"S"}')]]);
    // one change that failed is no hindrance to the next
    expect(await changeSettings((now) => ({ ...now, unit: 'mm' }))).toBe(true);
    expect(await readSettings()).toEqual({ spec: 'S', unit: 'mm' });
  });
});
