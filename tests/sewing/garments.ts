/** Whole garments for the tests of the sewing order: bodice, sleeve, centre seams, bands. Invented. */
import type { Pt } from '../../src/geometry';
import { checkGarment, deriveGarment, type Garment } from '../../src/garment';
import type { Design, OrderWish, PanelLine, SewingWishes } from '../../src/pattern';
import { bodice, garmentDesign, line, sleeve } from '../neighbours/garments';

export const SLEEVE_AT: Pt = [1600, 300];
export const BACK_AT: Pt = [700, 0];

/** A front on the fold, a back of two halves with a centre seam, a pair of sleeves. */
export const shirt = (lines: readonly PanelLine[] = [], over: Partial<Design> = {}): Design =>
  garmentDesign(
    [bodice('front'), bodice('back', { at: BACK_AT }, { onFold: false }), sleeve(SLEEVE_AT)],
    lines,
    over,
  );

export const wanting = (design: Design, sewing: Partial<SewingWishes>): Design => ({
  ...design,
  sewing: { ...design.sewing, ...sewing },
});

export const wish = (earlier: string, later: string): OrderWish => ({ earlier, later });

/** A level line all across a front on the fold (half width 240 to 250). */
export const frontLine = (id: string, y: number): PanelLine =>
  line(id, 'front', [
    [0, y],
    [260, y],
  ]);
export const backLine = (id: string, y: number): PanelLine =>
  line(id, 'back', [
    [BACK_AT[0], y],
    [BACK_AT[0] + 260, y],
  ]);
export const sleeveLine = (id: string, y: number): PanelLine =>
  line(id, 'sleeve', [
    [SLEEVE_AT[0] - 170, SLEEVE_AT[1] + y],
    [SLEEVE_AT[0] + 170, SLEEVE_AT[1] + y],
  ]);

/** The garment; its faults must be none. */
export function sewn(design: Design): { garment: Garment; faults: ReturnType<typeof checkGarment> } {
  const garment = deriveGarment(design);
  return { garment, faults: checkGarment(garment) };
}

export const keysOf = (design: Design): readonly string[] =>
  deriveGarment(design).plan.steps.map((s) => s.key);

/** Steps by number of panels: `1+2 | 3`. */
export const handsOf = ({ plan }: Garment, key: string): string => {
  const step = plan.steps.find((s) => s.key === key)!;
  return step.joins
    .map((side) =>
      side
        .map((p) => plan.numbers.get(p)!)
        .sort((a, b) => a - b)
        .join('+'),
    )
    .join(' | ');
};
