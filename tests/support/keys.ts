/** Short ways to a starter spec and a bitting in tests; both throw where there is none. */
import { parseBitting, starterSpec, type Bitting, type Specification } from '../../src/keying/index.ts';

export function starter(name: string): Specification {
  const spec = starterSpec(name);
  if (!spec) throw new Error(`no starter ${name}`);
  return spec;
}

export function key(spec: Specification, code: string): Bitting {
  const parsed = parseBitting(spec, code);
  if (!parsed.ok) throw new Error(`${code}: ${parsed.error.map((fault) => fault.code).join()}`);
  return parsed.value;
}
