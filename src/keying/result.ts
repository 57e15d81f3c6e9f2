/**
 * One error style for the room: a parser returns a Result, a check returns every finding, and an exception
 * means a programmer's error.
 */

export type Result<T, E> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

export const err = <E>(error: E): { readonly ok: false; readonly error: E } => ({ ok: false, error });

/** Thrown where only a mistake in our own code can lead; never for a user's input. */
export class ProgrammerError extends Error {
  override readonly name = 'ProgrammerError';
}

export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new ProgrammerError(message);
}
