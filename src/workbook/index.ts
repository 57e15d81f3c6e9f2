/** The workbook room: everything that speaks Office.js. The pane imports from here and nowhere deeper. */
export type { Box, Place } from './places.ts';
export { boxAddress, cellAddress, formatPlace, parseAddress } from './places.ts';
export type * from './reading.ts';
export type * from './plan.ts';
export type * from './outcome.ts';
export { SHEETS, TABLES, type SheetKind } from './names.ts';

export { openBook, readBook } from './readBook.ts';
export { readTarget, type TargetReading, type TargetRequest } from './target.ts';
export { describePlan } from './describe.ts';
export { applyPlan, undoPlan } from './apply.ts';
export { planNewSystem, type NewSystem, type NewSystemOptions } from './planSystem.ts';
export { planFindings, type FindingsInput } from './planFindings.ts';
export { planPinning, type PinningInput } from './planPinning.ts';
export { planSpecs } from './planSpecs.ts';
export { planCheckColumn, type CheckColumn } from './planCheckColumn.ts';
export { auditInput, placesOf, type SystemAudit } from './auditInput.ts';
export { watchChanges } from './changes.ts';
export { goTo, subjectAt, watchSelection, type SelectedSubject } from './selection.ts';
export { readSettings, writeSettings, type BookSettings } from './settings.ts';
export {
  findSchedule,
  readSchedule,
  type ScheduleColumns,
  type ScheduleGuess,
  type ScheduleRow,
} from './schedule.ts';
export { explain, type ExcelTrouble } from './excelErrors.ts';
