/**
 * The frame of every screen: a heading that takes the focus when the screen appears, one scrolling column, and a
 * foot with the one primary button, always in view. The top-right corner stays free for the host's own menu.
 */
import { Button } from '@fluentui/react-components';
import { ArrowLeftRegular } from '@fluentui/react-icons';
import { useEffect, useRef, type ReactNode } from 'react';
import { useNavigation } from './navigation.tsx';

interface Props {
  readonly title: string;
  /** One sentence under the heading: what this screen is for. */
  readonly lead?: ReactNode;
  readonly children: ReactNode;
  /** Where the screen is in its task: the heading takes the focus when it changes, as it does with the title. */
  readonly step?: string;
  /** Primary button first; then at most one or two quiet ones. */
  readonly foot?: ReactNode;
  /** Left out on the start screen; goes back to it by default elsewhere. */
  readonly back?: { readonly label: string; readonly onClick: () => void };
}

export function Screen({ title, lead, children, step, foot, back }: Props) {
  const { moved, screen, go } = useNavigation();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (moved) heading.current?.focus();
  }, [moved, title, step]);
  const way =
    back ?? (screen === 'start' ? undefined : { label: 'Back to start', onClick: () => go('start') });
  return (
    <div className="screen">
      <header className="screen-head">
        {way && (
          <Button
            appearance="subtle"
            size="small"
            icon={<ArrowLeftRegular />}
            aria-label={way.label}
            onClick={way.onClick}
          />
        )}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
      </header>
      {/* Focusable, so that a screen of text alone scrolls by keyboard. */}
      <main className="screen-body" tabIndex={0}>
        {lead && <p className="lead">{lead}</p>}
        {children}
      </main>
      {foot && <footer className="screen-foot">{foot}</footer>}
    </div>
  );
}
