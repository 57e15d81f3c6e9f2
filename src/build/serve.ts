/**
 * The local preview's web server: the preview page at `/`, the built add-in under `/addin/`, and the office.js of
 * the development package in the place of the official script, which a page outside Excel could not use. Binds to
 * the loopback address only. The add-in's own page is served as built but for two lines in its head: the official
 * script's address, and the shell that ties office.js to the stand-in.
 */
import { createReadStream, readFileSync, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.xml': 'application/xml; charset=utf-8',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};

const OFFICIAL_SCRIPT = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';

/** URL prefix → folder, longest first. */
type Folders = readonly (readonly [prefix: string, folder: string])[];

const PREVIEW: Folders = [
  ['/office-js/', 'node_modules/@microsoft/office-js/dist/'],
  ['/addin/', 'dist/'],
  ['/', 'dist-preview/'],
];

/** The add-in's page as the preview serves it. */
export function pageForPreview(html: string): string {
  const script = `<script src="${OFFICIAL_SCRIPT}"></script>`;
  if (!html.includes(script)) throw new Error('taskpane.html does not load the official office.js script');
  return html.replace(
    script,
    '<script src="/shell.js"></script><script src="/office-js/office.js"></script>',
  );
}

/** The file that an address means, or undefined where it would leave the folders. */
export function fileFor(pathname: string, folders: Folders = PREVIEW): string | undefined {
  const path = pathname === '/' ? '/preview.html' : pathname;
  const [prefix, folder] = folders.find(([p]) => path.startsWith(p))!;
  const file = normalize(join(folder, path.slice(prefix.length)));
  return file.startsWith(normalize(folder)) && !file.split(sep).includes('..') ? file : undefined;
}

function answer(request: IncomingMessage, response: ServerResponse, folders: Folders): void {
  const { pathname } = new URL(request.url ?? '/', 'http://localhost');
  const file = fileFor(decodeURIComponent(pathname), folders);
  const isFile = file !== undefined && (statSync(file, { throwIfNoEntry: false })?.isFile() ?? false);
  if (!isFile || (request.method !== 'GET' && request.method !== 'HEAD')) {
    response.writeHead(isFile ? 405 : 404, { 'Content-Type': 'text/plain' }).end('Not found');
    return;
  }
  const headers = {
    'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
    'Cache-Control': 'no-store',
    'X-Content-Type-Options': 'nosniff',
    // Excel on the web asks for functions.json from a page of its own; there is nothing secret in these files.
    ...(extname(file) === '.json' && { 'Access-Control-Allow-Origin': '*' }),
  };
  response.writeHead(200, headers);
  if (pathname === '/addin/taskpane.html') response.end(pageForPreview(readFileSync(file, 'utf8')));
  else createReadStream(file).pipe(response);
}

/** What a server does with a request for the files of some folders. */
export function answerFrom(folders: Folders): (request: IncomingMessage, response: ServerResponse) => void {
  return (request, response) => {
    try {
      answer(request, response, folders);
    } catch (error) {
      response.writeHead(500, { 'Content-Type': 'text/plain' }).end(String(error));
    }
  };
}

/** Starts the server; port 0 takes any free one. */
export function startServer(port: number): Promise<{ server: Server; address: string }> {
  return new Promise((resolve, reject) => {
    const server = createServer(answerFrom(PREVIEW));
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      const found = server.address();
      const actual = typeof found === 'object' && found ? found.port : port;
      resolve({ server, address: `http://127.0.0.1:${actual}/` });
    });
  });
}
