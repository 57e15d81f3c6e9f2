/** Detail that most people don't need: folded away, opened by its own heading. Native, so that any keyboard works. */
import { useEffect, useRef, useState, type ReactNode } from 'react';

interface Props {
  readonly label: string;
  /** Opens it where something in it needs a look; it never closes by itself, since somebody may be typing in it. */
  readonly open?: boolean;
  readonly children: ReactNode;
}

export function Fold({ label, open = false, children }: Props) {
  const details = useRef<HTMLDetailsElement>(null);
  const [opened] = useState(open);
  useEffect(() => {
    if (open && details.current) details.current.open = true;
  }, [open]);
  return (
    <details className="fold" open={opened} ref={details}>
      <summary>{label}</summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
