/** Long work in view: what is being done, how far it is, and a way to stop it. */
import { Button, ProgressBar } from '@fluentui/react-components';
import { useEffect, useRef } from 'react';
import { useAnnounce } from './announce.tsx';
import { grouped } from '../pictures/numbers.ts';

interface Props {
  readonly stage: string;
  readonly done: number;
  /** 0 where the end isn't known. */
  readonly total: number;
  /** Left out where stopping would leave something half written. */
  readonly onStop?: (() => void) | undefined;
}

/** Announce every quarter, not every slice. */
const quarter = (done: number, total: number): number => (total > 0 ? Math.floor((4 * done) / total) : 0);

export function Busy({ stage, done, total, onStop }: Props) {
  const announce = useAnnounce();
  const last = useRef('');
  const mark = `${stage} ${quarter(done, total)}`;
  useEffect(() => {
    if (last.current === mark) return;
    last.current = mark;
    announce(total > 0 ? `${stage}: ${grouped(done)} of ${grouped(total)}` : stage);
  }, [announce, done, mark, stage, total]);
  return (
    <section className="busy" aria-label="Progress">
      <p>
        {stage}
        {total > 0 && (
          <span className="numbers">
            {' '}
            {grouped(done)} of {grouped(total)}
          </span>
        )}
      </p>
      {total > 0 ? (
        <ProgressBar value={done} max={total} aria-label={stage} />
      ) : (
        <ProgressBar aria-label={stage} />
      )}
      {onStop && <Button onClick={onStop}>Stop</Button>}
    </section>
  );
}
