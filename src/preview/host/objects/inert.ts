/** Services office.js pings when it starts (add-in internals, custom functions); they answer with nothing. */
import { HostObject } from '../object.ts';
import { apiNotFound } from '../error.ts';

export class InertService extends HostObject {
  constructor(name: string) {
    super();
    if (!/^Microsoft\.(InternalService|ExcelServices)\.|CustomFunction/.test(name)) apiNotFound(name);
  }

  NotifyActionHandlerReady(): void {
    // nothing waits for it here
  }

  SetInvocationResults(): void {
    // worksheet functions are calculated by the grid, not by the add-in's runtime
  }

  _GetEnabledFeatures(): never[] {
    return [];
  }
}
