/**
 * Peak memory of each heavy case, in a process of its own, so that one case doesn't stand on another's garbage. What a
 * process needs to start Node and read the program is measured too and shown beside it.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { auditCase, countWrong, listWrong, wholeAudit } from './audit.ts';
import { hierarchyCase, irregularCase } from './grid.ts';

const CASES: Readonly<Record<string, () => unknown>> = {
  'nothing: Node and the program alone': () => undefined,
  'audit, 16,384 keys × 10,000 cylinders, counted': () => countWrong(auditCase(16_384, 10_000, 7)),
  'audit, the same, every pair listed': () => listWrong(auditCase(16_384, 10_000, 7)),
  'audit, the same, every check': () => wholeAudit(auditCase(16_384, 10_000, 7)),
  'irregular grid, 600 keys, 8 % heavy': () => irregularCase(600, 0.08),
  'irregular grid, 1,000 keys': () => irregularCase(1000),
  'four levels, 2,000 doors': () => hierarchyCase(4),
};

/** Runs each case in a child and prints its peak resident memory. */
export function printMemory(): void {
  const self = fileURLToPath(import.meta.url);
  console.table(
    Object.keys(CASES).map((what) => {
      const out = execFileSync(process.execPath, ['--import', 'tsx', self, what], { encoding: 'utf8' });
      return { what, 'peak MB of the process': Number(out.trim()) };
    }),
  );
}

const asked = process.argv[1] === fileURLToPath(import.meta.url) ? process.argv[2] : undefined;
if (asked !== undefined) {
  CASES[asked]!();
  console.log(Math.round(peakKilobytes() / 1000));
}

/** Linux keeps a parent's peak for the child that it starts, so there the process's own is read. */
function peakKilobytes(): number {
  const own = '/proc/self/status';
  const found = existsSync(own) ? /VmHWM:\s*(\d+) kB/.exec(readFileSync(own, 'utf8')) : null;
  return found ? Number(found[1]) : process.resourceUsage().maxRSS;
}
