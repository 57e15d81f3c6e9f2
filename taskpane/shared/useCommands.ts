/** Carries out what the ribbon asks: goes to the screen concerned and starts there, as a press on it would. */
import { useEffect, useEffectEvent } from 'react';
import { undoPlan } from '../../src/workbook/index.ts';
import { listen, type Command } from '../commands.ts';
import { AUDIT_START, CHECK_START, useNavigation } from './navigation.tsx';
import { useAnnounce } from './announce.tsx';
import { useWorkbook } from './workbook.tsx';

export function useCommands(): void {
  const { go, drafts } = useNavigation();
  const { lastWrite, keepWrite, keepReport, refresh } = useWorkbook();
  const announce = useAnnounce();
  const undo = async (): Promise<void> => {
    const outcome = lastWrite && (await undoPlan(lastWrite.undo));
    const sentence = outcome?.sentence ?? 'Nothing to undo: the pane has written nothing since it opened.';
    if (outcome?.outcome === 'done') keepWrite(undefined);
    keepReport({ kind: outcome && outcome.outcome !== 'done' ? 'error' : 'info', sentence });
    announce(sentence);
    go('start');
    if (outcome) await refresh();
  };
  const heard = useEffectEvent((command: Command) => {
    switch (command) {
      case 'checkSelection':
        drafts.set(CHECK_START, true);
        return go('check');
      case 'auditSystem':
        drafts.set(AUDIT_START, drafts.get('audit.system') ?? '');
        return go('audit');
      case 'undoLast':
        return void undo();
    }
  });
  useEffect(() => listen((command) => heard(command)), []);
}
