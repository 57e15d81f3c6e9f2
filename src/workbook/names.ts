/**
 * Our sheets and tables. A sheet is ours because it holds a table whose name starts with `Keyrow`: the table keeps
 * its name when the user renames or moves the sheet, and formulas stay readable (`KeyrowSpecs[#All]`).
 */
export const SHEETS = [
  'Specs',
  'Systems',
  'Keys',
  'Cylinders',
  'Grid',
  'Findings',
  'Pinning',
  'Order',
  'Stamping',
  'Authorised',
  'CustomerDoors',
  'CustomerKeys',
  'ShopDoors',
  'ShopKeys',
  'Kit',
  'Cutting',
  'Cutters',
  'Setups',
  'Blanks',
  'Pins',
  'Pictures',
  'Array',
  'Construction',
] as const;
export type SheetKind = (typeof SHEETS)[number];

/** What formulas and the user see as the tables' names. */
export const TABLES = {
  Specs: 'KeyrowSpecs',
  Systems: 'KeyrowSystems',
  Keys: 'KeyrowKeys',
  Cylinders: 'KeyrowCylinders',
  /** Followed by a number: one grid a system. */
  Grid: 'KeyrowGrid',
  Findings: 'KeyrowFindings',
  Pinning: 'KeyrowPinning',
  Order: 'KeyrowOrder',
  Stamping: 'KeyrowStamping',
  /** Who may sign for a duplicate. */
  Authorised: 'KeyrowAuthorised',
  CustomerDoors: 'KeyrowCustomerDoors',
  CustomerKeys: 'KeyrowCustomerKeys',
  ShopDoors: 'KeyrowShopDoors',
  ShopKeys: 'KeyrowShopKeys',
  Kit: 'KeyrowKit',
  /** The first job; further ones are numbered. */
  Cutting: 'KeyrowCutting',
  Cutters: 'KeyrowCutters',
  Setups: 'KeyrowSetups',
  Blanks: 'KeyrowBlanks',
  Pins: 'KeyrowPins',
  Pictures: 'KeyrowPictures',
  /** Key bitting arrays that systems are to be made by. */
  Array: 'KeyrowArray',
  /** Cylinders under a construction key: how they are pinned before and after. */
  Construction: 'KeyrowConstruction',
} as const satisfies Record<SheetKind, string>;

/** A table of ours, by its name. */
export const isOurs = (table: string): boolean => /^keyrow/i.test(table);
/** One of our grids, by its name. */
export const isGrid = (table: string): boolean => /^keyrowgrid\d+$/i.test(table);

/** Sheet names compare without regard to case, as in Excel. */
export const sameName = (a: string, b: string): boolean => fold(a) === fold(b);
/** The form in which names are compared. */
export const fold = (name: string): string => name.normalize('NFKC').trim().toLowerCase();

/** Excel's limit. */
const LONGEST_SHEET_NAME = 31;

/**
 * A free name for a sheet of ours: the plain word, else `Keys (Keyrow)`, else `Keys (Keyrow 2)` …
 * @example freeSheetName('Keys', ['keys']) → 'Keys (Keyrow)'
 */
export function freeSheetName(wanted: string, taken: readonly string[]): string {
  const folded = new Set(taken.map(fold));
  const clean =
    wanted
      .replace(/[\\/?*[\]:]/g, ' ')
      .replace(/^'+|'+$/g, '')
      .trim() || 'Sheet';
  for (let n = 0; ; n++) {
    const suffix = n === 0 ? '' : n === 1 ? ' (Keyrow)' : ` (Keyrow ${n})`;
    const name = clean.slice(0, LONGEST_SHEET_NAME - suffix.length).trimEnd() + suffix;
    if (!folded.has(fold(name))) return name;
  }
}

/** The first free grid table name: KeyrowGrid1, KeyrowGrid2 … */
export function freeGridName(taken: readonly string[]): string {
  const folded = new Set(taken.map(fold));
  for (let n = 1; ; n++) if (!folded.has(fold(TABLES.Grid + n))) return TABLES.Grid + n;
}

/** The first free name for the table of a cutting job: KeyrowCutting, KeyrowCutting2 … */
export function freeCuttingName(taken: readonly string[]): string {
  const folded = new Set(taken.map(fold));
  for (let n = 1; ; n++) {
    const name = n === 1 ? TABLES.Cutting : TABLES.Cutting + n;
    if (!folded.has(fold(name))) return name;
  }
}
