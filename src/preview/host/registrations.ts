/** Which events the add-in listens to: kinds as on the wire (`DataChanged`), targets by object id or `Workbook`. */
export class Registrations {
  private readonly counts = new Map<string, number>();

  set(kind: string, target: string, on: boolean): void {
    const key = `${kind}|${target}`;
    const count = (this.counts.get(key) ?? 0) + (on ? 1 : -1);
    if (count > 0) this.counts.set(key, count);
    else this.counts.delete(key);
  }

  has(kind: string, target: string): boolean {
    return this.counts.has(`${kind}|${target}`);
  }

  get size(): number {
    return this.counts.size;
  }
}
