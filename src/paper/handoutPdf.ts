import type { LayPlan } from '../fabric';
import type { Garment } from '../garment';
import type { PaperSize } from '../pattern';
import { stack, paragraph } from './block';
import { shortName } from './cleanText';
import { heading, sentences } from './coverSheet';
import { cutListPages } from './cutList';
import { Flow } from './flow';
import type { PaperFonts } from './fonts';
import { coverPage, keyPage } from './handoutCover';
import { SOFT } from './ink';
import { text } from './marks';
import type { Lettering, Mark } from './marks';
import { openPen } from './pen';
import { sewingPages } from './sewingPages';
import { handoutSize } from './sheetSize';
import type { SheetSize } from './sheetSize';
import { shoppingPages } from './shoppingPages';
import { CAUTIONS } from './wording';

export interface HandoutOptions {
  /** A4 or Letter; for other papers the nearer of the two. Default: the design's own paper. */
  readonly paper?: PaperSize;
  readonly fonts: PaperFonts;
}

const SIDE = 18;
const TOP = 18;
/** Room below the text, the page's foot included, mm. */
const BOTTOM = 24;
const FOOT = 14;

/**
 * A handout to sew from: cover, key, cut list, what to buy with lay plans to scale, sewing order with pictures, cautions.
 * A table row or a step is never cut by a page's end. Same garment, plans and options, same bytes.
 * @param layPlans one per colour that has one; a colour without is listed as such
 * @throws RangeError for an unknown paper
 */
export async function handoutPdf(
  garment: Garment,
  layPlans: readonly LayPlan[],
  options: HandoutOptions,
): Promise<Uint8Array> {
  const sheet = handoutSize(options.paper ?? garment.design.paper.size, garment.design.units);
  const pen = await openPen(options.fonts, garment.design.name);
  const flow = new Flow(sheet.width - 2 * SIDE, sheet.height - TOP - BOTTOM);
  coverPage(flow, pen.lettering, garment);
  keyPage(flow, pen.lettering, garment);
  cutListPages(flow, pen.lettering, garment);
  shoppingPages(flow, pen.lettering, garment, layPlans);
  sewingPages(flow, pen.lettering, garment);
  cautionPage(flow, pen.lettering);
  const pages = flow.pages;
  pages.forEach((marks, i) => {
    pen.page(sheet.width, sheet.height);
    pen.draw(marks, [SIDE, TOP]);
    if (i > 0) pen.draw(foot(pen.lettering, garment.design.name, sheet, i + 1, pages.length));
  });
  return pen.finish();
}

function foot(lettering: Lettering, name: string, sheet: SheetSize, page: number, pages: number): Mark[] {
  const y = sheet.height - FOOT;
  const style = { size: 2.7, colour: SOFT };
  return [
    text(lettering, shortName(name), [SIDE, y], style),
    text(lettering, `${page} of ${pages}`, [sheet.width - SIDE, y], { ...style, align: 'right' }),
  ];
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
