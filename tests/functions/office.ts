/**
 * The part of Excel's custom functions runtime that functions meet while they run, for tests in Node: errors with a
 * code and a message, and the register of functions.
 */
class CustomFunctionError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

export const associated = new Map<string, unknown>();

Object.assign(globalThis, {
  CustomFunctions: {
    Error: CustomFunctionError,
    ErrorCode: { invalidValue: '#VALUE!', notAvailable: '#N/A', invalidReference: '#REF!' },
    associate: (id: string, run: unknown): void => {
      associated.set(id, run);
    },
  },
});

/** The sentence that a call is refused with; fails where it isn't refused. */
export function refusal(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (error instanceof CustomFunctionError && error.code === '#VALUE!') return error.message ?? '';
    throw error;
  }
  throw new Error('the call was not refused');
}

/** An error cell as Excel hands it over. */
export const errorCell = (): unknown => new CustomFunctionError('#REF!');
