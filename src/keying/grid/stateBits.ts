/**
 * What a state of the search is kept in. Which cylinders admit a depth in a chamber, and which keys have it, are
 * bitsets; so all cylinders that a key operates are the AND over its cuts, and all keys that operate a cylinder the
 * AND over chambers of the OR over depths.
 */
import type { Instance } from './instance.ts';

/** Above so many pairs conflicts aren't weighted, to save memory. */
const MOST_WEIGHTS = 24_000_000;
/** The depth of a key that has no cuts yet. */
export const UNPLACED = -1;

export class StateBits {
  /** Depth of key k at chamber i at `k * positions + i`; −1 while it has none. */
  readonly cuts: Int8Array;
  /** Depths of cylinder class c at chamber i, as bits. */
  readonly sets: Int32Array;
  readonly p: number;
  readonly d: number;
  readonly keyWords: number;
  readonly cylWords: number;
  /** How many keys of cylinder c have depth d at chamber i. */
  readonly counts: Uint16Array;
  /** Cylinders that admit depth d at chamber i. */
  readonly admits: Int32Array;
  /** Keys that have depth d at chamber i. */
  readonly having: Int32Array;
  /** Pairs that may operate: marked ones, and those of fixed keys with fixed cylinders. */
  readonly allowedRow: Int32Array;
  readonly allowedColumn: Int32Array;
  readonly wrongRow: Int32Array;
  readonly wrongColumn: Int32Array;
  readonly weights: Uint16Array | undefined;
  readonly row: Int32Array;
  readonly prefix: Int32Array;
  readonly suffix: Int32Array;
  readonly unions: Int32Array;
  readonly scratch: number[];

  constructor(readonly instance: Instance) {
    const { keys, cylinders, positions, depths } = instance;
    this.p = positions;
    this.d = depths;
    this.keyWords = (keys + 31) >>> 5;
    this.cylWords = (cylinders + 31) >>> 5;
    const most = Math.max(this.keyWords, this.cylWords, 1);
    this.cuts = new Int8Array(keys * positions).fill(UNPLACED);
    this.sets = new Int32Array(cylinders * positions);
    this.counts = new Uint16Array(cylinders * positions * depths);
    this.admits = new Int32Array(positions * depths * this.cylWords);
    this.having = new Int32Array(positions * depths * this.keyWords);
    this.allowedRow = new Int32Array(keys * this.cylWords);
    this.allowedColumn = new Int32Array(cylinders * this.keyWords);
    this.wrongRow = new Int32Array(keys * this.cylWords);
    this.wrongColumn = new Int32Array(cylinders * this.keyWords);
    this.weights = keys * cylinders <= MOST_WEIGHTS ? new Uint16Array(keys * cylinders).fill(1) : undefined;
    this.row = new Int32Array(most);
    this.prefix = new Int32Array((positions + 1) * most);
    this.suffix = new Int32Array((positions + 1) * most);
    this.unions = new Int32Array(positions * most);
    this.scratch = new Array<number>(positions).fill(0);
    this.openPairs();
    this.openChambers();
  }

  /** Marked pairs, pairs that stand as they are, and pairs of a blank that never turns in a cylinder. */
  private openPairs(): void {
    const { keysOf, fixedCuts, fixedSets, shut, keys, cylinders } = this.instance;
    keysOf.forEach((marked, c) => {
      for (const k of marked) this.allow(k, c);
      if (fixedSets[c]) fixedCuts.forEach((cuts, k) => (cuts ? this.allow(k, c) : undefined));
    });
    if (shut)
      for (let k = 0; k < keys; k++)
        for (let c = 0; c < cylinders; c++) if (shut[k * cylinders + c] === 1) this.allow(k, c);
  }

  private openChambers(): void {
    const { instance, p, d } = this;
    instance.fixedSets.forEach((fixed, c) => {
      for (let i = 0; i < p; i++) {
        const unused = ((instance.inUse[c]! >>> i) & 1) === 0;
        const set = unused ? -1 : (fixed?.[i] ?? 0);
        this.sets[c * p + i] = set;
        for (let depth = 0; depth < d; depth++) if ((set >>> depth) & 1) this.setAdmits(i, depth, c);
      }
    });
  }

  private allow(k: number, c: number): void {
    const r = k * this.cylWords + (c >>> 5);
    const q = c * this.keyWords + (k >>> 5);
    this.allowedRow[r] = this.allowedRow[r]! | (1 << (c & 31));
    this.allowedColumn[q] = this.allowedColumn[q]! | (1 << (k & 31));
  }

  protected setAdmits(i: number, depth: number, c: number): void {
    const at = (i * this.d + depth) * this.cylWords + (c >>> 5);
    this.admits[at] = this.admits[at]! | (1 << (c & 31));
  }

  protected clearAdmits(i: number, depth: number, c: number): void {
    const at = (i * this.d + depth) * this.cylWords + (c >>> 5);
    this.admits[at] = this.admits[at]! & ~(1 << (c & 31));
  }

  /** Whether cylinder class c takes part in the search: it isn't fixed. */
  open(c: number): boolean {
    return this.instance.fixedSets[c] === undefined;
  }

  /** Every depth of the spec, as bits. */
  get every(): number {
    return this.d === 32 ? -1 : (1 << this.d) - 1;
  }
}
