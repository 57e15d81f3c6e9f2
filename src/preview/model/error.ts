/** A refusal that Excel would give too; `code` is Excel's error code. */
export type ModelErrorCode =
  | 'InvalidArgument'
  | 'ItemNotFound'
  | 'ItemAlreadyExists'
  | 'InvalidOperation'
  | 'AccessDenied'
  | 'InvalidReference';

export class ModelError extends Error {
  constructor(
    readonly code: ModelErrorCode,
    message: string,
  ) {
    super(message);
    this.name = 'ModelError';
  }
}

/** For refusals in the middle of an expression. */
export function refuse(code: ModelErrorCode, message: string): never {
  throw new ModelError(code, message);
}
