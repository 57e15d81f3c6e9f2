/** What can't be read, as it bears on this loss: the cells to be mended first, a mend on offer, and what is shut out. */
import { Button } from '@fluentui/react-components';
import type { LostKeyDoubts } from '../../src/workbook/index.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { Notice } from '../shared/Notice.tsx';

interface Props {
  readonly doubts: LostKeyDoubts;
  readonly onMend: () => void;
}

export function LostTrouble({ doubts, onMend }: Props) {
  const { bars, doubtful, mends } = doubts;
  const barred = bars.length > 0;
  const offer = mends.length > 0 && (
    <>
      {' '}
      {listed(mends.map((m) => m.symbol))} reads once the zero that the sheet dropped is back:{' '}
      {mends.map((m) => `${m.from} → ${m.to}`).join(', ')}.
    </>
  );
  const button = mends.length > 0 && (
    <Button size="small" onClick={onMend}>
      {mends.length === 1 ? 'Put the zero back' : 'Put the zeros back'}
    </Button>
  );
  if (!barred && doubtful.length === 0 && mends.length === 0) return null;
  return (
    <>
      {barred && (
        <>
          <Notice kind="error" actions={button}>
            {counted(bars.length, 'row')} must be mended before new bittings can be found: a system is never
            extended blind.{offer}
          </Notice>
          <FaultList
            label="To be mended first"
            lines={bars.map(({ at, sentence }): FaultLine => ({ severity: 'fault', sentence, at }))}
          />
        </>
      )}
      {!barred && (
        <Notice kind="info" actions={button}>
          {doubtful.length > 0
            ? `${listed(doubtful.map((key) => key.symbol))} can’t be read and ${doubtful.length === 1 ? 'has' : 'have'} nothing to do with these doors. The new bittings shut out every code that ${doubtful.length === 1 ? 'it' : 'they'} may have (${doubtful.map((key) => counted(key.bittings.length, 'bitting')).join(', ')}).`
            : 'What can’t be read here has nothing to do with these doors.'}
          {offer}
        </Notice>
      )}
    </>
  );
}
