/**
 * The pane's colours: those of Office where the host gives its theme, else those that the system prefers.
 * Windows contrast themes need nothing from us: the browser then replaces every colour (forced-colors).
 */
import { webDarkTheme, webLightTheme, type Theme } from '@fluentui/react-components';
import { useSyncExternalStore } from 'react';

/** Whether text on this background should be light. `#rrggbb`; relative luminance as in WCAG 2. */
export function isDark(colour: string): boolean {
  const match = /^#?([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/i.exec(colour);
  if (!match) return false;
  const [r, g, b] = match.slice(1).map((hex) => {
    const c = parseInt(hex, 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b! < 0.18;
}

/** The background that Office uses. Some hosts have no theme to give; in some the very question throws. */
function officeBackground(): string | undefined {
  try {
    return typeof Office === 'undefined' ? undefined : Office.context.officeTheme?.bodyBackgroundColor;
  } catch {
    return undefined;
  }
}

const preference = (): MediaQueryList => window.matchMedia('(prefers-color-scheme: dark)');

/** office.js answers with the theme it last read for 5 s; asked sooner after a change, it still gives the old one. */
const OFFICE_REMEMBERS_MS = 5_500;

/** Asks again on a change of the system's scheme, once office.js has forgotten, and whenever the pane is come back to. */
function subscribe(changed: () => void): () => void {
  const query = preference();
  let later: ReturnType<typeof setTimeout> | undefined;
  const onChange = (): void => {
    changed();
    clearTimeout(later);
    later = setTimeout(changed, OFFICE_REMEMBERS_MS);
  };
  query.addEventListener('change', onChange);
  window.addEventListener('focus', changed);
  return () => {
    clearTimeout(later);
    query.removeEventListener('change', onChange);
    window.removeEventListener('focus', changed);
  };
}

function darkNow(): boolean {
  const background = officeBackground();
  return background ? isDark(background) : preference().matches;
}

/** The Fluent theme to use now; follows the system while the pane is open. */
export function usePaneTheme(): Theme {
  return useSyncExternalStore(subscribe, darkNow) ? webDarkTheme : webLightTheme;
}
