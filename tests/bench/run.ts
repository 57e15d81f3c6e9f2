/** `npm run bench`: every performance claim, each with a naive reference in the same run. */
import { auditComparisons } from './audit.ts';
import { columnComparisons } from './columns.ts';
import { gridComparisons, gridTimes, printTimes } from './grid.ts';
import { printMemory } from './memory.ts';
import { importComparisons } from './import.ts';
import { printImportMemory } from './importMemory.ts';
import { printPane } from './pane.ts';
import { ledgerComparisons } from './ledger.ts';
import { scheduleComparisons } from './schedule.ts';
import { compare, print, type Row } from './table.ts';

const rows: Row[] = [];
for (const comparison of [
  ...columnComparisons(),
  ...auditComparisons(),
  ...importComparisons(),
  ...gridComparisons(),
  ...scheduleComparisons(),
  ...ledgerComparisons(),
])
  rows.push(await compare(comparison));
print(rows);
printImportMemory();
printTimes(gridTimes());
printMemory();
await printPane();
