/** The foot of a printed page. */
import { explain } from './excelErrors.ts';
import type { PageFoot } from './plan.ts';

/** In a footer an ampersand starts a code, so that of a text is doubled. */
export function setFoot(page: Excel.PageLayout, { left, right }: PageFoot): void {
  const plain = (text: string): string => text.replaceAll('&', '&&');
  page.zoom = { horizontalFitToPages: 1 };
  const footer = page.headersFooters.defaultForAllPages;
  footer.leftFooter = plain(left);
  footer.centerFooter = 'Page &P of &N';
  footer.rightFooter = plain(right);
}

/**
 * Brings the foot of a sheet up to date. A computer without a printer refuses, which is no reason to stop; a request
 * that failed in passing is made once more, so that a report that is taken back shows its old revision again.
 */
export async function changeFoot(
  context: Excel.RequestContext,
  sheet: string,
  foot: PageFoot,
): Promise<void> {
  if (!(await tryFoot(context, sheet, foot))) await tryFoot(context, sheet, foot);
}

async function tryFoot(context: Excel.RequestContext, sheet: string, foot: PageFoot): Promise<boolean> {
  try {
    setFoot(context.workbook.worksheets.getItem(sheet).pageLayout, foot);
    await context.sync();
    return true;
  } catch (error) {
    explain(error);
    return false;
  }
}
