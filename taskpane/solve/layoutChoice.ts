/** What the user chose about the layout of the grid, over what was found. */
import {
  chartOf,
  yesWords,
  type GridChart,
  type GridLayout,
  type GridSource,
} from '../../src/workbook/index.ts';

export interface LayoutChoice {
  /** Words that mean yes, as typed. */
  readonly yes: string;
  readonly headerRow?: number;
  readonly cylinder?: number;
  /** −1: none. */
  readonly door?: number;
}

export const FOUND: LayoutChoice = { yes: '' };

/** The grid as the choice reads it. */
export function readChart(source: GridSource, choice: LayoutChoice): GridChart | undefined {
  const yes = yesWords(choice.yes);
  const found = chartOf(source, {
    yes,
    ...(choice.headerRow !== undefined && { headerRow: choice.headerRow }),
  });
  if (!found || (choice.cylinder === undefined && choice.door === undefined)) return found;
  const { door: foundDoor, ...rest } = found.layout;
  const door = choice.door ?? foundDoor;
  const cylinder = choice.cylinder ?? rest.cylinder;
  const layout: GridLayout = {
    ...rest,
    cylinder,
    keys: rest.keys.filter((c) => c !== cylinder && c !== door),
    ...(door !== undefined && door >= 0 && { door }),
  };
  return chartOf(source, { yes, layout });
}

/** Whether it says what it shows: cells that can't be read would make another grid of it. */
export const isSound = (chart: GridChart | undefined): chart is GridChart =>
  chart !== undefined && chart.keys.length > 0 && chart.problems.every((p) => p.severity !== 'fault');
