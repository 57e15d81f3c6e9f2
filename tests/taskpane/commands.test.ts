/** The ribbon's commands on their way to the pane: heard at once, or kept until the pane listens. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { ask, COMMANDS, listen, registerCommands } from '../../taskpane/commands.ts';

afterEach(() => vi.unstubAllGlobals());

describe('commands of the ribbon', () => {
  it('are heard by the pane that listens', () => {
    const heard = vi.fn();
    const stop = listen(heard);
    ask('undoLast');
    expect(heard.mock.calls).toEqual([['undoLast']]);
    stop();
  });

  it('wait for a pane that is not drawn yet, the last one only, and once', () => {
    ask('checkSelection');
    ask('auditSystem');
    const heard = vi.fn();
    listen(heard)();
    expect(heard.mock.calls).toEqual([['auditSystem']]);
    const again = vi.fn();
    listen(again)();
    expect(again).not.toHaveBeenCalled();
  });

  it('show the pane and say that they are done, also where the pane cannot be shown', async () => {
    const tied = new Map<string, (event: { completed: () => void }) => void>();
    const showAsTaskpane = vi.fn().mockResolvedValueOnce(undefined).mockRejectedValue(new Error('no pane'));
    vi.stubGlobal('Office', {
      actions: { associate: (name: string, run: () => void) => tied.set(name, run) },
      addin: { showAsTaskpane },
    });
    registerCommands();
    expect([...tied.keys()]).toEqual([...COMMANDS]);
    for (const name of COMMANDS) {
      const completed = vi.fn();
      tied.get(name)!({ completed });
      await vi.waitFor(() => expect(completed).toHaveBeenCalledOnce());
    }
    expect(showAsTaskpane).toHaveBeenCalledTimes(3);
    listen(() => undefined)();
  });

  it('are left alone by a host that has none', () => {
    vi.stubGlobal('Office', {});
    expect(() => registerCommands()).not.toThrow();
  });
});
