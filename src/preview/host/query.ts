/** Answers `load`: picks properties of an object, of its items and of the objects below it. */
import { HostCollection, HostObject, pascal, readMember } from './object.ts';
import type { QueryInfo } from './protocol.ts';

export function query(object: HostObject | null, info: QueryInfo | undefined): unknown {
  const expanded = (info?.Expand ?? []).map((path) => `${path}/*`);
  return pick(object, [...(info?.Select ?? []), ...expanded], info);
}

function pick(object: HostObject | null, select: readonly string[], page?: QueryInfo): unknown {
  if (object === null) return null;
  if (object instanceof HostCollection) return pickItems(object as HostCollection<HostObject>, select, page);
  const result: Record<string, unknown> = {};
  const below = new Map<string, string[]>();
  for (const path of select.length > 0 ? select : ['*']) {
    const [head = '', ...rest] = path.split('/');
    if (head === '*' || head === '$all') {
      for (const name of object.scalars) result[pascal(name)] = readMember(object, pascal(name)) ?? null;
    } else if (rest.length > 0) {
      below.set(head, [...(below.get(head) ?? []), rest.join('/')]);
    } else {
      const value = readMember(object, pascal(head));
      if (value instanceof HostObject) below.set(head, below.get(head) ?? []);
      else result[pascal(head)] = value ?? null;
    }
  }
  for (const [head, paths] of below) {
    const value = readMember(object, pascal(head));
    result[pascal(head)] =
      value instanceof HostObject ? { ...value.identity(), ...(pick(value, paths) as object) } : null;
  }
  return result;
}

function pickItems(list: HostCollection<HostObject>, select: readonly string[], page?: QueryInfo): unknown {
  const start = page?.Skip ?? 0;
  const items = list.items().slice(start, page?.Top === undefined ? undefined : start + page.Top);
  const ofItems = select.filter((name) => name !== 'count').map((name) => name.replace(/^items\//, ''));
  const wanted = select.includes('count') && ofItems.length === 0 ? null : ofItems;
  return {
    ...(wanted
      ? { _Items: items.map((item) => ({ ...item.identity(), ...(pick(item, wanted) as object) })) }
      : {}),
    ...(select.includes('count') ? { Count: list.Count } : {}),
  };
}
