/** Errors as Excel codes them. */
import { ModelError } from '../model/index.ts';

const STATUS: Readonly<Record<string, number>> = {
  AccessDenied: 403,
  ApiNotFound: 404,
  GeneralException: 500,
  InvalidArgument: 400,
  InvalidOperation: 400,
  InvalidOperationInCellEditMode: 400,
  InvalidReference: 400,
  ItemAlreadyExists: 409,
  ItemNotFound: 404,
  RangeExceedsLimit: 400,
  RequestPayloadSizeLimitExceeded: 400,
  ResponsePayloadSizeLimitExceeded: 400,
};

const MESSAGES: Readonly<Record<string, string>> = {
  AccessDenied: 'You cannot perform the requested operation.',
  InvalidArgument: 'The argument is invalid or missing or has an incorrect format.',
  InvalidOperationInCellEditMode: 'Excel is in cell-editing mode. Please exit the edit mode and try again.',
  ItemNotFound: "The requested resource doesn't exist.",
  RequestPayloadSizeLimitExceeded: 'The request payload size has exceeded the limit.',
  ResponsePayloadSizeLimitExceeded: 'The response payload size has exceeded the limit.',
};

export class HostError extends Error {
  readonly status: number;

  constructor(
    readonly code: string,
    message = MESSAGES[code] ?? code,
  ) {
    super(message);
    this.name = 'HostError';
    this.status = STATUS[code] ?? 400;
  }
}

export function fail(code: string, message?: string): never {
  throw new HostError(code, message);
}

export function badArgument(message?: string): never {
  throw new HostError('InvalidArgument', message);
}

export function apiNotFound(what: string): never {
  throw new HostError('ApiNotFound', `${what} is not available in this stand-in for Excel.`);
}

/** Anything thrown while an action ran, as an error Excel could have given. */
export function toHostError(thrown: unknown): HostError {
  if (thrown instanceof HostError) return thrown;
  if (thrown instanceof ModelError) return new HostError(thrown.code, thrown.message);
  return new HostError('GeneralException', thrown instanceof Error ? thrown.message : String(thrown));
}
