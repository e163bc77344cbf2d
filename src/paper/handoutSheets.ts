import type { Box, Pt } from '../geometry';
import { shortName } from './cleanText';
import { SOFT } from './ink';
import type { LayPage, UsablePaper } from './layPages';
import { movedBox, text } from './marks';
import type { Lettering, Mark } from './marks';
import type { Pen } from './pen';
import type { SheetSize } from './sheetSize';

const SIDE = 18;
const TOP = 18;
/** Room below the text, the page's foot included, mm. */
const BOTTOM = 24;
const FOOT = 14;

/** One page of a handout, in the frame of its usable paper. */
export interface HandoutPage {
  readonly isLandscape: boolean;
  /** Drawn one over the other; a layer with `within` shows only what lies in there. */
  readonly layers: readonly { readonly marks: readonly Mark[]; readonly within: Box | null }[];
  /** The cover has no foot. */
  readonly hasFoot: boolean;
}

export const uprightPage = (marks: readonly Mark[], hasFoot = true): HandoutPage => ({
  isLandscape: false,
  layers: [{ marks, within: null }],
  hasFoot,
});

export const layPlanPage = ({ isLandscape, under, pieces, within, marks }: LayPage): HandoutPage => ({
  isLandscape,
  layers: [
    { marks: under, within: null },
    { marks: pieces, within },
    { marks, within: null },
  ],
  hasFoot: true,
});

/** The paper that a handout may use, held either way. */
export const usablePaper = ({ width, height }: SheetSize): UsablePaper => ({
  portrait: { width: width - 2 * SIDE, height: height - TOP - BOTTOM },
  landscape: { width: height - 2 * SIDE, height: width - TOP - BOTTOM },
});

/** Draw pages with their feet. */
export function drawPages(pen: Pen, sheet: SheetSize, name: string, pages: readonly HandoutPage[]): void {
  pages.forEach(({ isLandscape, layers, hasFoot }, i) => {
    const [width, height] = isLandscape ? [sheet.height, sheet.width] : [sheet.width, sheet.height];
    pen.page(width, height);
    const by: Pt = [SIDE, TOP];
    for (const { marks, within } of layers)
      if (marks.length > 0) pen.draw(marks, by, within ? movedBox(within, by) : undefined);
    if (hasFoot) pen.draw(foot(pen.lettering, name, width, height - FOOT, `${i + 1} of ${pages.length}`));
  });
}

function foot(lettering: Lettering, name: string, width: number, y: number, page: string): Mark[] {
  const style = { size: 2.7, colour: SOFT };
  return [
    text(lettering, shortName(name), [SIDE, y], style),
    text(lettering, page, [width - SIDE, y], { ...style, align: 'right' }),
  ];
}
