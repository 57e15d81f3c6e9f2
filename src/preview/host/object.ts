/**
 * Objects as office.js sees them. A host object's public members bear the names of the wire (`Values`, `GetRange`);
 * everything else begins with a small letter and cannot be reached by a request.
 */
import { apiNotFound, badArgument, fail } from './error.ts';

export abstract class HostObject {
  /** What `load()` without names loads. */
  readonly scalars: readonly string[] = [];

  /** What identifies the object to office.js, where it has an identity. */
  identity(): Record<string, unknown> {
    return {};
  }

  /** Under what kind and target the events of this object are registered: `['Table', sheetId]`. */
  eventTarget(): [prefix: string, target: string] {
    const { Id: id } = this.identity();
    return ['', typeof id === 'string' ? id : 'Workbook'];
  }
}

/** A collection: items in order, found by key. */
export abstract class HostCollection<T extends HostObject> extends HostObject {
  abstract items(): T[];

  /** The item for a key (name or id), or null. */
  abstract find(key: unknown): T | null;

  get Count(): number {
    return this.items().length;
  }

  GetCount(): number {
    return this.items().length;
  }

  Indexer(key: unknown): T {
    return this.find(key) ?? fail('ItemNotFound');
  }

  GetItem(key: unknown): T {
    return this.Indexer(key);
  }

  GetItemOrNullObject(key: unknown): T | null {
    return this.find(key);
  }

  GetItemAt(index: unknown): T {
    const items = this.items();
    return (typeof index === 'number' ? items[index] : undefined) ?? badArgument();
  }
}

const WIRE_NAME = /^_?[A-Z]/;

function describe(object: HostObject): string {
  return object.constructor.name.replace(/Object$/, '');
}

function descriptor(object: HostObject, name: string): PropertyDescriptor | undefined {
  if (!WIRE_NAME.test(name)) return undefined;
  for (let at: object | null = object; at !== null; at = Object.getPrototypeOf(at) as object | null) {
    const found = Object.getOwnPropertyDescriptor(at, name);
    if (found) return found;
  }
  return undefined;
}

/** Reads a property by its wire name. */
export function readMember(object: HostObject, name: string): unknown {
  if (!descriptor(object, name)) apiNotFound(`${describe(object)}.${name}`);
  return Reflect.get(object, name);
}

export function writeMember(object: HostObject, name: string, value: unknown): void {
  const found = descriptor(object, name);
  if (!found) apiNotFound(`${describe(object)}.${name}`);
  if (!found.set) fail('InvalidOperation', `${describe(object)}.${name} can only be read.`);
  Reflect.set(object, name, value);
}

export function callMember(object: HostObject, name: string, args: readonly unknown[]): unknown {
  const member: unknown = descriptor(object, name)?.value;
  if (typeof member !== 'function') apiNotFound(`${describe(object)}.${name}`);
  return Reflect.apply(member, object, args);
}

export function pascal(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
