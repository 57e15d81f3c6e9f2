/** Symbols that an audit looks up: keys above that aren't there, cylinders keyed to nobody's symbol. */
import type { AuditFindings } from './auditFindings.ts';
import { isLive, type AuditCylinder, type AuditKey } from './auditInput.ts';
import { parseKeySymbol } from './symbol.ts';
import { foldSymbol, withoutAside } from './system.ts';

/** Each key whose key above is given and isn't among the keys. */
export function checkParents(keys: readonly AuditKey[], findings: AuditFindings): void {
  if (keys.every(({ parent }) => parent === undefined)) return;
  const names = new Set(keys.map((key) => foldSymbol(key.symbol)));
  for (const { symbol, parent } of keys)
    if (parent !== undefined && !names.has(parent) && !names.has(foldSymbol(parent)) && parent.trim() !== '')
      findings.add({ code: 'parent-missing', key: symbol, parent });
}

/** Checks that the key a cylinder is named after is issued or reserved; `X1X` has none, and `XAA3` has `AA3`. */
export function createSymbolCheck(
  keys: readonly AuditKey[],
  findings: AuditFindings,
): (cylinder: AuditCylinder) => void {
  // As they are written first, since folding thousands costs more than the rest of the check.
  let written: ReadonlySet<string> | undefined;
  let folded: ReadonlySet<string> | undefined;
  return ({ id, symbol }) => {
    if (symbol === undefined) return;
    written ??= new Set(keys.filter(isLive).map((key) => key.symbol));
    if (written.has(symbol)) return;
    folded ??= new Set([...written].map(foldSymbol));
    const names = folded;
    if (names.has(foldSymbol(symbol)) || symbol.trim() === '') return;
    const parsed = parseKeySymbol(symbol);
    if (parsed.ok && parsed.value.kind === 'cross-keyed-only') return;
    const bare = withoutAside(foldSymbol(symbol));
    if (names.has(bare) || (/^X/.test(bare) && names.has(bare.slice(1)))) return;
    findings.add({ code: 'key-missing', symbol, cylinder: id });
  };
}
