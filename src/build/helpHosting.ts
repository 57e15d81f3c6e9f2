/**
 * Help page for whoever puts the add-in on the computers of a shop or a district. Facts of the platform from its
 * documentation; the page names where each stands.
 */
import { escape, list, page, paragraph, section } from './helpPage.ts';

/** Named so that a reader can look up what may have changed since. */
const SOURCES: readonly string[] = [
  'Excel JavaScript API requirement sets: learn.microsoft.com/javascript/api/requirement-sets/excel/excel-api-requirement-sets',
  'Shared runtime requirement sets: learn.microsoft.com/javascript/api/requirement-sets/common/shared-runtime-requirement-sets',
  'Deploy and publish Office Add-ins: learn.microsoft.com/office/dev/add-ins/publish/publish',
  'Sideload Office Add-ins from a network share, on Mac, on the web: learn.microsoft.com/office/dev/add-ins/testing',
  'Determine if Centralized Deployment of add-ins works for your organization: learn.microsoft.com/microsoft-365/admin/manage/centralized-deployment-of-add-ins',
];

/** Minimum versions of ExcelApi 1.14, which also have SharedRuntime 1.1. */
const FLOOR: readonly (readonly [where: string, version: string])[] = [
  ['Excel on the web', 'as it is'],
  ['Windows, Microsoft 365 or bought singly', 'version 2108 (build 14326.20508) or later'],
  ['Windows, volume licence', 'Office 2021 or later'],
  ['Mac', 'version 16.52 or later'],
  ['iPad', 'no: a shared runtime is not supported there'],
];

const steps = (entries: readonly string[]): string => list(entries, 'ol');

export function hostingPage(css: string): string {
  const rows = FLOOR.map(
    ([where, version]) => `<tr><td>${escape(where)}</td><td>${escape(version)}</td></tr>`,
  );
  return page(
    'Put it on your computers',
    [
      '<nav><a href="index.html">All help</a></nav>',
      '<h1>Put it on your computers</h1>',
      paragraph(
        'The add-in is a folder of static files on an https host, and one manifest.xml that tells Excel where they are. Excel gets the manifest; the files stay on the host.',
      ),
      section(
        'Which Excel',
        [
          `<div class="wide" role="group" tabindex="0" aria-label="Table"><table>\n<tr><th>Where</th><th>From</th></tr>\n${rows.join('\n')}\n</table></div>`,
          paragraph(
            'An Excel somewhat older (Windows from version 2002, a Mac from 16.35) offers the add-in, and its pane says what it needs instead. A still older one lacks the shared runtime and does not offer it at all. Workbooks stay readable: what was written are ordinary sheets.',
          ),
        ].join('\n'),
      ),
      section(
        'The files, once for all',
        steps([
          'On a computer with Node.js, in the project’s folder: npm ci.',
          'Say where the files will lie, once: npm pkg set config.base=https://your.host/keyrow. (Or set KEYROW_BASE_URL for one build.)',
          'npm run build makes the folder dist.',
          'Copy what is in dist to that address. Any host of static files over https does: no database, no program, no account. Pages, functions.js and functions.json must lie at one address.',
          'Open https://your.host/keyrow/help/index.html in a browser. If this help shows, the host is ready.',
        ]),
      ),
      section(
        'A shop of three',
        [
          paragraph(
            'With a Microsoft 365 subscription for a business, do as a district does, below: it is the supported way for three people too, and nobody has to touch their Excel. Without one, on Windows:',
          ),
          steps([
            'Make a shared folder, such as \\\\SHOP-PC\\Addins, that all three can read, and put manifest.xml into it.',
            'On each computer: File, Options, Trust Center, Trust Center Settings, Trusted Add-in Catalogs. Type the folder’s network path, Add catalog, tick Show in Menu, OK, and restart Excel.',
            'Home, Add-ins, Advanced (or More Add-ins), Shared Folder: choose Keyrow.',
          ]),
          paragraph(
            'Excel’s maker describes a shared folder as a way of testing, for Windows only. It works from day to day; it is not promised.',
          ),
        ].join('\n'),
      ),
      section(
        'A district with an administrator',
        steps([
          'Microsoft 365 admin centre: Settings, Integrated apps, Upload custom apps; the type is Office Add-in.',
          'Upload manifest.xml, or name its address on your host.',
          'Assign it to the group that does the keys, not to everybody: it is of no use to others.',
          'Wait: it may take 24 hours until every computer shows it. It comes to Windows, Mac and the web by itself.',
        ]),
      ),
      section(
        'One Mac',
        steps([
          'Quit Excel. In the Finder: Go, Go to Folder, ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef. Make the folder wef if it is missing.',
          'Copy manifest.xml into it.',
          'Open Excel and a workbook: Home, Add-ins, and choose Keyrow. It may have to be chosen again after a restart.',
        ]),
      ),
      section(
        'One browser',
        paragraph(
          'Excel on the web: Home, Add-ins, More Settings, Upload My Add-in, and choose manifest.xml. The browser keeps it until its data are cleared.',
        ),
      ),
      section(
        'Update',
        steps([
          'Build again with the same address, and copy dist over the old files; remove what is no longer in it.',
          'Restart Excel. That is all, as long as the manifest is the same.',
          'Where the manifest has a new version (new buttons), hand it out again the way it came: replace it in the shared folder or in wef, or update it in the admin centre.',
        ]),
      ),
      section(
        'Remove',
        steps([
          'Take the manifest out of the shared folder or of wef, or the add-in out of Integrated apps.',
          'If the button stays, clear the Office cache of that computer.',
          'Before you remove it for good: worksheet functions show #NAME? without the add-in. Copy their cells and paste them as values first. Everything else stays as it is.',
        ]),
      ),
      section(
        'What leaves the computer',
        [
          paragraph(
            'Nothing of a workbook. Excel loads the add-in’s files from your host, and office.js from Microsoft’s; a content security policy in the page keeps it to these two. No account, no telemetry. Where the workbook itself is kept (OneDrive, a server) is your own choice.',
          ),
          paragraph(
            'Whoever can change the files on the host can change the program. Let few people write there.',
          ),
        ].join('\n'),
      ),
      section(
        'What to back up',
        paragraph(
          'The workbooks, as you would keep the keys: they are the only record. The add-in keeps nothing elsewhere. A copy before a large change costs nothing; Undo takes back the last write only. The host’s files can be built again at any time.',
        ),
      ),
      section(
        'Where this stands',
        [
          paragraph(
            'Nobody has tried these ways with Keyrow yet; they are as the documentation of Excel’s maker describes them:',
          ),
          list(SOURCES),
        ].join('\n'),
      ),
    ].join('\n'),
    css,
  );
}
