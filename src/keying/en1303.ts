/**
 * Key-related security grades of EN 1303:2015 (cylinders for locks), as far as they bear on bittings: the share of
 * cuts that may be equal and how many equal cuts may stand side by side. Source: the standard's table as summarised
 * in a locksmith lexicon; the standard itself was not at hand.
 */

export const GRADES = [1, 2, 3, 4, 5, 6] as const;
export type Grade = (typeof GRADES)[number];

export interface GradeLimits {
  readonly grade: Grade;
  /** Fewest effective differs. */
  readonly differs: number;
  /** Fewest movable detainers: chambers in use. */
  readonly detainers: number;
  /** Largest share of cuts of one depth, in percent. */
  readonly equalShare: number;
  /** Most cuts of one depth side by side; none = no limit. */
  readonly equalNeighbours?: number;
}

export const EN1303: readonly GradeLimits[] = [
  { grade: 1, differs: 100, detainers: 2, equalShare: 100 },
  { grade: 2, differs: 300, detainers: 3, equalShare: 70, equalNeighbours: 2 },
  { grade: 3, differs: 15_000, detainers: 5, equalShare: 60, equalNeighbours: 2 },
  { grade: 4, differs: 30_000, detainers: 5, equalShare: 60, equalNeighbours: 2 },
  { grade: 5, differs: 30_000, detainers: 6, equalShare: 60, equalNeighbours: 2 },
  { grade: 6, differs: 100_000, detainers: 6, equalShare: 50, equalNeighbours: 2 },
];

export const gradeLimits = (grade: Grade): GradeLimits => EN1303[grade - 1]!;

/**
 * The highest grade that a number of chambers and usable bittings can meet, or none. Only the key's part: a grade
 * also asks for what lies in the cylinder.
 * @example gradeReached(5, 20_000) → 3
 */
export function gradeReached(detainers: number, differs: number): Grade | undefined {
  return EN1303.findLast((row) => detainers >= row.detainers && differs >= row.differs)?.grade;
}
