/**
 * A test runner for Stryker that loads the tests once and runs them in its own process for every mutant (see
 * harness.mjs for why). A mutant that hangs is ended by Stryker, which then starts this anew.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { build } from 'vite';

const BUNDLE = '.mutation-bundle';
/** Tells a runner that was started anew that the bundle is there. */
const DONE = join(BUNDLE, 'done');
const COSTS = join(BUNDLE, 'costs.json');
const HARNESS = resolve('tests/mutation/harness.mjs');
const FEW_CASES = resolve('tests/mutation/fewCases.mjs');
const SETUP = 'tests/mutation/fixedSeed.ts';
/** What the tests get in place of the packages that they import. */
const INSTEAD = { vitest: HARNESS, 'fast-check': FEW_CASES };
/** Which tests to run, as the beginnings of their paths: `MUTATE_TESTS=tests/keying,tests/outside`. */
const WANTED = (process.env.MUTATE_TESTS ?? 'tests/keying,tests/outside').split(',');
/** Long proofs that would cost minutes for every surviving mutant; other tests hold the same code. */
const UNWANTED = [
  'tests/outside/gridAgainstSat.test.ts',
  ...(process.env.MUTATE_SKIP ?? '').split(','),
].filter((path) => path !== '');

const testFiles = () =>
  readdirSync('tests', { recursive: true })
    .map((path) => join('tests', path))
    .filter((path) => /\.test\.tsx?$/.test(path) && WANTED.some((start) => path.startsWith(start)))
    .filter((path) => !UNWANTED.some((start) => path.startsWith(start)))
    .sort();

/**
 * How long the tests of one mutant may take, from the shortest on: code that nearly every test runs through would cost
 * minutes for each survivor. Those that are named for its file come first, at a quarter of their price. Milliseconds of
 * processor time.
 */
const MOST = Number(process.env.MUTATE_MOST ?? 5000);

/** `audit.test.ts` is named for `audit.ts` and `auditCores.ts`; a folder of tests for the folder of that name. */
function isNamedFor(testFile, source) {
  const test = basename(testFile).replace(/\.test\.tsx?$/, '');
  const own = basename(source).replace(/\.tsx?$/, '');
  const folder = basename(dirname(source));
  return (
    test.startsWith(own) ||
    own.startsWith(test) ||
    basename(dirname(testFile)) === (folder === 'keying' ? '' : folder)
  );
}

/** Limits of time mean nothing in instrumented code. */
const OF_SPEED = /(within|less than) \w+ seconds?$/;

const slug = (path) => path.replace(/\.tsx?$/, '').replaceAll('/', '-');

/** Caches that a mutant filled must not outlive it: in src they are all WeakMaps, and this empties them. */
class ForgetfulWeakMap {
  static epoch = 0;
  #epoch = -1;
  #map = new WeakMap();
  #now() {
    if (this.#epoch !== ForgetfulWeakMap.epoch) {
      this.#epoch = ForgetfulWeakMap.epoch;
      this.#map = new WeakMap();
    }
    return this.#map;
  }
  get(key) {
    return this.#now().get(key);
  }
  has(key) {
    return this.#now().has(key);
  }
  set(key, value) {
    this.#now().set(key, value);
    return this;
  }
  delete(key) {
    return this.#now().delete(key);
  }
}

const FORGETFUL = [
  ['new WeakMap', 'new globalThis.ForgetfulWeakMap'],
  ['const over = new Set', 'const over = new globalThis.ForgetfulSet'],
];

/** So must what a pane remembers of its own writes (`over` of applyJournal.ts): the next test is another pane. */
class ForgetfulSet extends Set {
  #epoch = ForgetfulWeakMap.epoch;
  #now() {
    if (this.#epoch !== ForgetfulWeakMap.epoch) super.clear();
    this.#epoch = ForgetfulWeakMap.epoch;
  }
  add(value) {
    this.#now();
    return super.add(value);
  }
  has(value) {
    this.#now();
    return super.has(value);
  }
  [Symbol.iterator]() {
    this.#now();
    return super[Symbol.iterator]();
  }
}

async function bundle(files) {
  if (existsSync(DONE)) return;
  const input = Object.fromEntries([...files, SETUP].map((path) => [slug(path), resolve(path)]));
  await build({
    configFile: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'forgetful-caches',
        enforce: 'pre',
        resolveId: (id) => (id in INSTEAD ? { id: INSTEAD[id], external: true } : undefined),
        transform: (code, id) =>
          id.includes('/src/') && FORGETFUL.some(([from]) => code.includes(from))
            ? FORGETFUL.reduce((changed, [from, to]) => changed.replaceAll(from, to), code)
            : undefined,
      },
    ],
    build: {
      ssr: true,
      outDir: BUNDLE,
      target: 'node20',
      minify: false,
      rolldownOptions: {
        input: { ...input },
        output: { entryFileNames: '[name].mjs', chunkFileNames: 'chunk-[hash].mjs' },
      },
    },
  });
  writeFileSync(DONE, '');
}

