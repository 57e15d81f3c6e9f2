/** What can become of a request, and a clock that tells at once when an answer is never to come. */
import { KNOWN_CODES } from '../../src/workbook/excelErrors.ts';
import { setPatience } from '../../src/workbook/excelRun.ts';
import type { Host } from '../../src/preview/host/index.ts';

/** Codes of our own are no codes of Excel's. */
const CODES = KNOWN_CODES.filter((code) => !['NoCells', 'NoAnswer'].includes(code));

type Fault = Exclude<ReturnType<NonNullable<Host['intercept']>>, 'pass'>;

let turn = 0;
const nextCode = (): string => CODES[turn++ % CODES.length]!;

/** Each makes a fault; codes go round, so that all of them are met. */
export const FAULT_KINDS: Readonly<Record<string, () => Fault>> = {
  'refused at once': () => ({ error: nextCode() }),
  'refused after its first action': () => ({ error: nextCode(), afterActions: 1 }),
  'refused after all its actions': () => ({ error: nextCode(), afterActions: Infinity }),
  'too large to be sent': () => ({ refuse: 'RequestPayloadSizeLimitExceeded' }),
  'too large to be answered': () => ({ refuse: 'ResponsePayloadSizeLimitExceeded', done: true }),
  'carried out, its answer lost': () => 'mute',
  lost: () => 'drop',
  delayed: () => ({ delay: 2 }),
  'delayed beyond all patience': () => ({ delay: 3 }),
};

/** Of the timers that wait when an answer is known not to come, each is called: nobody waits a minute in a test. */
const waiting = new Set<() => void>();

export function installClock(): void {
  setPatience({
    after: (_, call) => {
      waiting.add(call);
      return () => waiting.delete(call);
    },
  });
}

/** The time of every request that still waits is over. */
export function runOut(): void {
  for (const call of [...waiting]) {
    waiting.delete(call);
    call();
  }
}

/** Does this to the request of that number, counted from now; tells whether there was one. */
export function failRequest(host: Host, number: number, kind: string): () => boolean {
  const first = host.requestCount;
  const fault = FAULT_KINDS[kind]!();
  let met = false;
  host.intercept = (index) => {
    if (index - first !== number) return 'pass';
    met = true;
    if (kind === 'delayed beyond all patience') runOut();
    // the request is carried out in this turn, where it is
    else if (fault === 'mute' || fault === 'drop') setImmediate(() => setImmediate(runOut));
    return fault;
  };
  return () => {
    host.intercept = null;
    return met;
  };
}

/** Something to do stands at the front of a sentence or of a part of it. */
const VERBS =
  /(?:^|[.:;,)]\s+|\b(?:or|and|then)\s+)(?:add|change|check|choose|clear|click|close|correct|delete|finish|free|give|leave|look|make|mark|move|open|pick|press|put|read|save|see|select|shorten|supply|switch|take|try|type|unmerge|update|wait|write)\b/iu;

/** What is wrong with a message to the user; undefined where it is a clear sentence. */
export function wrongWithSentence(sentence: string): string | undefined {
  if (!/^[“\p{Lu}].*[.!?)]$/su.test(sentence)) return `no whole sentence: ${sentence}`;
  if (CODES.some((code) => sentence.includes(code))) return `has a code in it: ${sentence}`;
  if (/undefined|null|NaN|\[object|Error:/.test(sentence)) return `has an inner word in it: ${sentence}`;
  if (!VERBS.test(sentence)) return `says nothing to do: ${sentence}`;
  return undefined;
}
