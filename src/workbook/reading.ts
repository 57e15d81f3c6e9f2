/**
 * What was read from a workbook: domain values beside the cells that they came from. Nothing here is repaired; a
 * row with a fault is kept, with the fault in `problems` and the field that could not be read left out.
 */
import type { Bitting } from '../keying/bitting.ts';
import type { Specification } from '../keying/specification.ts';
import type { Chambers, KeyRecord, Status } from '../keying/system.ts';
import type { Box, Place } from './places.ts';

/** Something in the sheet that could not be read as it stands, or that was read with a doubt. */
export interface Problem extends Place {
  readonly severity: 'fault' | 'warning';
  /** What is wrong and what to do, without the address. */
  readonly sentence: string;
}

/** A cell's content as Excel gives it: '' is an empty cell. */
export type CellValue = string | number | boolean;

/** One of our tables, found by its name wherever it is now. `body` excludes header and totals. */
export interface TableReading {
  readonly name: string;
  readonly sheet: string;
  /** Header and data rows, without a totals row. */
  readonly box: Box;
  readonly headers: readonly string[];
  /** Data rows only. */
  readonly values: readonly (readonly CellValue[])[];
  /** As values, but formulas where there are any. */
  readonly formulas: readonly (readonly CellValue[])[];
  readonly totals: boolean;
  readonly filtered: boolean;
}

export interface SheetReading {
  readonly name: string;
  readonly visible: boolean;
  readonly protected: boolean;
  /** Cells in use, of the sheets that hold our tables and of those whose name we would use; undefined when empty. */
  readonly used?: Box;
  /** Contents of `used` where one of our tables lives on the sheet. */
  readonly values?: readonly (readonly CellValue[])[];
  readonly formulas?: readonly (readonly CellValue[])[];
}

export interface SpecReading {
  readonly name: string;
  readonly spec?: Specification;
  readonly at: Place;
}

export interface KeyRow {
  readonly system: string;
  readonly symbol: string;
  /** Left out where the bitting, the level or the status could not be read. */
  readonly record?: KeyRecord;
  readonly bittingText: string;
  readonly bitting?: Bitting;
  readonly level?: KeyRecord['level'];
  readonly parent?: string;
  readonly status?: Status;
  readonly keyway?: string;
  readonly specName: string;
  readonly copies?: number;
  readonly at: {
    readonly row: Place;
    readonly system: Place;
    readonly symbol: Place;
    readonly bitting: Place;
  };
}

export interface CylinderRow {
  readonly system: string;
  readonly id: string;
  readonly symbol: string;
  readonly door?: string;
  readonly location?: string;
  readonly keyway?: string;
  /** Left out where a chamber or the control bitting could not be read. */
  readonly chambers?: Chambers;
  readonly control?: Bitting;
  readonly at: {
    readonly row: Place;
    readonly system: Place;
    readonly symbol: Place;
    /** One cell a chamber of the spec. */
    readonly chambers: readonly Place[];
    readonly control?: Place;
  };
}

/** A grid marked by hand or written by us: which key must operate which cylinder. */
export interface GridReading {
  readonly table: string;
  readonly box: Box;
  /** Symbols with a column, and cylinders with a row; zero-based sheet columns and rows. */
  readonly keys: ReadonlyMap<string, number>;
  readonly cylinders: ReadonlyMap<string, number>;
  readonly marks: readonly { readonly key: string; readonly cylinder: string; readonly at: Place }[];
}

export interface SystemReading {
  readonly name: string;
  readonly specName: string;
  readonly spec?: Specification;
  readonly keyway?: string;
  readonly topMaster?: Bitting;
  readonly array?: readonly (readonly number[])[];
  readonly keys: readonly KeyRow[];
  readonly cylinders: readonly CylinderRow[];
  readonly grid?: GridReading;
  readonly note?: string;
  readonly at: Place;
}

export interface BookReading {
  readonly specs: readonly SpecReading[];
  readonly systems: readonly SystemReading[];
  readonly problems: readonly Problem[];
  readonly tables: readonly TableReading[];
  readonly sheets: readonly SheetReading[];
  /** The workbook's structure is protected: no sheet can be added. */
  readonly structureProtected: boolean;
  /** Names of all tables in the workbook, ours and the shop's, as Excel spells them. */
  readonly tableNames: readonly string[];
  readonly summary: BookSummary;
}

export interface BookSummary {
  readonly specs: number;
  readonly systems: number;
  readonly keys: number;
  readonly cylinders: number;
  readonly marks: number;
  readonly faults: number;
  readonly warnings: number;
}
