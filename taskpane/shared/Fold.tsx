/** Detail that most people don't need: folded away, opened by its own heading. Native, so that any keyboard works. */
import type { ReactNode } from 'react';

interface Props {
  readonly label: string;
  readonly open?: boolean;
  readonly children: ReactNode;
}

export function Fold({ label, open, children }: Props) {
  return (
    <details className="fold" open={open}>
      <summary>{label}</summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