class InProcessRunner {
  #ns = (globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {});
  #harness;

  /**
   * Modules load once, so a mutant in code that runs only while loading can't be tried: `ignoreStatic` leaves those
   * out. Stryker also asks for a reload for code that runs both while loading and later, which needs none here.
   */
  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    Object.assign(globalThis, { ForgetfulWeakMap, ForgetfulSet });
    const files = testFiles();
    await bundle(files);
    this.#harness = await import(pathToFileURL(HARNESS).href);
  }

  async #load() {
    if (this.#harness.collected().length > 0) return;
    const loadBundled = (path) => import(pathToFileURL(resolve(BUNDLE, `${slug(path)}.mjs`)).href);
    await loadBundled(SETUP);
    for (const path of testFiles()) await this.#harness.collect(path, () => loadBundled(path));
  }

  async #run(tests, stopAtFailure, onCost) {
    const results = [];
    let begun;
    await this.#harness.run(
      tests,
      (test) => {
        ForgetfulWeakMap.epoch += 1;
        this.#ns.currentTestId = test.id;
        begun = process.cpuUsage();
      },
      (test, failure, timeSpentMs) => {
        const { user, system } = process.cpuUsage(begun);
        onCost?.(test.id, (user + system) / 1000);
        const told = { id: test.id, name: test.full, fileName: resolve(test.file), timeSpentMs };
        results.push(
          failure === undefined
            ? { ...told, status: 0 }
            : { ...told, status: 1, failureMessage: failure.stack ?? failure.message },
        );
        return !(stopAtFailure && failure !== undefined);
      },
    );
    this.#ns.currentTestId = undefined;
    return results;
  }

  async dryRun() {
    this.#ns.activeMutant = undefined;
    try {
      await this.#load();
    } catch (error) {
      return { status: 'error', errorMessage: String(error.stack ?? error) };
    }
    const timeless = this.#harness.collected().filter((test) => !OF_SPEED.test(test.full));
    const costs = [];
    const tests = await this.#run(timeless, false, (id, cost) => costs.push([id, cost]));
    writeFileSync(COSTS, JSON.stringify(costs));
    return { status: 'complete', tests, mutantCoverage: this.#ns.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, disableBail, mutantActivation, sandboxFileName }) {
    this.#ns.hitLimit = hitLimit;
    this.#ns.hitCount = hitLimit === undefined ? undefined : 0;
    if (mutantActivation === 'static') return { status: 'error', errorMessage: 'set ignoreStatic' };
    this.#ns.activeMutant = undefined;
    await this.#load();
    this.#ns.activeMutant = activeMutant.id;
    const wanted = testFilter && new Set(testFilter);
    const cost = new Map(JSON.parse(readFileSync(COSTS, 'utf8')));
    const own = (test) => isNamedFor(test.file, sandboxFileName);
    let left = MOST;
    const fits = (test) => {
      const price = cost.get(test.id) / (own(test) ? 4 : 1);
      if (price > left) return false;
      left -= price;
      return true;
    };
    const shortest = (a, b) => cost.get(a.id) - cost.get(b.id);
    const covering = this.#harness.collected().filter((test) => wanted?.has(test.id) ?? true);
    const chosen = [
      ...covering.filter(own).sort(shortest),
      ...covering.filter((t) => !own(t)).sort(shortest),
    ];
    // a short test of another file may come before a long one of its own
    const rank = (test) => (own(test) ? 0 : 100) + cost.get(test.id);
    const tests = chosen.filter(fits).sort((a, b) => rank(a) - rank(b));
    const results = await this.#run(tests, !disableBail);
    this.#ns.activeMutant = undefined;
    if (hitLimit !== undefined && this.#ns.hitCount > hitLimit)
      return { status: 'timeout', reason: 'hit limit' };
    const failed = results.filter((result) => result.status === 1);
    if (failed.length === 0) return { status: 'survived', nrOfTests: results.length };
    return {
      status: 'killed',
      killedBy: failed.map((result) => result.id),
      failureMessage: failed[0].failureMessage,
      nrOfTests: results.length,
    };
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'in-process', InProcessRunner)];
