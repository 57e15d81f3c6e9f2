/**
 * The frame of every help page: plain static HTML without scripts or inline styles, so that it shows under a strict
 * content security policy; light or dark as the reader's system is; readable in a pane of 350 px.
 */

/** Text as HTML. */
export const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** A page with its style sheet at `css`, an address relative to the page. `body` is HTML. */
export function page(title: string, body: string, css = 'help.css'): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'">
<title>${escape(title)}</title>
<link rel="stylesheet" href="${css}">
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

export const paragraph = (text: string): string => `<p>${escape(text)}</p>`;
/** `heading` is HTML. */
export const section = (heading: string, body: string): string => `<h2>${heading}</h2>\n${body}`;
export const list = (entries: readonly string[], tag: 'ol' | 'ul' = 'ul'): string =>
  `<${tag}>\n${entries.map((entry) => `<li>${escape(entry)}</li>`).join('\n')}\n</${tag}>`;

export const STYLE = `:root { color-scheme: light dark; }
body { margin: 0; font: 1rem/1.5 system-ui, sans-serif; background: Canvas; color: CanvasText; }
main { max-width: 42rem; margin: 0 auto; padding: 1rem; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; margin: 0.5rem 0; }
h2 { font-size: 1.125rem; margin: 1.5rem 0 0.5rem; }
code { font-family: ui-monospace, Consolas, monospace; }
ol, ul { padding-left: 1.5rem; }
li { margin: 0.25rem 0; }
dt { margin-top: 0.75rem; font-weight: 600; }
dt span { font-size: 0.875rem; font-style: italic; font-weight: 400; }
dd { margin: 0 0 0 1rem; }
aside { margin: 1.5rem 0; padding: 0 0.75rem; border-left: 0.25rem solid; }
aside h2 { margin-top: 0.5rem; }
figure { margin: 0.75rem 0; padding: 0.5rem 0.75rem; border: 1px solid; border-radius: 0.25rem; }
figure p { margin: 0.25rem 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
td, th { border: 1px solid; padding: 0.125rem 0.5rem; text-align: left; overflow-wrap: break-word; }
a:focus-visible { outline: 2px solid; outline-offset: 2px; }
@media print {
  :root { color-scheme: light; }
  nav { display: none; }
  h2 { break-after: avoid; }
  aside, figure, dd, li, tr { break-inside: avoid; }
}
`;
