/** Shown instead of the pane where the host can't run it: what is missing and what to do. */
import { FluentProvider } from '@fluentui/react-components';
import { Notice } from './Notice.tsx';
import { usePaneTheme } from './theme.ts';

export type Unfit = 'not-excel' | 'too-old';

const WORDS: Record<Unfit, string> = {
  'not-excel': 'Keyrow works inside Excel. Open a workbook there and start it from the Home tab.',
  'too-old':
    'This Excel is too old for Keyrow: it needs the Excel interface 1.14 (Excel 2021, Microsoft 365, or Excel on the web). Update Excel, or open the workbook on the web.',
};

export function TooOld({ why }: { readonly why: Unfit }) {
  return (
    <FluentProvider theme={usePaneTheme()} className="pane">
      <main className="screen-body">
        <h1>Keyrow</h1>
        <Notice kind="error">{WORDS[why]}</Notice>
      </main>
    </FluentProvider>
  );
}
