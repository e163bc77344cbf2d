import { type CutPiece, halfOnFold, panelSymmetry } from '../allowance';
import { boxOfPoints, dot, flattenRing, subtract, unit } from '../geometry';
import type { Line, Pt } from '../geometry';
import { wordsOfPiece } from '../neighbours';
import type { Panel } from '../panels';
import type { Colour } from '../pattern';
import { homeOf } from './extras/withExtras';
import type { Garment } from './garment';

/** How a panel is cut from cloth: for report, labels and lists. */
export interface Cut {
  /** Pieces of cloth cut by this panel's printed piece; 0 where it is cut as the mirrored copy of its twin. */
  readonly count: number;
  /** Whether half of the copies are mirrored, or this one is a mirrored copy. */
  readonly mirrored: boolean;
  readonly onFold: boolean;
  /** Number of the panel that is its mirror image and shares its printed piece; null where there is none. */
  readonly twin: number | null;
  /** What it is cut from once more as a facing's interfacing, as often and by the same cutting line; null where it is not. */
  readonly interfacing: Colour | null;
  /** `Cut 2, one mirrored`, `Cut 1 on the fold; 1 more of fusible`. */
  readonly text: string;
}

type CutSource = Pick<Garment, 'design' | 'panels' | 'cutPieces' | 'pieceById' | 'plan'> & {
  readonly extras?: Garment | null;
};

const cutOf = ({ panels, cutPieces }: CutSource, panel: Panel): CutPiece =>
  cutPieces[panels.findIndex((p) => p.id === panel.id)]!;

/** What is printed for a panel; null where nothing is, because its twin's piece is cut for it mirrored. */
export function printedPiece(all: CutSource, panel: Panel): CutPiece | null {
  const garment = homeOf(all, panel);
  const { count, onFold } = howToCut(garment, panel);
  const cut = cutOf(garment, panel);
  if (count === 0) return null;
  return onFold ? halfOnFold(panel, cut, garment.pieceById.get(panel.piece)!.whole.piece)! : cut;
}

/** How a panel is cut from its own cloth. */
type OwnCut = Omit<Cut, 'interfacing'>;

const once = (text: string): OwnCut => ({ count: 1, mirrored: false, onFold: false, twin: null, text });

/** What a panel's interfacing is cut from: a facing's, and its own piece says so in the design of lining and facings. */
function interfacingOf(all: CutSource, panel: Panel): Colour | null {
  const { design } = all.extras?.pieceById.has(panel.piece) ? all.extras : { design: null };
  const facing = design?.facings.find((f) => f.piece === panel.piece);
  return design?.colours.find((c) => c.id === facing?.interfacing) ?? null;
}

/** Fusible cloth cut once must not come out mirrored: it is ironed on wrong side to wrong side. */
const moreWords = ({ count, mirrored, onFold, text }: OwnCut, { name }: Colour): string =>
  `${text}; ${count} more of ${name}${mirrored || onFold ? '' : ', glue side up'}`;

/** How one panel is cut, from its own cloth and from interfacing. */
export function howToCut(all: CutSource, panel: Panel): Cut {
  const own = ownCut(all, panel);
  const interfacing = own.count > 0 ? interfacingOf(all, panel) : null;
  return { ...own, interfacing, text: interfacing ? moreWords(own, interfacing) : own.text };
}

/**
 * A piece cut as a pair has all its panels cut twice, the second one mirrored. Of two panels that are mirror images across the fold the one
 * with the lower number is cut once as it is and once mirrored. A panel that is its own mirror image is cut on the fold where that is
 * wanted. Any other is cut once, and then the right side of paper and cloth must both be up, or the colours change sides on the
 * body: the wearer's side is named where the piece's name tells front from back.
 */
function ownCut(all: CutSource, panel: Panel): OwnCut {
  const garment = homeOf(all, panel);
  const whole = garment.pieceById.get(panel.piece)?.whole;
  if (whole?.piece.cutting === 'pair')
    return { count: 2, mirrored: true, onFold: false, twin: null, text: 'Cut 2, one mirrored' };
  const { twins, ownImages } = panelSymmetry(garment.design, garment.panels, garment.cutPieces);
  const twin = twins.get(panel.id);
  if (twin !== undefined) {
    const [own, other] = [panel.id, twin].map((id) => garment.plan.numbers.get(id)!);
    return own! < other!
      ? { count: 2, mirrored: true, onFold: false, twin: other!, text: 'Cut 1 and 1 mirrored' }
      : { count: 0, mirrored: true, onFold: false, twin: other!, text: `The mirrored copy of ${other}` };
  }
  if (ownImages.has(panel.id)) {
    const half = whole!.piece.foldPanels ? halfOnFold(panel, cutOf(garment, panel), whole!.piece) : null;
    return half ? { ...once('Cut 1 on the fold'), onFold: true } : once('Cut 1, whole');
  }
  const side = whole?.foldLine ? wearersSide(panel, whole.foldLine, whole.name) : null;
  return once(side === null ? 'Cut 1, right side up' : `Cut 1, right side up, ${side}`);
}

/** Panels that are cut by one printed piece: a panel and its mirror twin, where it has one. What is wanted of one holds for both. */
export function cutTogether(all: CutSource, panel: Panel): readonly Panel[] {
  const { twin } = howToCut(all, panel);
  const other = all.panels.find((p) => twin !== null && all.plan.numbers.get(p.id) === twin);
  return other ? [panel, other] : [panel];
}

/** How far a panel may reach over the fold and still lie on one side of it, mm. */
const BARELY_OVER = 1;
/** How many times as far a panel must reach on one side as on the other to be said to lie more on that side. */
const MORE = 1.5;

/**
 * Which side of the wearer a panel lies on; null where that cannot be said. Tracings show the right side of the cloth: on a front the
 * drawing's right is the wearer's left, on a back it is the wearer's right (common practice, no source).
 */
function wearersSide({ ring }: Panel, fold: Line, pieceName: string): string | null {
  const { part } = wordsOfPiece(pieceName);
  const along = unit(subtract(fold[1], fold[0]));
  const isUpright = Math.abs(along[1]) > Math.abs(along[0]);
  if ((part !== 'front' && part !== 'back') || !isUpright) return null;
  const square: Pt = along[1] > 0 ? [along[1], -along[0]] : [-along[1], along[0]];
  const reach = boxOfPoints(flattenRing(ring).map((p) => [dot(subtract(p, fold[0]), square), 0] as const));
  const [left, right] = [Math.max(0, -reach.minX), Math.max(0, reach.maxX)];
  const [less, most] = left < right ? [left, right] : [right, left];
  if (most < less * MORE) return null;
  const wearers = left < right === (part === 'front') ? 'left' : 'right';
  return less <= BARELY_OVER ? `wearer’s ${wearers}` : `more on the wearer’s ${wearers}`;
}
