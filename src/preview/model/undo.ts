/** Undo as inverse steps, gathered into one entry per edit or request batch. */
import type { Change } from './types.ts';

export interface UndoEntry {
  readonly label: string;
  readonly steps: readonly (() => void)[];
  readonly changes: readonly Change[];
}

const LIMIT = 100;

export class UndoStack {
  private entries: UndoEntry[] = [];
  private open: { label: string; steps: (() => void)[]; changes: Change[]; depth: number } | null = null;

  get length(): number {
    return this.entries.length;
  }

  get labels(): string[] {
    return this.entries.map((entry) => entry.label);
  }

  begin(label: string): void {
    if (this.open) this.open.depth++;
    else this.open = { label, steps: [], changes: [], depth: 1 };
  }

  end(): void {
    if (!this.open || --this.open.depth > 0) return;
    const { label, steps, changes } = this.open;
    this.open = null;
    if (steps.length === 0) return;
    this.entries.push({ label, steps, changes });
    if (this.entries.length > LIMIT) this.entries.shift();
  }

  /** Adds the way back from a change that is about to be made. */
  record(step: () => void): void {
    this.open?.steps.push(step);
  }

  note(change: Change): void {
    this.open?.changes.push(change);
  }

  /** Joins the entries above `length` into one. */
  joinFrom(length: number, label: string): void {
    const joined = this.entries.splice(length);
    if (joined.length === 0) return;
    this.entries.push({
      label,
      steps: joined.flatMap((entry) => entry.steps),
      changes: joined.flatMap((entry) => entry.changes),
    });
  }

  pop(): UndoEntry | undefined {
    return this.open ? undefined : this.entries.pop();
  }

  /** Forgets everything: after this nothing made so far can be taken back. */
  clear(): void {
    this.entries = [];
    if (this.open) this.open.steps = [];
  }
}

/** The notice that tells a view what undoing a change did; null where there is nothing to redraw. */
export function inverse(change: Change): Change {
  const origin = 'user';
  switch (change.kind) {
    case 'inserted':
      return { ...change, kind: 'deleted', origin };
    case 'deleted':
      return { ...change, kind: 'inserted', origin };
    case 'sheet': {
      const what = change.what === 'added' ? 'removed' : change.what === 'removed' ? 'added' : change.what;
      return { ...change, what, origin };
    }
    case 'table': {
      const what = change.what === 'added' ? 'removed' : change.what === 'removed' ? 'added' : change.what;
      return { ...change, what, origin };
    }
    default:
      return { ...change, origin };
  }
}
