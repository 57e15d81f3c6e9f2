import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { openBook } from '../../support/office.ts';
import type { RequestBody } from '../../../src/preview/host/index.ts';

describe('the pinned front half of office.js', () => {
  it('is the version whose bridge was read', () => {
    const { version } = createRequire(import.meta.url)('@microsoft/office-js/package.json') as {
      version: string;
    };
    expect(version).toBe('1.1.110');
  });

  it('sends the shapes the host expects', async () => {
    const book = openBook();
    const bodies: RequestBody[] = [];
    book.host.onExchange = (body) => bodies.push(body);
    await book.run(async (context) => {
      const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B2');
      range.load('values,address');
      range.format.fill.color = '#FF0000';
      await context.sync();
    });
    const [body] = bodies;
    const paths = Object.values(body?.ObjectPaths ?? {}).map((p) => [p.ObjectPathType, p.Name]);
    expect(paths).toEqual([
      [1, ''],
      [4, 'Worksheets'],
      [5, ''],
      [3, 'GetRange'],
      [4, 'Format'],
      [4, 'Fill'],
    ]);
    const actions = (body?.Actions ?? []).map((a) => [a.ActionType, a.Name]);
    expect(actions).toContainEqual([3, '_KeepReference']);
    expect(actions).toContainEqual([2, '']);
    expect(actions).toContainEqual([4, 'Color']);
    const load = body?.Actions.find((a) => a.ActionType === 2);
    expect(load?.QueryInfo?.Select).toEqual(['values', 'address']);
  });

  it('splits big writes into rows it validates first', async () => {
    const book = openBook();
    const names = new Set<string>();
    book.host.onExchange = (body) => {
      for (const part of [...body.Actions, ...Object.values(body.ObjectPaths)]) names.add(part.Name);
    };
    await book.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Sheet1');
      sheet.getRange('A1:B1000').values = Array.from({ length: 1000 }, (_, i) => [i, -i]);
      await context.sync();
    });
    expect([...names]).toEqual(
      expect.arrayContaining(['GetRow', 'GetBoundingRect', '_ValidateArraySize', 'Values']),
    );
    expect(book.model.value('Sheet1', 999, 1)).toBe(-999);
  });

  it('offers the front half nothing of mergeUndoGroup, which the shim stands in for', () => {
    expect(Excel.run.toString()).toContain('asksForGroup');
  });
});
