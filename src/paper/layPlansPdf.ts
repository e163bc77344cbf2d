import type { LayPlan } from '../fabric';
import type { Garment } from '../garment';
import type { HandoutOptions } from './handoutPdf';
import { drawPages, layPlanPage, usablePaper } from './handoutSheets';
import { laysOnPaper } from './layOnPaper';
import { layPages } from './layPages';
import { openPen } from './pen';
import { handoutSize } from './sheetSize';

/**
 * The lay plans alone, to take to the table: a page each, to a plain scale. Same garment, plans and options, same bytes.
 * @param plans of what is bought and of one's own cloth, in any order
 * @throws RangeError where no plan has a piece on it, or for an unknown paper
 */
export async function layPlansPdf(
  garment: Garment,
  plans: readonly LayPlan[],
  options: HandoutOptions,
): Promise<{ readonly bytes: Uint8Array; readonly pages: number }> {
  const lays = laysOnPaper(garment, plans);
  if (lays.length === 0)
    throw new RangeError('No piece fits its cloth, so there is no lay plan to print. The red slip says why.');
  const sheet = handoutSize(options.paper ?? garment.design.paper.size, garment.design.units);
  const pen = await openPen(options.fonts, `${garment.design.name}: lay plans`);
  const pages = lays
    .flatMap((lay) => layPages(pen.lettering, garment, lay, usablePaper(sheet)))
    .map(layPlanPage);
  drawPages(pen, sheet, garment.design.name, pages);
  return { bytes: pen.finish(), pages: pages.length };
}
