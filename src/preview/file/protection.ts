/** Sheet protection: the file's element ↔ the interface's options. */
import type { SheetProtection } from '../model/sheet.ts';
import { flag, type XmlNode } from './xml.ts';

/** The interface's options by the attribute that locks them; absent attributes are locked (schema default 1). */
const LOCKS: Record<string, string> = {
  formatCells: 'allowFormatCells',
  formatColumns: 'allowFormatColumns',
  formatRows: 'allowFormatRows',
  insertColumns: 'allowInsertColumns',
  insertRows: 'allowInsertRows',
  insertHyperlinks: 'allowInsertHyperlinks',
  deleteColumns: 'allowDeleteColumns',
  deleteRows: 'allowDeleteRows',
  sort: 'allowSort',
  autoFilter: 'allowAutoFilter',
  pivotTables: 'allowPivotTables',
};

/** Reads `<sheetProtection>`; null for a sheet that is not protected. */
export function readProtection(node: XmlNode | undefined): SheetProtection | null {
  const a = node?.attributes;
  if (a === undefined || !flag(a['sheet'])) return null;
  const options: Record<string, unknown> = {};
  for (const [attribute, option] of Object.entries(LOCKS))
    if (!flag(a[attribute], true)) options[option] = true;
  options['allowEditObjects'] = !flag(a['objects']);
  options['allowEditScenarios'] = !flag(a['scenarios']);
  options['selectionMode'] = flag(a['selectUnlockedCells'])
    ? 'None'
    : flag(a['selectLockedCells'])
      ? 'Unlocked'
      : 'Normal';
  const sealed = a['password'] !== undefined || a['hashValue'] !== undefined;
  return { options, ...(sealed ? { sealed } : {}) };
}

/** `<sheetProtection>` for protection set in this session. The password goes in as the format's old 16-bit hash. */
export function protectionXml(protection: SheetProtection): string {
  const locks = Object.entries(LOCKS).map(([attribute, option]) =>
    protection.options[option] === true ? ` ${attribute}="0"` : '',
  );
  const mode = protection.options['selectionMode'];
  const hash =
    protection.password === undefined || protection.password === ''
      ? ''
      : ` password="${passwordHash(protection.password)}"`;
  return (
    `<sheetProtection${hash} sheet="1"` +
    (protection.options['allowEditObjects'] === true ? '' : ' objects="1"') +
    (protection.options['allowEditScenarios'] === true ? '' : ' scenarios="1"') +
    locks.join('') +
    (mode === 'Unlocked' || mode === 'None' ? ' selectLockedCells="1"' : '') +
    (mode === 'None' ? ' selectUnlockedCells="1"' : '') +
    '/>'
  );
}

/**
 * The legacy hash (ECMA-376 part 4, 14.7.1): a lock on the door, not a secret.
 *
 * @example passwordHash('password') // "83AF"
 */
export function passwordHash(password: string): string {
  let hash = 0;
  for (const c of [...password].reverse()) {
    hash = ((hash >> 14) & 1) | ((hash << 1) & 0x7fff);
    hash ^= c.charCodeAt(0) & 0xff;
  }
  hash = ((hash >> 14) & 1) | ((hash << 1) & 0x7fff);
  hash ^= password.length;
  hash ^= 0xce4b;
  return hash.toString(16).toUpperCase().padStart(4, '0');
}
