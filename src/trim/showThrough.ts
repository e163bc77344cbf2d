import type { PanelledPiece } from '../panels';
import { type Colour, type ColourId, contrast, luminance } from '../pattern';
import type { TrimStrip } from '../sewing';

/** Below this luminance cloth does not show through from under a lighter trim that is itself dark: such trims hide it. */
const LIGHT_TRIM = 0.4;
/** Contrast (WCAG 2, lighter over darker) at which what lies under a light trim is seen through it. Common practice, no source. */
const SEEN_THROUGH = 3;
/** Contrast of the two cloths beside a seam at which the change of shade shows as a line down a light trim. Common practice, no source. */
const SEEN_AS_LINE = 2;

/** What shows through a trim. */
export interface ShownThrough {
  readonly cloths: readonly [ColourId, ...ColourId[]];
  readonly how: 'darker' | 'two shades';
  readonly contrast: number;
}

/** Whether cloth shows through a trim of a fill: a light one over darker cloth, or over two cloths of which one is darker than the other. */
export function shownThrough(
  fill: string,
  under: readonly Pick<Colour, 'id' | 'fill'>[],
): ShownThrough | null {
  if (luminance(fill) < LIGHT_TRIM || under.length === 0) return null;
  const darkest = under.reduce((d, c) => (luminance(c.fill) < luminance(d.fill) ? c : d));
  const lightest = under.reduce((l, c) => (luminance(c.fill) > luminance(l.fill) ? c : l));
  const step = contrast(lightest.fill, darkest.fill);
  const below = luminance(darkest.fill) < luminance(fill) ? contrast(fill, darkest.fill) : 1;
  if (step >= SEEN_AS_LINE && below >= SEEN_AS_LINE)
    return { cloths: [darkest.id, lightest.id], how: 'two shades', contrast: step };
  return below >= SEEN_THROUGH ? { cloths: [darkest.id], how: 'darker', contrast: below } : null;
}

/** What shows through a strip as it lies on a piece. */
export const shownUnder = (
  { trim, panels }: TrimStrip,
  piece: PanelledPiece,
  colours: readonly Colour[],
): ShownThrough | null => {
  const under = new Set(piece.panels.filter((p) => panels.includes(p.id)).map((p) => p.colour));
  return shownThrough(
    trim.fill,
    colours.filter((c) => under.has(c.id)),
  );
};
