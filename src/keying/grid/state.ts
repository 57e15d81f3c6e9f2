/**
 * A partial or wrong solution and what is wrong with it, kept up to date move by move.
 *
 * Which cylinders admit a depth in a chamber, and which keys have it, are bitsets; so all cylinders that a key
 * operates are the AND over its cuts, and all keys that operate a cylinder the AND over chambers of the OR over
 * depths. A move touches one key: its own row, and the columns of the cylinders that it is marked for.
 */
import { bitCount, lowestBit, type Instance } from './instance.ts';

/** Above so many pairs conflicts aren't weighted, to save memory. */
const MOST_WEIGHTS = 24_000_000;
const UNPLACED = -1;

export class GridState {
  /** Depth of key k at chamber i at `k * positions + i`; −1 while it has none. */
  readonly cuts: Int8Array;
  /** Depths of cylinder class c at chamber i, as bits. */
  readonly sets: Int32Array;
  /** Pairs (key · cylinders + cylinder) that operate and must not. */
  readonly conflicts: number[] = [];
  /** Keys without cuts. */
  unplaced = 0;

  private readonly at = new Map<number, number>();
  private readonly p: number;
  private readonly d: number;
  private readonly keyWords: number;
  private readonly cylWords: number;
  /** How many keys of cylinder c have depth d at chamber i. */
  private readonly counts: Uint16Array;
  /** Cylinders that admit depth d at chamber i. */
  private readonly admits: Int32Array;
  /** Keys that have depth d at chamber i. */
  private readonly having: Int32Array;
  /** Pairs that may operate: marked ones, and those of fixed keys with fixed cylinders. */
  private readonly allowedRow: Int32Array;
  private readonly allowedColumn: Int32Array;
  private readonly wrongRow: Int32Array;
  private readonly wrongColumn: Int32Array;
  private readonly weights: Uint16Array | undefined;
  private readonly row: Int32Array;
  private readonly prefix: Int32Array;
  private readonly suffix: Int32Array;
  private readonly unions: Int32Array;
  private readonly scratch: number[];

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
    this.unplaced = keys;
    this.openFixed();
  }

  private openFixed(): void {
    const { instance, p, d } = this;
    instance.keysOf.forEach((keys, c) => {
      for (const k of keys) this.allow(k, c);
      const fixed = instance.fixedSets[c];
      for (let i = 0; i < p; i++) {
        const unused = ((instance.inUse[c]! >>> i) & 1) === 0;
        const set = unused ? -1 : (fixed?.[i] ?? 0);
        this.sets[c * p + i] = set;
        for (let depth = 0; depth < d; depth++) if ((set >>> depth) & 1) this.setAdmits(i, depth, c);
      }
    });
    const fixedKeys = instance.fixedCuts.flatMap((cuts, k) => (cuts ? [k] : []));
    instance.fixedSets.forEach((fixed, c) => {
      if (fixed) for (const k of fixedKeys) this.allow(k, c);
    });
    for (const k of fixedKeys) this.place(k, instance.fixedCuts[k]!);
  }

  private allow(k: number, c: number): void {
    const r = k * this.cylWords + (c >>> 5);
    const q = c * this.keyWords + (k >>> 5);
    this.allowedRow[r] = this.allowedRow[r]! | (1 << (c & 31));
    this.allowedColumn[q] = this.allowedColumn[q]! | (1 << (k & 31));
  }

  private setAdmits(i: number, depth: number, c: number): void {
    const at = (i * this.d + depth) * this.cylWords + (c >>> 5);
    this.admits[at] = this.admits[at]! | (1 << (c & 31));
  }

  private clearAdmits(i: number, depth: number, c: number): void {
    const at = (i * this.d + depth) * this.cylWords + (c >>> 5);
    this.admits[at] = this.admits[at]! & ~(1 << (c & 31));
  }

  /** Whether cylinder class c takes part in the search: it isn't fixed. */
  private open(c: number): boolean {
    return this.instance.fixedSets[c] === undefined;
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
  private rowOf(k: number, cuts: ArrayLike<number>, from: number): boolean {
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
  private columnOf(c: number): boolean {
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

  private get every(): number {
    return this.d === 32 ? -1 : (1 << this.d) - 1;
  }

  /** Weighted conflicts of the words in `row`: cylinders of key k. */
  private rowWeight(k: number): number {
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

  private columnWeight(c: number, bits: number, w: number): number {
    const { weights, instance } = this;
    if (!weights) return bitCount(bits);
    let sum = 0;
    for (let rest = bits; rest !== 0; rest &= rest - 1)
      sum += weights[(w * 32 + lowestBit(rest)) * instance.cylinders + c]!;
    return sum;
  }

  /** Raises the weight of every pair that is wrong now. */
  raiseWeights(): void {
    if (this.weights)
      for (const pair of this.conflicts)
        if (this.weights[pair]! < 60_000) this.weights[pair] = this.weights[pair]! + 1;
  }

  /** Weighted conflicts of key k's row and of its cylinders' columns as they are. */
  costOf(k: number): number {
    const { cylWords, keyWords, row } = this;
    for (let w = 0; w < cylWords; w++) row[w] = this.wrongRow[k * cylWords + w]!;
    let sum = this.rowWeight(k);
    for (const c of this.instance.cylindersOf[k]!)
      for (let w = 0; w < keyWords; w++) {
        const bits = this.wrongColumn[c * keyWords + w]!;
        if (bits !== 0) sum += this.columnWeight(c, bits, w);
      }
    return sum;
  }

  /** Whether these cuts would operate a cylinder that key k must not. */
  rowConflict(k: number, cuts: ArrayLike<number>): boolean {
    return this.rowOf(k, cuts, 0);
  }

  /**
   * Weighted conflicts if key k had these cuts; stops counting above `limit`. A placed key is looked at as if it
   * had none now.
   */
  costIf(k: number, cuts: ArrayLike<number>, limit: number): number {
    const { p, d, keyWords, having, allowedColumn, sets, counts, instance } = this;
    let sum = this.rowOf(k, cuts, 0) ? this.rowWeight(k) : 0;
    if (sum > limit) return sum;
    const placed = this.isPlaced(k);
    const own = this.scratch;
    for (const c of instance.cylindersOf[k]!) {
      if (!this.open(c)) continue;
      for (let i = 0; i < p; i++) {
        let set = sets[c * p + i]!;
        if (((instance.inUse[c]! >>> i) & 1) !== 0) {
          const old = placed ? this.cuts[k * p + i]! : UNPLACED;
          if (old >= 0 && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
          set |= 1 << cuts[i]!;
        }
        own[i] = set & this.every;
      }
      for (let w = 0; w < keyWords; w++) {
        let bits = ~allowedColumn[c * keyWords + w]!;
        for (let i = 0; i < p && bits !== 0; i++) {
          let union = 0;
          for (let depths = own[i]!; depths !== 0; depths &= depths - 1)
            union |= having[(i * d + lowestBit(depths)) * keyWords + w]!;
          bits &= union;
        }
        if (bits !== 0) sum += this.columnWeight(c, bits, w);
      }
      if (sum > limit) return sum;
    }
    return sum;
  }

  /** Whether depth may be key k's at chamber i: in its domain, no pin too thin, no chamber with too many depths. */
  depthFits(k: number, i: number, depth: number): boolean {
    const { p, d, instance, sets, counts } = this;
    if (((instance.domain[k * p + i]! >>> depth) & 1) === 0) return false;
    if (!instance.thinMatters && instance.mostDepths >= d) return true;
    const old = this.cuts[k * p + i]!;
    for (const c of instance.cylindersOf[k]!) {
      if (!this.open(c) || ((instance.inUse[c]! >>> i) & 1) === 0) continue;
      let set = sets[c * p + i]!;
      if (old >= 0 && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
      if ((set & instance.near[depth]!) !== 0) return false;
      if (instance.mostDepths < d && bitCount(set | (1 << depth)) > instance.mostDepths) return false;
    }
    return true;
  }

  /** Whether cuts are far enough from every other key's. */
  farEnough(k: number, cuts: ArrayLike<number>): boolean {
    const { instance, p } = this;
    const least = instance.minimumDifference;
    if (least <= 1 && !instance.distinct) return true;
    for (let other = 0; other < instance.keys; other++) {
      if (other === k || !this.isPlaced(other)) continue;
      let differing = 0;
      for (let i = 0; i < p; i++) if (this.cuts[other * p + i] !== cuts[i]) differing++;
      if (differing < least) return false;
    }
    return true;
  }

  /** Whether key k may have these cuts at all, whatever operates what. */
  fits(k: number, cuts: ArrayLike<number>): boolean {
    for (let i = 0; i < this.p; i++) if (!this.depthFits(k, i, cuts[i]!)) return false;
    return this.instance.usable(cuts) && this.farEnough(k, cuts);
  }

  /**
   * Weighted conflicts of key k after each single move, at `chamber * depths + depth` of `into`; only the chambers
   * in `chambers` (bits). Moves that don't fit are not filtered out here.
   */
  costOfMoves(k: number, chambers: number, into: Float64Array): void {
    into.fill(0);
    this.rowCosts(k, chambers, into);
    for (const c of this.instance.cylindersOf[k]!) if (this.open(c)) this.columnCosts(k, c, chambers, into);
  }

  private rowCosts(k: number, chambers: number, into: Float64Array): void {
    const { p, d, cylWords: n, admits, prefix, suffix, row } = this;
    for (let w = 0; w < n; w++) {
      prefix[w] = ~this.allowedRow[k * n + w]!;
      suffix[p * n + w] = -1;
    }
    for (let i = 0; i < p; i++) {
      const from = (i * d + this.cuts[k * p + i]!) * n;
      for (let w = 0; w < n; w++) prefix[(i + 1) * n + w] = prefix[i * n + w]! & admits[from + w]!;
    }
    for (let i = p - 1; i > 0; i--) {
      const from = (i * d + this.cuts[k * p + i]!) * n;
      for (let w = 0; w < n; w++) suffix[i * n + w] = suffix[(i + 1) * n + w]! & admits[from + w]!;
    }
    for (let i = 0; i < p; i++) {
      if (((chambers >>> i) & 1) === 0) continue;
      let any = 0;
      for (let w = 0; w < n; w++) any |= prefix[i * n + w]! & suffix[(i + 1) * n + w]!;
      if (any === 0) continue;
      for (let depth = 0; depth < d; depth++) {
        const from = (i * d + depth) * n;
        for (let w = 0; w < n; w++)
          row[w] = prefix[i * n + w]! & suffix[(i + 1) * n + w]! & admits[from + w]!;
        into[i * d + depth] = into[i * d + depth]! + this.rowWeight(k);
      }
    }
  }

  private columnCosts(k: number, c: number, chambers: number, into: Float64Array): void {
    const { p, d, keyWords: n, having, prefix, suffix, unions, sets, counts, instance } = this;
    for (let i = 0; i < p; i++)
      for (let w = 0; w < n; w++) {
        let union = 0;
        for (let depths = sets[c * p + i]! & this.every; depths !== 0; depths &= depths - 1)
          union |= having[(i * d + lowestBit(depths)) * n + w]!;
        unions[i * n + w] = union;
      }
    for (let w = 0; w < n; w++) {
      prefix[w] = ~this.allowedColumn[c * n + w]!;
      suffix[p * n + w] = -1;
    }
    for (let i = 0; i < p; i++)
      for (let w = 0; w < n; w++) prefix[(i + 1) * n + w] = prefix[i * n + w]! & unions[i * n + w]!;
    for (let i = p - 1; i > 0; i--)
      for (let w = 0; w < n; w++) suffix[i * n + w] = suffix[(i + 1) * n + w]! & unions[i * n + w]!;
    for (let i = 0; i < p; i++) {
      if (((chambers >>> i) & 1) === 0) continue;
      const used = ((instance.inUse[c]! >>> i) & 1) !== 0;
      const old = this.cuts[k * p + i]!;
      let set = sets[c * p + i]! & this.every;
      if (used && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
      let stays = 0;
      for (let w = 0; w < n; w++) {
        const others = prefix[i * n + w]! & suffix[(i + 1) * n + w]!;
        let without = 0;
        if (others !== 0)
          for (let depths = set; depths !== 0; depths &= depths - 1)
            without |= having[(i * d + lowestBit(depths)) * n + w]!;
        if ((others & without) !== 0) stays += this.columnWeight(c, others & without, w);
        const rest = others & ~without;
        if (rest === 0 || !used) continue;
        for (let depth = 0; depth < d; depth++) {
          const more = rest & having[(i * d + depth) * n + w]!;
          if (more !== 0) into[i * d + depth] = into[i * d + depth]! + this.columnWeight(c, more, w);
        }
      }
      if (stays !== 0)
        for (let depth = 0; depth < d; depth++) into[i * d + depth] = into[i * d + depth]! + stays;
    }
  }

  cutsOf(k: number): number[] {
    return Array.from(this.cuts.subarray(k * this.p, (k + 1) * this.p));
  }

  countAt(c: number, i: number, depth: number): number {
    return this.counts[(c * this.p + i) * this.d + depth]!;
  }
}
