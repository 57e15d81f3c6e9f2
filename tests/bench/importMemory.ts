/**
 * What a list of 100,000 codes takes of memory, in a process of its own so that nothing else is counted: the whole
 * task of the pane, rows held and report held. The process may not have more than the claim: V8 gives up beyond it.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ImportedList, ROWS } from './import.ts';

const CLAIM_MB = 200;

interface Memory {
  /** After a collection, with the rows, and with rows and report. */
  readonly rowsMb: number;
  readonly bothMb: number;
  /** The most seen at any step, rubbish included. */
  readonly peakMb: number;
  readonly findings: number;
}

/** Prints what the child measured; fails where it took more than the claim. */
export function printImportMemory(): void {
  const child = spawnSync(
    process.execPath,
    [
      '--expose-gc',
      `--max-old-space-size=${CLAIM_MB}`,
      '--import',
      'tsx',
      fileURLToPath(import.meta.url),
      'measure',
    ],
    { encoding: 'utf8' },
  );
  if (child.status !== 0)
    throw new Error(`${ROWS} codes don't go into ${CLAIM_MB} MB: ${child.stderr.slice(-300)}`);
  const { rowsMb, bothMb, peakMb, findings } = JSON.parse(child.stdout) as Memory;
  console.log(
    `${ROWS.toLocaleString('en-US')} codes, every rule, in a process of its own that may take ${CLAIM_MB} MB: ` +
      `rows ${rowsMb} MB, with report (${findings.toLocaleString('en-US')} findings) ${bothMb} MB, at most ${peakMb} MB.`,
  );
  if (peakMb >= CLAIM_MB) throw new Error(`the list takes ${peakMb} MB; ${CLAIM_MB} MB are claimed`);
}

function measure(): void {
  const collect = (globalThis as { gc?: () => void }).gc!;
  const megabytes = (): number => Math.round(process.memoryUsage().heapUsed / 1e5) / 10;
  const list = new ImportedList();
  collect();
  const rowsMb = megabytes();
  let peakMb = 0;
  const report = list.check(() => (peakMb = Math.max(peakMb, megabytes())));
  collect();
  const bothMb = megabytes();
  const findings = report.findings.reduce((sum, found) => sum + (found?.length ?? 0), 0);
  const memory: Memory = { rowsMb, bothMb, peakMb: Math.max(peakMb, bothMb), findings };
  process.stdout.write(JSON.stringify({ ...memory, rows: list.rows.length }));
}

if (process.argv[2] === 'measure') measure();
