/**
 * A partial or wrong solution and what is wrong with it, kept up to date move by move. A move touches one key: its own
 * row, and the columns of the cylinders that it is marked for.
 */
import { bitCount, lowestBit, type Instance } from './instance.ts';
import { StateBits, UNPLACED } from './stateBits.ts';

/** Well within what a weight is kept in. */
const MOST_WEIGHT = 60_000;

export class GridState extends StateBits {
  /** Pairs (key · cylinders + cylinder) that operate and must not. */
  readonly conflicts: number[] = [];
  /** Keys without cuts. */
  unplaced: number;

  private readonly at = new Map<number, number>();

  constructor(instance: Instance) {
    super(instance);
    this.unplaced = instance.keys;
    instance.fixedCuts.forEach((cuts, k) => (cuts ? this.place(k, cuts) : undefined));
  }

  isPlaced(k: number): boolean {
    return this.cuts[k * this.p] !== UNPLACED;
  }

  private put(k: number, i: number, depth: number): void {
    const { p, d, instance } = this;
    this.cuts[k * p + i] = depth;
    const h = (i * d + depth) * this.keyWords + (k >>> 5);
    this.having[h] = this.having[h]! | (1 << (k & 31));
    for (const c of instance.cylindersOf[k]!) {
      if (!this.open(c) || ((instance.inUse[c]! >>> i) & 1) === 0) continue;
      const cell = (c * p + i) * d + depth;
      if (this.counts[cell]!++ === 0) {
        this.sets[c * p + i] = this.sets[c * p + i]! | (1 << depth);
        this.setAdmits(i, depth, c);
      }
    }
  }

  private take(k: number, i: number): void {
    const { p, d, instance } = this;
    const depth = this.cuts[k * p + i]!;
    const h = (i * d + depth) * this.keyWords + (k >>> 5);
    this.having[h] = this.having[h]! & ~(1 << (k & 31));
    this.cuts[k * p + i] = UNPLACED;
    for (const c of instance.cylindersOf[k]!) {
      if (!this.open(c) || ((instance.inUse[c]! >>> i) & 1) === 0) continue;
      const cell = (c * p + i) * d + depth;
      if (--this.counts[cell]! === 0) {
        this.sets[c * p + i] = this.sets[c * p + i]! & ~(1 << depth);
        this.clearAdmits(i, depth, c);
      }
    }
  }

  /** Gives a key cuts, whether it has any or not. */
  place(k: number, cuts: ArrayLike<number>): void {
    if (this.isPlaced(k)) for (let i = 0; i < this.p; i++) this.take(k, i);
    else this.unplaced--;
    for (let i = 0; i < this.p; i++) this.put(k, i, cuts[i]!);
    this.recheck(k);
  }

  lift(k: number): void {
    if (!this.isPlaced(k)) return;
    for (let i = 0; i < this.p; i++) this.take(k, i);
    this.unplaced++;
    this.recheck(k);
  }

  move(k: number, i: number, depth: number): void {
    this.take(k, i);
    this.put(k, i, depth);
    this.recheck(k);
  }

  /** Brings the conflicts of a key's row and of its cylinders' columns up to date. */
  private recheck(k: number): void {
    const { cylWords, keyWords, row, instance } = this;
    if (this.isPlaced(k)) this.rowOf(k, this.cuts, k * this.p);
    else row.fill(0);
    for (let w = 0; w < cylWords; w++) {
      let changed = row[w]! ^ this.wrongRow[k * cylWords + w]!;
      while (changed !== 0) {
        this.toggle(k, w * 32 + lowestBit(changed));
        changed &= changed - 1;
      }
    }
    for (const c of instance.cylindersOf[k]!) {
      if (!this.open(c)) continue;
      this.columnOf(c);
      for (let w = 0; w < keyWords; w++) {
        let changed = row[w]! ^ this.wrongColumn[c * keyWords + w]!;
        while (changed !== 0) {
          this.toggle(w * 32 + lowestBit(changed), c);
          changed &= changed - 1;
        }
      }
    }
  }

