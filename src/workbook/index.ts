/** The workbook room: everything that speaks Office.js. The pane imports from here and nowhere deeper. */
export type { Box, Place } from './places.ts';
export { boxAddress, cellAddress, formatPlace, parseAddress } from './places.ts';
export type * from './reading.ts';
export type * from './plan.ts';
export type * from './outcome.ts';
export { SHEETS, TABLES, type SheetKind } from './names.ts';

export { openBook, readBook } from './readBook.ts';
export { readTarget, type TargetReading, type TargetRequest } from './target.ts';
export { isDateFormat, readCodeRows, type CodeRows } from './codeRows.ts';
export { planCutting, PROVE_FIRST, type CuttingInput } from './planCutting.ts';
export { drawsPictures, NO_PICTURES, planPicture, type PictureInput } from './planPicture.ts';
export { planShop } from './planShop.ts';
export { readShop, SHOP_TABLES, type ShopReading, type ShopTable } from './tableShop.ts';
export { knownKeys, retiredUnder } from './knownKeys.ts';
export { describePlan } from './describe.ts';
export { applyPlan, undoPlan } from './apply.ts';
export { leaveLeftover, readLeftover, takeLeftoverBack, type Leftover } from './applyLeftover.ts';
export { planNewSystem, type NewSystem, type NewSystemOptions } from './planSystem.ts';
export { planSample, sampleRequest } from './planSample.ts';
export { planFindings, type FindingsInput } from './planFindings.ts';
export { planPinning, type PinningInput } from './planPinning.ts';
export { planSpecs } from './planSpecs.ts';
export { planCheckColumn, type CheckColumn } from './planCheckColumn.ts';
export { auditInput, placesOf, type SystemAudit } from './auditInput.ts';
export { watchChanges } from './changes.ts';
export { goTo, subjectAt, watchSelection, type SelectedSubject } from './selection.ts';
export { changeSettings, readSettings, writeSettings, type BookSettings } from './settings.ts';
export {
  findSchedule,
  readSchedule,
  type ScheduleColumns,
  type ScheduleGuess,
  type ScheduleRow,
} from './schedule.ts';
export { explain, type ExcelTrouble } from './excelErrors.ts';
export {
  readScheduleSheet,
  scheduleCell,
  understand,
  type KnownColumns,
  type ScheduleReading,
  type ScheduleSheet,
} from './schedule.ts';
export { againstOf, scheduleFindingLines, type ScheduleFindingLine } from './scheduleAgainst.ts';
export { fixLines, planScheduleFixes, type ChosenFix } from './planScheduleFixes.ts';
export { planOrder, type OrderInput } from './planOrder.ts';
export { planCustomerReport, planShopReport, type CustomerReport, type ReportInput } from './planReports.ts';
export { authorisedSentence, planAuthorised, readAuthorised, type Authorised } from './tableAuthorised.ts';
export { secretsIn, secretSheets } from './secretCells.ts';
export { readQuotingSheets, type QuotingSheet } from './quotingSheets.ts';
export { applyPrivacy, planOpenUp, planPrivacy, type PrivacyPlan, type PrivacyStep } from './applyPrivacy.ts';
export { readGridSource, type GridSource } from './gridSource.ts';
export { yesWords, type GridLayout } from './gridLayout.ts';
export {
  chartOf,
  type ChartCylinder,
  type ChartKey,
  type ChartMark,
  type ChartOptions,
  type GridChart,
} from './gridChart.ts';
export {
  askedMetal,
  NO_WISH,
  operatingKeys,
  type AskedMetal,
  type MetalGround,
  type MetalWish,
} from './gridAsked.ts';
export { blindness, readExtension, type Extension } from './extension.ts';
export type { NewCylinder } from './extensionCells.ts';
export { planExtension, type ExtensionPlan } from './planExtension.ts';
export type { NamedChange } from './namedCells.ts';
export { readLedger, type LedgerReading } from './readLedger.ts';
export { planCorrection, planLedger, namesOf, type NewEntry } from './planLedger.ts';
export { planReceipt, type ReceiptInput } from './planReceipt.ts';
export { standingOn, type Standing, type SystemStanding } from './standing.ts';
export {
  answer,
  doorNames,
  peopleNames,
  planAnswer,
  QUESTIONS,
  type Answer,
  type Question,
} from './answers.ts';
export { planLostKey, type Fresh, type RecallLine } from './planLostKey.ts';
export { lostKeyChanges, type LostKeyChanges } from './lostKeyChanges.ts';
export { lostKeyDoubts, type LostKeyDoubts } from './lostKeyDoubts.ts';
export { planMends, zerosLost, type Mend } from './planMends.ts';
export { confirmedSchedule, readZones, type DoorZones } from './doorZones.ts';
export { planCrossKeying, type CrossKeying } from './planCrossKeying.ts';
export { planArray, type ArrayInput } from './planArray.ts';
export { arrayNames, levelWord, readArray, type ArrayReading, type SheetArray } from './tableArrays.ts';
export { leavesWords, planConstruction, planHandOver, type ConstructionInput } from './planConstruction.ts';
export { openConstructions, type OpenConstruction } from './tableConstruction.ts';
export { brokenFormulas, sayBroken, type BrokenFormula } from './ownFormulas.ts';
export { planRepair } from './planRepair.ts';
export { freezableTables, freezeTable, planFreeze, readFreezeSource, type Freeze } from './planFreeze.ts';
