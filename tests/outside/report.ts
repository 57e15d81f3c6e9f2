/** `npm run check:outside`: prints every published value, its source, ours, and pass or fail. Exits with 1 on a failure. */
import { agrees, COMPARISONS, type Value } from './comparisons.ts';
import { SOURCES, type SourceName } from './values.ts';

const shown = (value: Value): string =>
  value === null || typeof value !== 'object' ? String(value) : value.map(shown).join(' ');

let failed = 0;
for (const source of Object.keys(SOURCES) as SourceName[]) {
  const { title, status } = SOURCES[source];
  console.log(`\n${title} (${status})`);
  for (const comparison of COMPARISONS.filter((c) => c.source === source)) {
    const ours = comparison.ours();
    const pass = agrees(comparison, ours);
    if (!pass) failed++;
    console.log(
      `  ${pass ? 'pass' : 'FAIL'}  ${comparison.what.padEnd(72)} theirs ${shown(comparison.theirs).padEnd(12)} ours ${shown(ours)}`,
    );
  }
}
const sources = new Set(COMPARISONS.map((c) => c.source)).size;
console.log(
  `\n${COMPARISONS.length} values from ${sources} sources: ${failed === 0 ? 'all pass' : `${failed} FAIL`}`,
);
process.exitCode = failed === 0 ? 0 : 1;
