/** Entry of the pane: waits for the host, checks that it can do what we need, and shows the pane or says why not. */
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { registerCommands } from './commands.ts';
import { TooOld, type Unfit } from './shared/TooOld.tsx';
import './pane.css';

/** ExcelApi 1.14 (Excel 2021) is the floor; newer parts are asked for where they are used. */
function unfit(host: Office.HostType | null): Unfit | undefined {
  if (host !== Office.HostType.Excel) return 'not-excel';
  return Office.context.requirements.isSetSupported('ExcelApi', '1.14') ? undefined : 'too-old';
}

// before anything else: Excel may have started this page for a command of the ribbon
void Office.onReady(registerCommands);
void Office.onReady(({ host }) => {
  const root = document.getElementById('root');
  if (!root) return;
  const why = unfit(host);
  createRoot(root).render(why ? <TooOld why={why} /> : <App />);
});
