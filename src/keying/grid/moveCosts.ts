/**
 * What is wrong after a change that isn't made yet: another bitting for a key, or each of its single moves at once. The
 * moves are read off what the other chambers leave open, from the left and from the right.
 */
import { lowestBit } from './instance.ts';
import type { GridState } from './state.ts';
import { UNPLACED } from './stateBits.ts';

/**
 * Weighted conflicts if key k had these cuts; stops counting above `limit`. A placed key is looked at as if it
 * had none now.
 */
export function costIf(state: GridState, k: number, cuts: ArrayLike<number>, limit: number): number {
  const { p, d, keyWords, having, allowedColumn, sets, counts, instance } = state;
  let sum = state.rowOf(k, cuts, 0) ? state.rowWeight(k) : 0;
  if (sum > limit) return sum;
  const placed = state.isPlaced(k);
  const own = state.scratch;
  for (const c of instance.cylindersOf[k]!) {
    if (!state.open(c)) continue;
    for (let i = 0; i < p; i++) {
      let set = sets[c * p + i]!;
      if (((instance.inUse[c]! >>> i) & 1) !== 0) {
        const old = placed ? state.cuts[k * p + i]! : UNPLACED;
        if (old >= 0 && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
        set |= 1 << cuts[i]!;
      }
      own[i] = set & state.every;
    }
    for (let w = 0; w < keyWords; w++) {
      let bits = ~allowedColumn[c * keyWords + w]!;
      for (let i = 0; i < p && bits !== 0; i++) {
        let union = 0;
        for (let depths = own[i]!; depths !== 0; depths &= depths - 1)
          union |= having[(i * d + lowestBit(depths)) * keyWords + w]!;
        bits &= union;
      }
      if (bits !== 0) sum += state.columnWeight(c, bits, w);
    }
    if (sum > limit) return sum;
  }
  return sum;
}

/**
 * Weighted conflicts of key k after each single move, at `chamber * depths + depth` of `into`; only the chambers
 * in `chambers` (bits). Moves that don't fit are not filtered out here.
 */
export function costOfMoves(state: GridState, k: number, chambers: number, into: Float64Array): void {
  into.fill(0);
  rowCosts(state, k, chambers, into);
  for (const c of state.instance.cylindersOf[k]!) if (state.open(c)) columnCosts(state, k, c, chambers, into);
}

function rowCosts(state: GridState, k: number, chambers: number, into: Float64Array): void {
  const { p, d, cylWords: n, admits, prefix, suffix, row } = state;
  for (let w = 0; w < n; w++) {
    prefix[w] = ~state.allowedRow[k * n + w]!;
    suffix[p * n + w] = -1;
  }
  for (let i = 0; i < p; i++) {
    const from = (i * d + state.cuts[k * p + i]!) * n;
    for (let w = 0; w < n; w++) prefix[(i + 1) * n + w] = prefix[i * n + w]! & admits[from + w]!;
  }
  for (let i = p - 1; i > 0; i--) {
    const from = (i * d + state.cuts[k * p + i]!) * n;
    for (let w = 0; w < n; w++) suffix[i * n + w] = suffix[(i + 1) * n + w]! & admits[from + w]!;
  }
  for (let i = 0; i < p; i++) {
    if (((chambers >>> i) & 1) === 0) continue;
    let any = 0;
    for (let w = 0; w < n; w++) any |= prefix[i * n + w]! & suffix[(i + 1) * n + w]!;
    if (any === 0) continue;
    for (let depth = 0; depth < d; depth++) {
      const from = (i * d + depth) * n;
      for (let w = 0; w < n; w++) row[w] = prefix[i * n + w]! & suffix[(i + 1) * n + w]! & admits[from + w]!;
      into[i * d + depth] = into[i * d + depth]! + state.rowWeight(k);
    }
  }
}

function columnCosts(state: GridState, k: number, c: number, chambers: number, into: Float64Array): void {
  const { p, d, keyWords: n, having, prefix, suffix, unions, sets, counts, instance } = state;
  for (let i = 0; i < p; i++)
    for (let w = 0; w < n; w++) {
      let union = 0;
      for (let depths = sets[c * p + i]! & state.every; depths !== 0; depths &= depths - 1)
        union |= having[(i * d + lowestBit(depths)) * n + w]!;
      unions[i * n + w] = union;
    }
  for (let w = 0; w < n; w++) {
    prefix[w] = ~state.allowedColumn[c * n + w]!;
    suffix[p * n + w] = -1;
  }
  for (let i = 0; i < p; i++)
    for (let w = 0; w < n; w++) prefix[(i + 1) * n + w] = prefix[i * n + w]! & unions[i * n + w]!;
  for (let i = p - 1; i > 0; i--)
    for (let w = 0; w < n; w++) suffix[i * n + w] = suffix[(i + 1) * n + w]! & unions[i * n + w]!;
  for (let i = 0; i < p; i++) {
    if (((chambers >>> i) & 1) === 0) continue;
    const used = ((instance.inUse[c]! >>> i) & 1) !== 0;
    const old = state.cuts[k * p + i]!;
    let set = sets[c * p + i]! & state.every;
    if (used && counts[(c * p + i) * d + old] === 1) set &= ~(1 << old);
    let stays = 0;
    for (let w = 0; w < n; w++) {
      const others = prefix[i * n + w]! & suffix[(i + 1) * n + w]!;
      let without = 0;
      if (others !== 0)
        for (let depths = set; depths !== 0; depths &= depths - 1)
          without |= having[(i * d + lowestBit(depths)) * n + w]!;
      if ((others & without) !== 0) stays += state.columnWeight(c, others & without, w);
      const rest = others & ~without;
      if (rest === 0 || !used) continue;
      for (let depth = 0; depth < d; depth++) {
        const more = rest & having[(i * d + depth) * n + w]!;
        if (more !== 0) into[i * d + depth] = into[i * d + depth]! + state.columnWeight(c, more, w);
      }
    }
    if (stays !== 0)
      for (let depth = 0; depth < d; depth++) into[i * d + depth] = into[i * d + depth]! + stays;
  }
}
