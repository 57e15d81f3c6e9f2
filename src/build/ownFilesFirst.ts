/**
 * The order of what the built page names. The office.js script holds the page until it has come and run, and a browser
 * doesn't look past it below a content security policy; so our own files, which wait for it in any case, are named
 * above it and come at the same time.
 */
import type { Plugin } from 'vite';

const OFFICE_SCRIPT = /^[ \t]*<script src="[^"]*\/office\.js"><\/script>\r?\n?/m;

/** Puts the office.js script last in the head; our modules run after it all the same, since modules are deferred. */
export function officeScriptLast(html: string): string {
  const script = OFFICE_SCRIPT.exec(html)?.[0];
  if (!script) throw new Error('The page does not load office.js.');
  return html.replace(script, '').replace(/^[ \t]*<\/head>/m, (end) => script + end);
}

export function ownFilesFirst(): Plugin {
  return {
    name: 'keyrow-own-files-first',
    apply: 'build',
    transformIndexHtml: { order: 'post', handler: officeScriptLast },
  };
}
