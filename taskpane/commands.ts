/**
 * The ribbon's commands. They run in the pane's own runtime: a command shows the pane and tells it what was asked;
 * what comes of it is reported there. Asked before the pane is drawn, it waits until the pane listens.
 */
export const COMMANDS = ['checkSelection', 'auditSystem', 'undoLast'] as const;
export type Command = (typeof COMMANDS)[number];

let listener: ((command: Command) => void) | undefined;
let waiting: Command | undefined;

/** Takes what the ribbon asks for, the waiting command first. Returns how to stop. */
export function listen(heard: (command: Command) => void): () => void {
  listener = heard;
  if (waiting) heard(waiting);
  waiting = undefined;
  return () => {
    if (listener === heard) listener = undefined;
  };
}

/** Hands a command to the pane, or keeps it until the pane listens. */
export function ask(command: Command): void {
  if (listener) listener(command);
  else waiting = command;
}

/** Ties the manifest's names to the commands. A host without ribbon commands has nothing to tie. */
export function registerCommands(): void {
  const actions = Office.actions as typeof Office.actions | undefined;
  if (!actions) return;
  for (const command of COMMANDS)
    actions.associate(command, (event: Office.AddinCommands.Event) => {
      ask(command);
      // the pane may be closed; where it can't be opened the command is still carried out when it opens
      void Promise.resolve(Office.addin.showAsTaskpane())
        .catch(() => undefined)
        .then(() => event.completed());
    });
}
