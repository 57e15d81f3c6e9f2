/**
 * Tells when somebody else changed the workbook: what was read is then out of date. Our own writes are left out,
 * since whoever wrote reads again anyway.
 */
import { runExcel } from './excelRun.ts';

/** Calls back after each change of cells that is not our own; the result stops it. */
export async function watchChanges(onChange: () => void): Promise<() => Promise<void>> {
  const handle = await runExcel(async (context) => {
    const added = context.workbook.worksheets.onChanged.add((event) => {
      if (event.triggerSource !== 'ThisLocalAddin') onChange();
      return Promise.resolve();
    });
    await context.sync();
    return added;
  });
  return async () => {
    await Excel.run(handle.context, async (context) => {
      handle.remove();
      await context.sync();
    });
  };
}
