/** Deep equality of plain data, maps and sets; a key set to undefined counts as absent. */
export function equal(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (a instanceof Map && b instanceof Map) {
    if (a.size !== b.size) return false;
    for (const [key, value] of a) if (!b.has(key) || !equal(value, b.get(key))) return false;
    return true;
  }
  if (a instanceof Set && b instanceof Set) return a.size === b.size && [...a].every((item) => b.has(item));
  if (Array.isArray(a) || Array.isArray(b))
    return (
      Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, i) => equal(item, b[i]))
    );
  const left = a as Readonly<Record<string, unknown>>;
  const right = b as Readonly<Record<string, unknown>>;
  return [...new Set([...Object.keys(left), ...Object.keys(right)])].every((key) =>
    equal(left[key], right[key]),
  );
}
