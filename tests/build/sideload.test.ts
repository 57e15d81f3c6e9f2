/**
 * What sideloading does on each system. Places as the add-in documentation names them (OfficeDev/office-js-docs-pr:
 * docs/testing/sideload-an-office-add-in-on-mac.md, uninstall-add-in.md, sideload-office-add-ins-for-testing.md).
 */
import { describe, expect, it } from 'vitest';
import { fileFor } from '../../src/build/serve.ts';
import {
  addPlan,
  certificateFiles,
  certificateWords,
  removePlan,
  type Machine,
} from '../../src/build/sideloadPlan.ts';

const ID = '6f0a4c1e-2b77-4f0d-9a5e-8d3c51b7e642';
const mac: Machine = {
  platform: 'darwin',
  home: '/Users/ana',
  manifest: '/Users/ana/keyrow/dist/manifest.xml',
  id: ID,
};
const windows: Machine = {
  platform: 'win32',
  home: 'C:\\Users\\Ana',
  manifest: 'C:\\My keys\\dist\\manifest.xml',
  id: ID,
};
const linux: Machine = {
  platform: 'linux',
  home: '/home/ana',
  manifest: '/home/ana/keyrow/dist/manifest.xml',
  id: ID,
};
const WEF = '/Users/ana/Library/Containers/com.microsoft.Excel/Data/Documents/wef';

describe('sideloading', () => {
  it('copies the manifest into Excel’s folder on a Mac, and takes the same file away', () => {
    expect(addPlan(mac).actions).toEqual([
      { kind: 'copy', from: mac.manifest, to: `${WEF}/keyrow.manifest.xml` },
    ]);
    expect(removePlan(mac).actions).toEqual([{ kind: 'delete', file: `${WEF}/keyrow.manifest.xml` }]);
  });

  it('names the manifest in the registry on Windows, spaces and all, and takes the same value away', () => {
    const key = 'HKCU\\Software\\Microsoft\\Office\\16.0\\WEF\\Developer';
    expect(addPlan(windows).actions).toEqual([
      {
        kind: 'run',
        program: 'reg',
        args: ['add', key, '/v', ID, '/t', 'REG_SZ', '/d', windows.manifest, '/f'],
      },
    ]);
    expect(removePlan(windows).actions).toEqual([
      { kind: 'run', program: 'reg', args: ['delete', key, '/v', ID, '/f'] },
    ]);
  });

  it('does nothing elsewhere but say how Excel on the web takes the file', () => {
    expect(addPlan(linux).actions).toEqual([]);
    expect(addPlan(linux).then.join(' ')).toMatch(
      /Upload My Add-in: choose \/home\/ana\/keyrow\/dist\/manifest\.xml/,
    );
    expect(removePlan(linux).actions).toEqual([]);
  });

  it.each([mac, windows, linux])('says what to do next on $platform', (machine) => {
    for (const plan of [addPlan(machine), removePlan(machine)]) {
      expect(plan.then.length).toBeGreaterThan(0);
      for (const words of plan.then) expect(words).toMatch(/^[A-Z].*\.$/);
    }
  });
});

describe('the certificate', () => {
  it('is looked for where the certificate tool puts it, or where the developer says', () => {
    expect(certificateFiles({}, mac)).toEqual({
      key: '/Users/ana/.office-addin-dev-certs/localhost.key',
      certificate: '/Users/ana/.office-addin-dev-certs/localhost.crt',
    });
    expect(certificateFiles({}, windows).key).toBe('C:\\Users\\Ana\\.office-addin-dev-certs\\localhost.key');
    expect(certificateFiles({ KEYROW_KEY: '/k.pem', KEYROW_CERT: '/c.pem' }, mac)).toEqual({
      key: '/k.pem',
      certificate: '/c.pem',
    });
  });

  it('that is missing is named, with two ways to get one', () => {
    const words = certificateWords({ key: '/k.pem', certificate: '/c.pem' }).join('\n');
    for (const part of ['/k.pem', '/c.pem', 'office-addin-dev-certs install', 'uninstall', 'KEYROW_CERT'])
      expect(words).toContain(part);
  });
});

describe('the server of dist', () => {
  it('serves its folder and nothing above it', () => {
    const folders = [['/', 'dist/']] as const;
    expect(fileFor('/functions.json', folders)).toBe('dist/functions.json');
    expect(fileFor('/help/../taskpane.html', folders)).toBe('dist/taskpane.html');
    for (const path of ['/../package.json', '/help/../../package.json', '/..'])
      expect(fileFor(path, folders), path).toBeUndefined();
  });
});
