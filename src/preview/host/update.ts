/** Sets many properties at once. */
import { HostObject, pascal, readMember, writeMember } from './object.ts';

/** `{ name: 'x', format: { fill: { color: 'red' } } }` onto an object and those below it. */
export function update(object: HostObject, state: Readonly<Record<string, unknown>>): void {
  for (const [key, value] of Object.entries(state)) {
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      const below = readMember(object, pascal(key));
      if (below instanceof HostObject) {
        update(below, value as Readonly<Record<string, unknown>>);
        continue;
      }
    }
    writeMember(object, pascal(key), value);
  }
}
