/**
 * The part of Vitest's surface that our tests use, for mutation testing: the test files are bundled with this in
 * place of `vitest`, loaded once, and run again for every mutant in the same process. Vitest itself starts a worker
 * and imports everything anew for every run, which made one mutant cost seconds. The matchers are Vitest's own.
 */
import { chai, JestAsymmetricMatchers, JestChaiExpect, JestExtend } from '@vitest/expect';

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
export const expect = Object.assign((value, message) => chai.expect(value, message), chai.expect);

const MOST_TRIES = 50;

/** As `expect(get())`, tried again until it holds, half a second long. */
expect.poll = (get) =>
  new Proxy(
    {},
    {
      get:
        (_, matcher) =>
        async (...wanted) => {
          for (let tries = 1; ; tries++) {
            try {
              return expect(await get())[matcher](...wanted);
            } catch (error) {
              if (tries === MOST_TRIES) throw error;
              await new Promise((resolve) => setTimeout(resolve, 10));
            }
          }
        },
    },
  );

const newSuite = (name, parent) => ({
  name,
  parent,
  beforeAll: [],
  afterAll: [],
  beforeEach: [],
  afterEach: [],
});
const tests = [];
let suite = newSuite('', undefined);
let file = '';

/** Collects one file's tests: `load` imports it. */
export async function collect(name, load) {
  file = name;
  suite = newSuite(name, undefined);
  await load();
}

export const collected = () => tests;

export function describe(name, body) {
  suite = newSuite(name, suite);
  body();
  suite = suite.parent;
}

/** Options and time limits are passed over. */
export function it(name, ...rest) {
  const body = rest.find((each) => typeof each === 'function');
  const path = [name];
  for (let s = suite; s.parent; s = s.parent) path.unshift(s.name);
  const full = `${file} ${path.join(' > ')}`;
  const twins = tests.filter((t) => t.full === full).length;
  tests.push({ id: twins === 0 ? full : `${full} #${twins}`, full, file, suite, body });
}

/** `each` over rows; the row's number in the title keeps titles apart. */
const each =
  (register) =>
  (rows) =>
  (name, ...rest) => {
    const body = rest.find((each) => typeof each === 'function');
    rows.forEach((row, i) =>
      register(`${name} [${i}]`, () => (Array.isArray(row) ? body(...row) : body(row))),
    );
  };
describe.each = each(describe);
it.each = each(it);
export const test = it;

/** Modules are loaded once; what one remembers of its own is forgotten (see runner.mjs). */
export const vi = {
  resetModules: () => {
    globalThis.ForgetfulWeakMap.epoch += 1;
  },
};

export const beforeAll = (body) => suite.beforeAll.push(body);
export const afterAll = (body) => suite.afterAll.push(body);
export const beforeEach = (body) => suite.beforeEach.push(body);
export const afterEach = (body) => suite.afterEach.push(body);

const chainOf = (test) => {
  const chain = [];
  for (let s = test.suite; s; s = s.parent) chain.unshift(s);
  return chain;
};

/** Runs tests in the order given; `onTest` is told of each result and stops the run by answering false. */
export async function run(chosen, before, onTest) {
  const begun = new Set();
  for (const test of chosen) {
    const chain = chainOf(test);
    const started = performance.now();
    let failure;
    before(test);
    try {
      for (const s of chain) {
        if (begun.has(s)) continue;
        begun.add(s);
        for (const hook of s.beforeAll) await hook();
      }
      for (const s of chain) for (const hook of s.beforeEach) await hook();
      await test.body();
    } catch (error) {
      failure = error instanceof Error ? error : new Error(String(error));
    }
    for (const s of chain) for (const hook of s.afterEach) await hook();
    if (!onTest(test, failure, performance.now() - started)) break;
  }
  for (const s of begun) for (const hook of s.afterAll) await hook();
}
