import type { LayPlan, WidthRow } from '../fabric';
import type { Garment } from '../garment';
import type { ColourId, PaperSize } from '../pattern';
import { stack, paragraph } from './block';
import { heading, sentences } from './coverSheet';
import { cutListPages } from './cutList';
import { Flow } from './flow';
import type { PaperFonts } from './fonts';
import { coverPage, keyPage } from './handoutCover';
import { drawPages, layPlanPage, uprightPage, usablePaper } from './handoutSheets';
import { laysOnPaper } from './layOnPaper';
import { layPages } from './layPages';
import type { Lettering } from './marks';
import { openPen } from './pen';
import { sewingPages } from './sewingPages';
import { handoutSize } from './sheetSize';
import { shoppingPages } from './shoppingPages';
import { CAUTIONS } from './wording';

export interface HandoutOptions {
  /** A4 or Letter; for other papers the nearer of the two. Default: the design's own paper. */
  readonly paper?: PaperSize;
  readonly fonts: PaperFonts;
  /** Tables over the usual widths, of cloths for which they were worked out. */
  readonly widthTables?: ReadonlyMap<ColourId, readonly WidthRow[]>;
}

/**
 * A handout to sew from: cover, key, cut list, what to buy, lay plans to scale, sewing order with pictures, cautions.
 * A table row or a step is never cut by a page's end. Same garment, plans and options, same bytes.
 * @param layPlans of what is bought and of one's own cloth; a colour without is listed as such
 * @throws RangeError for an unknown paper
 */
export async function handoutPdf(
  garment: Garment,
  layPlans: readonly LayPlan[],
  options: HandoutOptions,
): Promise<Uint8Array> {
  const sheet = handoutSize(options.paper ?? garment.design.paper.size, garment.design.units);
  const pen = await openPen(options.fonts, garment.design.name);
  const { lettering } = pen;
  const usable = usablePaper(sheet);
  const { width, height } = usable.portrait;
  const before = new Flow(width, height);
  coverPage(before, lettering, garment);
  keyPage(before, lettering, garment);
  cutListPages(before, lettering, garment);
  const lays = laysOnPaper(garment, layPlans).map((lay) => ({
    plan: lay.plan,
    pages: layPages(lettering, garment, lay, usable),
  }));
  const shopping = shoppingPages(lettering, garment, layPlans, {
    width,
    height,
    pagesBefore: before.pages.length,
    lays,
    widthTables: options.widthTables ?? new Map(),
  });
  const after = new Flow(width, height);
  sewingPages(after, lettering, garment);
  cautionPage(after, lettering);
  drawPages(pen, sheet, garment.design.name, [
    ...before.pages.map((marks, i) => uprightPage(marks, i > 0)),
    ...shopping.map((marks) => uprightPage(marks)),
    ...lays.flatMap(({ pages }) => pages.map(layPlanPage)),
    ...after.pages.map((marks) => uprightPage(marks)),
  ]);
  return pen.finish();
}

function cautionPage(flow: Flow, lettering: Lettering): void {
  flow.newPage();
  const { width } = flow;
  flow.place(heading(lettering, 'Take care', width));
  for (const [title, all] of CAUTIONS) {
    const block = stack(
      [
        paragraph(lettering, title, width, { size: 3.8, bold: true }),
        sentences(lettering, all, width * 0.88, 3.5),
      ],
      2.2,
    );
    flow.place(block, 7);
  }
}
