/** A sentence that matters, with its mark in shape as well as colour, and a way out beside it. */
import { MessageBar, MessageBarActions, MessageBarBody } from '@fluentui/react-components';
import type { ReactNode } from 'react';

interface Props {
  readonly kind: 'info' | 'success' | 'warning' | 'error';
  readonly children: ReactNode;
  readonly actions?: ReactNode;
}

export function Notice({ kind, children, actions }: Props) {
  return (
    <MessageBar intent={kind} layout="multiline" className="notice" politeness="polite">
      <MessageBarBody>{children}</MessageBarBody>
      {actions && <MessageBarActions>{actions}</MessageBarActions>}
    </MessageBar>
  );
}
