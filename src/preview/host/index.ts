export { installOfficeShell, type ShellOptions } from './browser.ts';
export { HostError } from './error.ts';
export { Host, PAYLOAD_LIMIT, type Fault, type HostOptions } from './host.ts';
export type { Bridge, RequestBody, ResponseBody } from './protocol.ts';
export { DEFAULT_SETS, isSetSupported, type RequirementSets } from './requirementSets.ts';
export { followUndoGroups, type Runner } from './undoGroups.ts';
