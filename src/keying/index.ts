/** What the other rooms may use. Explicit, so that a change of it is seen. */

// lengths, results, specs, bittings
export { ok, err, type Result } from './result.ts';
export {
  add,
  formatLength,
  formatNumber,
  inches,
  lengthOf,
  millimetres,
  parseLength,
  subtract,
  times,
  toUnit,
  UNITS,
  type Length,
  type LengthFault,
  type Unit,
} from './units.ts';
export {
  defaultStep,
  DEFAULT_TOLERANCE,
  evenCentres,
  GAUGES,
  increment,
  LEAST_POSITIONS,
  makeSpecification,
  MOST_DEPTHS,
  MOST_POSITIONS,
  ORDERS,
  positionOfSymbol,
  positions,
  sortDepths,
  THINNEST_MASTER_PIN,
  type CoreStack,
  type Depth,
  type Gauge,
  type Order,
  type Specification,
  type SpecificationDraft,
  type SpecificationFault,
} from './specification.ts';
export {
  bittingOf,
  formatBitting,
  packBitting,
  parseBitting,
  reverseBitting,
  unpackBitting,
  type Bitting,
  type BittingFault,
} from './bitting.ts';
export { FROM_MEMORY, STARTER_SPECS, starterSpec } from './starters.ts';
export {
  foldName,
  readSpecTable,
  SPEC_COLUMNS,
  specTableRow,
  type SpecCellFault,
  type SpecColumn,
  type SpecTable,
  type SpecTableFault,
  type SpecTableRow,
} from './specTable.ts';
export { formatDepthSet, parseDepthSet, type ChamberFault } from './chamberText.ts';
export { sayChamberFault, saySpecFault } from './specWording.ts';

// cuts, geometry, decoding
export {
  centreAt,
  cutCentre,
  cutCentres,
  cutsFromStop,
  fromStopOrder,
  inCodeOrder,
  rootDepths,
  type Cut,
} from './cuts.ts';
export {
  cutterFindings,
  cutterOf,
  EATEN_LIMIT,
  eatenFlat,
  geometricMacs,
  interferences,
  neverRisesToTip,
  publishedMacs,
  wideningPasses,
  type Cutter,
  type Interference,
  type Widening,
} from './geometry.ts';
export { bladeHeightAt, bladeOutline, bladeTop, type OutlineOptions, type OutlinePoint } from './outline.ts';
export { decodeReadings, type DecodedCut, type Decoding } from './decode.ts';

// rules and counts
export {
  checkBitting,
  DEFAULT_RULES,
  isUsable,
  NO_RULES,
  notChecked,
  RULE_NAMES,
  type BittingContext,
  type NamedBitting,
  type RuleName,
  type Rules,
} from './rules.ts';
export { checkBittings, findDuplicates, findNearPairs, type NearPair } from './bittingList.ts';
export { nearMissOf, nearMissOfKey, type NearMiss } from './nearMiss.ts';
export { EN1303, gradeLimits, gradeReached, GRADES, type Grade, type GradeLimits } from './en1303.ts';
export { countWithinMacs, countWithinMacsOf } from './count.ts';

// lists from elsewhere
export { findDelimiter, splitPasted, type Delimiter, type PastedRows } from './importText.ts';
export {
  canonicalCode,
  readCode,
  shownText,
  type CodeReading,
  type DateCell,
  type ImportCell,
  type ImportNote,
  type ReadingOptions,
} from './importCode.ts';
export { COLUMN_ROLES, guessColumns, type ColumnRole, type ColumnsGuess } from './importColumns.ts';
export { guessOrder, guessSpecs, type OrderGuess, type SpecGuess, type Sureness } from './importSpec.ts';
export { readImport, rowName, type ImportInput, type ImportRow } from './importRows.ts';
export { checkList, type KnownKeys, type ListInput, type ListReport } from './importCheck.ts';
export { judgeReadings, type JudgedCut, type Judgement } from './judge.ts';
export { sayImportNote, sayJudgement, sayReading } from './importWording.ts';

export { barsCutting, cuttingLines, type CuttingLine } from './cutting.ts';
export { fitSpacing, type SpacingFit } from './fitSpacing.ts';
export { fitSpecs, type KeyReadings, type SpecFit } from './fitSpecs.ts';

