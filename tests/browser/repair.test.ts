/** Formulas gone wrong by somebody's hand, put back and frozen, with real clicks. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startStage, type Preview, type Stage } from './preview.ts';

let stage: Stage;
let preview: Preview;
beforeAll(async () => {
  stage = await startStage();
  preview = await stage.open();
});
afterAll(() => stage.close());

describe('repair and freeze', () => {
  it(
    'puts back what was typed over and freezes on request, each taken back',
    { timeout: 300_000 },
    async () => {
      const { pane, call, pictured } = preview;
      const foot = pane.getByRole('contentinfo').first();
      const value = async (): Promise<unknown> => call('value', 'Keys', 4, 10);
      await expect.poll(value, { timeout: 60_000 }).not.toBe('#NAME?');
      const before = await value();
      await call('type', 'Keys', 'K5', 'good');
      await call('type', 'Keys', 'K7', '');
      await pane
        .getByRole('navigation', { name: 'Tasks' })
        .getByRole('button', { name: 'Repair and freeze' })
        .click();
      const list = pane.getByRole('list', { name: 'Formulas gone wrong' });
      await list.getByText('Check holds “good” where a formula was.').waitFor();
      expect(await list.getByRole('listitem').count()).toBe(2);
      await pictured('repair-found');
      await foot.getByRole('button', { name: 'Put 2 formulas back' }).click();
      await foot.getByRole('button', { name: 'Put them back' }).waitFor();
      await pictured('repair-plan');
      await foot.getByRole('button', { name: 'Put them back' }).click();
      await foot.getByRole('button', { name: 'Done' }).waitFor();
      await pictured('repair-done');
      await expect.poll(value).toBe(before);
      await foot.getByRole('button', { name: 'Done' }).click();
      await pane.getByText('Every formula in Keys and Cylinders is where it should be.').waitFor();
      await pane.getByRole('button', { name: 'Freeze this table' }).click();
      await foot.getByRole('button', { name: 'Freeze them' }).waitFor();
      await pictured('repair-freeze-plan');
      await foot.getByRole('button', { name: 'Freeze them' }).click();
      await foot.getByRole('button', { name: 'Done' }).waitFor();
      await pictured('repair-frozen');
      await pane.getByRole('button', { name: 'Undo' }).click();
      await pane.getByText('Taken back').first().waitFor();
      expect(preview.errors).toEqual([]);
    },
  );
});
