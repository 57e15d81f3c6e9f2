/**
 * How one developer's Excel is told of the manifest, by operating system, as data. Places from the add-in
 * documentation (OfficeDev/office-js-docs-pr: "Sideload Office Add-ins on Mac", "Uninstall add-ins under development",
 * "Sideload Office Add-ins to Office on the web"); certificate folder from the package office-addin-dev-certs.
 */
import { posix, win32 } from 'node:path';

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  /** Absolute path of the built manifest. */
  readonly manifest: string;
  /** The manifest's Id. */
  readonly id: string;
}

export type Action =
  | { readonly kind: 'copy'; readonly from: string; readonly to: string }
  | { readonly kind: 'delete'; readonly file: string }
  | { readonly kind: 'run'; readonly program: string; readonly args: readonly string[] };

export interface Plan {
  /** What is done at once; none where a person has to do it. */
  readonly actions: readonly Action[];
  /** What the person does then, in order. */
  readonly then: readonly string[];
}

const WINDOWS_KEY = 'HKCU\\Software\\Microsoft\\Office\\16.0\\WEF\\Developer';

/** Excel's folder for manifests on a Mac. */
const macFile = (home: string): string =>
  posix.join(home, 'Library/Containers/com.microsoft.Excel/Data/Documents/wef', 'keyrow.manifest.xml');

const onTheWeb = (manifest: string): string[] => [
  'Open a workbook in Excel on the web, in a browser on this computer.',
  `Home, Add-ins, More Settings, Upload My Add-in: choose ${manifest}.`,
];

/** Tells Excel on this machine of the manifest. */
export function addPlan({ platform, home, manifest, id }: Machine): Plan {
  switch (platform) {
    case 'win32':
      return {
        actions: [
          {
            kind: 'run',
            program: 'reg',
            args: ['add', WINDOWS_KEY, '/v', id, '/t', 'REG_SZ', '/d', manifest, '/f'],
          },
        ],
        then: [
          'Close Excel and open it again. The Keying button is on the Home tab, or under Home, Add-ins.',
        ],
      };
    case 'darwin':
      return {
        actions: [{ kind: 'copy', from: manifest, to: macFile(home) }],
        then: ['Quit Excel and open it again. Home, Add-ins: choose Keyrow.'],
      };
    default:
      return {
        actions: [],
        then: ['There is no Excel for this system; use Excel on the web.', ...onTheWeb(manifest)],
      };
  }
}

/** Takes back what `addPlan` did. */
export function removePlan({ platform, home, id }: Machine): Plan {
  switch (platform) {
    case 'win32':
      return {
        actions: [{ kind: 'run', program: 'reg', args: ['delete', WINDOWS_KEY, '/v', id, '/f'] }],
        then: ['Close Excel. If the button stays, clear the Office cache.'],
      };
    case 'darwin':
      return {
        actions: [{ kind: 'delete', file: macFile(home) }],
        then: ['Quit Excel. If the button stays, clear the Office cache.'],
      };
    default:
      return {
        actions: [],
        then: ['In Excel on the web: Home, Add-ins, More Settings, and remove Keyrow there.'],
      };
  }
}

export interface CertificateFiles {
  readonly key: string;
  readonly certificate: string;
}

/**
 * Where the certificate for https://localhost is looked for: `KEYROW_KEY` and `KEYROW_CERT`, else where
 * office-addin-dev-certs puts its own.
 */
export function certificateFiles(
  env: Readonly<Record<string, string | undefined>>,
  { platform, home }: Pick<Machine, 'platform' | 'home'>,
): CertificateFiles {
  const path = platform === 'win32' ? win32 : posix;
  const own = (name: string): string => path.join(home, '.office-addin-dev-certs', name);
  return {
    key: env['KEYROW_KEY'] ?? own('localhost.key'),
    certificate: env['KEYROW_CERT'] ?? own('localhost.crt'),
  };
}

/** What to do where there is no certificate yet. */
export const certificateWords = ({ key, certificate }: CertificateFiles): string[] => [
  `Excel loads the add-in from https://localhost:3000, which needs a certificate that this computer trusts. There is none at ${certificate} and ${key}.`,
  'Make one: npx office-addin-dev-certs install. It asks for leave to trust a certificate authority of its own on this computer; npx office-addin-dev-certs uninstall takes that back.',
  'Or name a certificate and key that you have, in KEYROW_CERT and KEYROW_KEY.',
  'Then run npm run sideload again.',
];