// the shop's shelf
export {
  blanksFor,
  cutterFits,
  setupFor,
  type BlankFit,
  type CutterFit,
  type ShopBlank,
  type ShopCutter,
  type ShopSetup,
  enteringOf,
} from './shop.ts';
export { sayCutterFit, sayPasses } from './shopWording.ts';
export {
  kitList,
  kitStack,
  PIN_KINDS,
  shortages,
  type KitCount,
  type KitPin,
  type KitStack,
  type PinKind,
  type ShopPin,
} from './pinKit.ts';

// key symbols
export {
  changeSymbol,
  compareKeySymbols,
  formatKeySymbol,
  grandSymbol,
  levelOfSymbol,
  masterSymbol,
  nextSymbol,
  parentSymbol,
  parseKeySymbol,
  sortKeySymbols,
  topSymbol,
  type HierarchySymbol,
  type KeySymbol,
  type SymbolFault,
  type SymbolNote,
  type SymbolOptions,
  type SystemLevels,
} from './symbol.ts';

// cylinders and pins
export {
  incidentalBittings,
  operates,
  operatingCount,
  operatingCountCuttable,
  pinnedFor,
  whyNotOperates,
  type FailingChamber,
} from './cylinder.ts';
export {
  bottomPinLength,
  isThin,
  nearestPin,
  pinStack,
  type Pin,
  type PinStack,
  type ThinPin,
} from './pinning.ts';
export {
  controlChoices,
  controlIsIncidental,
  coreFaults,
  coreStack,
  worksControlLine,
  type CoreFault,
  type CorePinStack,
} from './core.ts';

// master keying
export {
  arrayFaults,
  defaultArray,
  theoreticalChanges,
  type ArrayFault,
  type ArrayOptions,
  type KeyBittingArray,
} from './array.ts';
export {
  CHANGE_ORDERS,
  inOrder,
  rotatingConstantChanges,
  rotatingSpace,
  scatterOf,
  totalSpace,
  type ChangeOrder,
  type ChangeSpace,
  type ProgressingPosition,
  type Progression,
} from './progression.ts';
export { levelChanges, levelsDealt, type Deal } from './deal.ts';
export {
  evenTree,
  type EvenTree,
  type GrandRequest,
  type MasterRequest,
  type SystemRequest,
} from './systemRequest.ts';
export { capacity, type Capacity, type CapacityFigures, type RuleCost, type Spread } from './capacity.ts';
export type { CapacityProblem } from './capacityProblem.ts';
export { generateSystem, type GenerateResult } from './hierarchy.ts';
export {
  auditSystem,
  type AuditCylinder,
  type AuditInput,
  type AuditKey,
  type AuditOptions,
  type AuditReport,
  type CylinderCount,
} from './audit.ts';
export { masterExposure } from './exposure.ts';
export { carries, FULL_REACH, reachOf, type Reach } from './blankReach.ts';
export { entersKeyway, foldKeyway, shareKeyway, type Entering } from './keyways.ts';
export { auditInputOf, intendedByHierarchy, intendedByMarks, type Mark } from './intended.ts';

// findings and their words
export {
  severityOf,
  type BittingFinding,
  type CutFinding,
  type Finding,
  type Severity,
  type SystemFinding,
} from './findings.ts';
export { sayAll, sayGroups, type SaidGroup } from './sayAll.ts';
export { ruleReason, ruleTitle, say } from './wording.ts';

// the shop's schedule
export { checkSchedule, type ScheduleAgainst, type ScheduleKey } from './scheduleCheck.ts';
export { findSchedule, type ScheduleColumns } from './scheduleColumns.ts';
export { scheduleSeverity, type ScheduleFinding, type ScheduleFix } from './scheduleFindings.ts';
export { readLines, type ScheduleLine, type ScheduleLines } from './scheduleRead.ts';
export { levelsOfSymbols, tidySymbol } from './scheduleSymbol.ts';
export { scheduleTotals, stampingOf, type ScheduleTotals } from './scheduleTotals.ts';
export { sayScheduleFinding } from './scheduleWording.ts';
export { givesAway, secretsOf, type Secrets } from './secrecy.ts';
