/** Shown instead of the pane where the host can't run it: what is missing and what to do. */
import { FluentProvider } from '@fluentui/react-components';
import { Notice } from './Notice.tsx';
import { NEEDED_API, type Unfit } from './requirements.ts';
import { usePaneTheme } from './theme.ts';

const WORDS: Record<Unfit, string> = {
  'not-excel': 'Keyrow works inside Excel. Open a workbook there and start it from the Home tab.',
  'too-old': `This Excel is too old for Keyrow’s pane, which needs Excel 2021, Microsoft 365 from version 2108, a Mac from 16.52, or Excel on the web (ExcelApi ${NEEDED_API}). Update Excel, or open the workbook on the web. Nothing in this workbook was touched.`,
};

export function TooOld({ why }: { readonly why: Unfit }) {
  return (
    <FluentProvider theme={usePaneTheme()} className="pane">
      <WhyNot why={why} />
    </FluentProvider>
  );
}

export function WhyNot({ why }: { readonly why: Unfit }) {
  return (
    <div className="screen">
      <header className="screen-head">
        <h1>Keyrow</h1>
      </header>
      <main className="screen-body">
        <Notice kind="error">{WORDS[why]}</Notice>
      </main>
    </div>
  );
}
