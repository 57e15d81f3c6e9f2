/** Which requirement sets the stand-in claims, for `Office.context.requirements.isSetSupported`. */
export type RequirementSets = Readonly<Record<string, string>>;

export const DEFAULT_SETS: RequirementSets = {
  ExcelApi: '1.17',
  SharedRuntime: '1.2',
  CustomFunctionsRuntime: '1.4',
  CustomFunctions: '1.9',
  DialogApi: '1.2',
  RichApiRuntime: '1.2',
  RichApiRuntimeFlag: '1.2',
};

/** `(sets, 'ExcelApi', '1.9')` → true for `ExcelApi` 1.17: versions compare part by part. */
export function isSetSupported(sets: RequirementSets, name: string, version = '1.1'): boolean {
  const key = Object.keys(sets).find((known) => known.toLowerCase() === name.toLowerCase());
  const have = key === undefined ? undefined : sets[key];
  if (have === undefined) return false;
  const [major = 0, minor = 0] = have.split('.').map(Number);
  const [wantedMajor = 0, wantedMinor = 0] = version.split('.').map(Number);
  return major > wantedMajor || (major === wantedMajor && minor >= wantedMinor);
}
