/** Entry of the pane: waits for the host, checks that it can do what we need, and shows the pane or says why not. */
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { registerCommands } from './commands.ts';
import { unfit } from './shared/requirements.ts';
import { TooOld } from './shared/TooOld.tsx';
import './pane.css';

// before anything else: Excel may have started this page for a command of the ribbon
void Office.onReady(registerCommands);
void Office.onReady(({ host }) => {
  const root = document.getElementById('root');
  if (!root) return;
  const why = unfit(host, Office.context.requirements);
  createRoot(root).render(why ? <TooOld why={why} /> : <App />);
});
