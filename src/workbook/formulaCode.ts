/** A formula without its texts. In one pass: a cell of a million quotes must not take a minute. */

/**
 * The formula with `""` for each of its texts. A quote within a text is doubled, so that its two halves are texts as
 * well; quotes within a sheet's name, `'Shop "A"'!A1`, are the name's.
 * @example codeOf(`="Keys!A1"&'My "locks"'!A1`) → `=""&'My "locks"'!A1`
 */
export function codeOf(formula: string): string {
  const endOfName = nameEnds(formula);
  let code = '';
  for (let at = 0; at < formula.length;) {
    const quote = nextQuote(formula, at);
    code += formula.slice(at, quote);
    if (quote === formula.length) break;
    if (formula[quote] === '"') {
      code += '""';
      const end = formula.indexOf('"', quote + 1);
      at = end < 0 ? formula.length : end + 1;
    } else {
      const end = endOfName(quote);
      // without an exclamation mark it is no sheet's name
      at = end !== undefined && formula[end + 1] === '!' ? end + 1 : quote + 1;
      code += formula.slice(quote, at);
    }
  }
  return code;
}

function nextQuote(formula: string, from: number): number {
  let at = from;
  while (at < formula.length && formula[at] !== '"' && formula[at] !== "'") at++;
  return at;
}

/** Tells where the name ends that begins with the apostrophe at that place: at the next one that isn't doubled. */
function nameEnds(formula: string): (apostrophe: number) => number | undefined {
  // one run of apostrophes after the other: how many, and the place after the last
  const runs = [...formula.matchAll(/'+/g)].map(({ 0: { length }, index }) => ({
    length,
    to: index + length,
  }));
  // where a name ends that goes into the run: where all are doubled it goes on to the next
  const ends = new Array<number | undefined>(runs.length);
  for (let r = runs.length - 1; r >= 0; r--)
    ends[r] = runs[r]!.length % 2 === 1 ? runs[r]!.to - 1 : ends[r + 1];
  let run = 0;
  return (apostrophe) => {
    while (runs[run]!.to <= apostrophe) run++;
    const last = runs[run]!.to - 1;
    return (last - apostrophe) % 2 === 1 ? last : ends[run + 1];
  };
}