  private toggle(k: number, c: number): void {
    const r = k * this.cylWords + (c >>> 5);
    const q = c * this.keyWords + (k >>> 5);
    this.wrongRow[r] = this.wrongRow[r]! ^ (1 << (c & 31));
    this.wrongColumn[q] = this.wrongColumn[q]! ^ (1 << (k & 31));
    const pair = k * this.instance.cylinders + c;
    const where = this.at.get(pair);
    if (where === undefined) {
      this.at.set(pair, this.conflicts.length);
      this.conflicts.push(pair);
      return;
    }
    const last = this.conflicts.pop()!;
    this.at.delete(pair);
    if (last !== pair) {
      this.conflicts[where] = last;
      this.at.set(last, where);
    }
  }

  /** Cylinders that cuts operate and key k must not, into `row`; false when there is none. */
  rowOf(k: number, cuts: ArrayLike<number>, from: number): boolean {
    const { p, d, cylWords, admits, allowedRow, row } = this;
    let any = 0;
    for (let w = 0; w < cylWords; w++) {
      let bits = ~allowedRow[k * cylWords + w]!;
      for (let i = 0; i < p && bits !== 0; i++) bits &= admits[(i * d + cuts[from + i]!) * cylWords + w]!;
      row[w] = bits;
      any |= bits;
    }
    return any !== 0;
  }

  /** Keys that operate cylinder c and must not, into `row`. */
  columnOf(c: number): boolean {
    const { p, keyWords, having, allowedColumn, row, sets, d } = this;
    let any = 0;
    for (let w = 0; w < keyWords; w++) {
      let bits = ~allowedColumn[c * keyWords + w]!;
      for (let i = 0; i < p && bits !== 0; i++) {
        let depths = sets[c * p + i]! & this.every;
        let union = 0;
        while (depths !== 0) {
          union |= having[(i * d + lowestBit(depths)) * keyWords + w]!;
          depths &= depths - 1;
        }
        bits &= union;
      }
      row[w] = bits;
      any |= bits;
    }
    return any !== 0;
  }

  /** Weighted conflicts of the words in `row`: cylinders of key k. */
  rowWeight(k: number): number {
    const { row, cylWords, weights, instance } = this;
    let sum = 0;
    for (let w = 0; w < cylWords; w++) {
      let bits = row[w]!;
      if (bits === 0) continue;
      if (!weights) {
        sum += bitCount(bits);
        continue;
      }
      while (bits !== 0) {
        sum += weights[k * instance.cylinders + w * 32 + lowestBit(bits)]!;
        bits &= bits - 1;
      }
    }
    return sum;
  }

  columnWeight(c: number, bits: number, w: number): number {
    const { weights, instance } = this;
    if (!weights) return bitCount(bits);
    let sum = 0;
    for (let rest = bits; rest !== 0; rest &= rest - 1)
      sum += weights[(w * 32 + lowestBit(rest)) * instance.cylinders + c]!;
    return sum;
  }

  /** Makes a pair that is wrong weigh more. */
  raiseWeight(pair: number): void {
    if (this.weights && this.weights[pair]! < MOST_WEIGHT) this.weights[pair] = this.weights[pair]! + 1;
  }

  /** Weighted conflicts of key k's row and of the columns of its new cylinders as they are. */
  costOf(k: number): number {
    const { cylWords, keyWords, row } = this;
    for (let w = 0; w < cylWords; w++) row[w] = this.wrongRow[k * cylWords + w]!;
    let sum = this.rowWeight(k);
    for (const c of this.instance.cylindersOf[k]!) {
      // what an existing cylinder admits is not up to this key
      if (!this.open(c)) continue;
      for (let w = 0; w < keyWords; w++) {
        const bits = this.wrongColumn[c * keyWords + w]!;
        if (bits !== 0) sum += this.columnWeight(c, bits, w);
      }
    }
    return sum;
  }

  cutsOf(k: number): number[] {
    return Array.from(this.cuts.subarray(k * this.p, (k + 1) * this.p));
  }

  countAt(c: number, i: number, depth: number): number {
    return this.counts[(c * this.p + i) * this.d + depth]!;
  }
}
