/**
 * `npm run sideload`: tells this machine's Excel of the built add-in and, where the manifest points to localhost,
 * serves it there until Ctrl+C. `npm run sideload -- --remove` takes it back. Does nothing that it has not said.
 */
import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, resolve } from 'node:path';
import { DEVELOPMENT_BASE } from './hostedManifest.ts';
import { startAddinServer } from './serveAddin.ts';
import {
  addPlan,
  certificateFiles,
  certificateWords,
  removePlan,
  type Action,
  type Machine,
} from './sideloadPlan.ts';

const MANIFEST = resolve('dist/manifest.xml');

function carryOut(action: Action): void {
  switch (action.kind) {
    case 'copy':
      console.log(`Copying ${action.from} to ${action.to}`);
      mkdirSync(dirname(action.to), { recursive: true });
      copyFileSync(action.from, action.to);
      return;
    case 'delete':
      console.log(`Removing ${action.file}`);
      rmSync(action.file, { force: true });
      return;
    case 'run':
      console.log(`Running ${action.program} ${action.args.join(' ')}`);
      execFileSync(action.program, [...action.args], { stdio: 'inherit' });
  }
}

async function run(remove: boolean): Promise<void> {
  if (!existsSync(MANIFEST)) throw new Error('There is no dist/manifest.xml yet. Run npm run build first.');
  const manifest = readFileSync(MANIFEST, 'utf8');
  const machine: Machine = {
    platform: process.platform,
    home: homedir(),
    manifest: MANIFEST,
    id: /<Id>([^<]+)<\/Id>/.exec(manifest)![1]!,
  };
  const plan = remove ? removePlan(machine) : addPlan(machine);
  const local = !remove && manifest.includes(`"${DEVELOPMENT_BASE}/taskpane.html"`);
  const files = certificateFiles(process.env, machine);
  if (local && !(existsSync(files.key) && existsSync(files.certificate)))
    throw new Error(certificateWords(files).join('\n'));
  plan.actions.forEach(carryOut);
  plan.then.forEach((words, i) => console.log(`${i + 1}. ${words}`));
  if (!local) return;
  await startAddinServer(Number(new URL(DEVELOPMENT_BASE).port), {
    key: readFileSync(files.key),
    cert: readFileSync(files.certificate),
  });
  console.log(
    `\nServing dist at ${DEVELOPMENT_BASE}. Ctrl+C stops it; npm run sideload -- --remove takes it out of Excel.`,
  );
}

try {
  await run(process.argv.includes('--remove'));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
