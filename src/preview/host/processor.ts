/** Runs one request: resolves its object paths and performs its actions in order, up to the first failure. */
import type { Book } from './book.ts';
import { badArgument, fail, toHostError } from './error.ts';
import { HostObject, callMember, readMember, writeMember } from './object.ts';
import { InertService } from './objects/inert.ts';
import { RangeObject } from './objects/range.ts';
import {
  ACTION,
  PATH,
  type Action,
  type ArgumentInfo,
  type ObjectPath,
  type RequestBody,
  type ResponseBody,
} from './protocol.ts';
import { query } from './query.ts';
import type { Registrations } from './registrations.ts';
import { update } from './update.ts';

export interface Session {
  readonly book: Book;
  readonly root: HostObject;
  /** Objects office.js keeps hold of between requests, by reference id. */
  readonly kept: Map<string, HostObject>;
  readonly registrations: Registrations;
  nextReference: number;
}

/** `_RegisterDataChangedEvent`, `_UnregisterEventMoved`. */
const EVENT_CALL = /^_(Un)?[Rr]egister(?:(\w+)Event|Event(\w+))$/;

export class Processor {
  private readonly objects = new Map<number, HostObject | null>();
  private readonly references = new Map<number, string>();

  constructor(
    private readonly session: Session,
    private readonly body: RequestBody,
  ) {}

  /** `settle` is awaited before values are read; `limit` stops after so many actions (for tests). */
  async run(settle: () => Promise<void>, limit = Infinity): Promise<ResponseBody> {
    const results: ResponseBody['Results'] = [];
    const traces: number[] = [];
    for (const [index, action] of this.body.Actions.entries()) {
      if (index >= limit) break;
      if (action.ActionType === ACTION.trace) {
        traces.push(action.Id);
        results.push({ ActionId: action.Id, Value: null });
        continue;
      }
      try {
        if (action.ActionType === ACTION.query || action.ActionType === ACTION.queryAsJson) await settle();
        results.push({ ActionId: action.Id, Value: this.act(action) ?? null });
      } catch (thrown) {
        const error = toHostError(thrown);
        const path = this.body.ObjectPaths[action.ObjectPathId];
        return {
          Results: results,
          TraceIds: traces,
          Error: {
            Code: error.code,
            Message: error.message,
            HttpStatusCode: error.status,
            Location: `${path?.Name ?? ''}.${action.Name}`,
            ActionIndex: index,
          },
        };
      }
    }
    return { Results: results, TraceIds: traces };
  }

  private act(action: Action): unknown {
    const object = this.resolve(action.ObjectPathId);
    switch (action.ActionType) {
      case ACTION.instantiate:
        return this.identity(object, action.ObjectPathId);
      case ACTION.query:
      case ACTION.queryAsJson:
        return query(object, action.QueryInfo);
      case ACTION.ensureUnchanged:
        return null;
    }
    if (object === null) {
      return action.Name === '_KeepReference'
        ? null
        : fail('InvalidArgument', 'The object is a null object.');
    }
    switch (action.ActionType) {
      case ACTION.method:
        return this.method(object, action);
      case ACTION.setProperty:
        writeMember(object, action.Name, this.args(action.ArgumentInfo)[0]);
        return null;
      case ACTION.update:
        update(object, action.ObjectState ?? {});
        return null;
      default:
        return fail('ApiNotFound', `Actions of type ${String(action.ActionType)} are not available.`);
    }
  }

  private method(object: HostObject, action: Action): unknown {
    const { Name: name } = action;
    if (name === '_KeepReference') {
      const id = `R${String(this.session.nextReference++)}`;
      this.session.kept.set(id, object);
      this.references.set(action.ObjectPathId, id);
      if (object instanceof RangeObject) this.session.book.live.add(object);
      return null;
    }
    const args = this.args(action.ArgumentInfo);
    if (name === '_RemoveReference') {
      const kept = this.session.kept.get(String(args[0]));
      if (kept instanceof RangeObject) this.session.book.live.delete(kept);
      this.session.kept.delete(String(args[0]));
      return null;
    }
    const event = EVENT_CALL.exec(name);
    if (event) {
      const [prefix, target] = object.eventTarget();
      this.session.registrations.set(prefix + (event[2] ?? event[3] ?? ''), target, event[1] === undefined);
      return null;
    }
    const value = callMember(object, name, args);
    return value instanceof HostObject ? value.identity() : value;
  }

  private identity(object: HostObject | null, pathId: number): unknown {
    if (object === null) return null;
    const reference = this.references.get(pathId);
    return { ...object.identity(), ...(reference === undefined ? {} : { _ReferenceId: reference }) };
  }

  private resolve(pathId: number): HostObject | null {
    const known = this.objects.get(pathId);
    if (known !== undefined) return known;
    const made = this.make(this.body.ObjectPaths[pathId] ?? fail('InvalidObjectPath'));
    this.objects.set(pathId, made);
    if (made instanceof RangeObject) this.session.book.live.add(made);
    return made;
  }

  private make(path: ObjectPath): HostObject | null {
    switch (path.ObjectPathType) {
      case PATH.root:
        return this.session.root;
      case PATH.nothing:
        return null;
      case PATH.service:
        return new InertService(path.Name);
      case PATH.reference:
        return (
          this.session.kept.get(path.Name) ??
          fail('InvalidReference', 'This reference is not valid any more.')
        );
    }
    const parent = this.resolve(path.ParentObjectPathId ?? 0);
    if (parent === null) return null;
    const value =
      path.ObjectPathType === PATH.method
        ? callMember(parent, path.Name, this.args(path.ArgumentInfo))
        : path.ObjectPathType === PATH.property
          ? readMember(parent, path.Name)
          : callMember(parent, 'Indexer', this.args(path.ArgumentInfo));
    if (value === null || value instanceof HostObject) return value;
    return fail('GeneralException', `${path.Name} is not an object.`);
  }

  private args(info: ArgumentInfo | undefined): unknown[] {
    const ids = info?.ReferencedObjectPathIds;
    return (info?.Arguments ?? []).map((value, i) => {
      const id = ids?.[i];
      if (Array.isArray(id)) {
        if (!Array.isArray(value)) return badArgument();
        return value.map((item: unknown, j) => (id[j] ? this.resolve(id[j]) : item));
      }
      return id ? this.resolve(id) : value;
    });
  }

  /** Lets go of the ranges that only this request used. */
  release(): void {
    const kept = new Set(this.session.kept.values());
    for (const object of this.objects.values()) {
      if (object instanceof RangeObject && !kept.has(object)) this.session.book.live.delete(object);
    }
  }
}
