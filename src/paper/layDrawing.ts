import type { Garment } from '../garment';
import type { Box, Line } from '../geometry';
import { INK, clothTints } from './ink';
import { clothRound, clothUnder, repeatLines } from './layCloth';
import { clothBox, sizeOnPaper, toPaper } from './layFrame';
import type { LayFrame } from './layFrame';
import { anchorMark, grainOn, numbersBeside, numberInside, pieceOnPage } from './layNumbers';
import type { PieceOnPage } from './layNumbers';
import type { LayOnPaper, PieceOnCloth } from './layOnPaper';
import { pieceName } from './layWords';
import { boxOf, filled, grown, segmentsOf, textBox } from './marks';
import type { Lettering, Mark, Stroke } from './marks';

/** A lay plan drawn to scale, in a frame whose upper left corner is 0, 0, mm on paper. */
export interface LayDrawing {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Where `marks` may show pieces: what of them lies outside is beyond the ends of what is drawn. */
  readonly cloth: Box;
  /** Outlines of the pieces, to be shown within `cloth` alone; they lie over `under` and below `marks`. */
  readonly pieces: readonly Mark[];
  readonly under: readonly Mark[];
  /** Pieces of which something is shown. */
  readonly shown: readonly PieceOnCloth[];
}

const OUTLINE: Stroke = { width: 0.3, colour: INK };
/** Cut from one layer of folded cloth alone. */
const ONE_LAYER: Stroke = { width: 0.3, colour: INK, dash: [1.8, 1] };

/** Draw a lay, or a stretch of it. */
export function drawLay(
  lettering: Lettering,
  garment: Garment,
  lay: LayOnPaper,
  frame: LayFrame,
): LayDrawing {
  const m = toPaper(lay, frame);
  const cloth = clothBox(lay, frame);
  const { width, height } = sizeOnPaper(lay, frame);
  const round = clothRound(lettering, lay, frame, garment.design.units);
  const pieces = lay.pieces.map((p) => pieceOnPage(p, m, cloth)).filter((p) => p.shown.length > 0);
  const tints = clothTints(lay.colour.fill);
  const outlines = pieces.map(({ paths, piece }): Mark => {
    const isAlone = piece.laid.cutFrom === 'upper' || piece.laid.cutFrom === 'lower';
    return filled(paths, isAlone ? tints.alone : tints.piece, isAlone ? ONE_LAYER : OUTLINE);
  });
  return {
    width,
    height,
    cloth,
    under: clothUnder(lay, frame),
    pieces: [...outlines, ...repeatLines(lay, frame)],
    marks: [...round, ...lettered(lettering, garment, lay, { width, height, cloth, round }, pieces)],
    shown: pieces.map((p) => p.piece),
  };
}

/** Whether most of what is drawn of a piece is on this stretch: its number stands there if anywhere. */
const holdsLabel = ({ label }: PieceOnPage, { minX, minY, maxX, maxY }: Box): boolean =>
  label.at[0] >= minX && label.at[0] <= maxX && label.at[1] >= minY && label.at[1] <= maxY;

interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly cloth: Box;
  readonly round: readonly Mark[];
}

/** Numbers inside and beside the pieces, names where there is room, grain arrows, rings on the repeat. */
function lettered(
  lettering: Lettering,
  garment: Garment,
  lay: LayOnPaper,
  { width, height, cloth, round }: Sheet,
  pieces: readonly PieceOnPage[],
): Mark[] {
  const marks: Mark[] = [];
  const taken: Box[] = round.map((r) => (r.kind === 'text' ? grown(textBox(r), 0.4) : grown(boxOf([r]), 0)));
  const lines: Line[] = round.flatMap((r) => (r.kind === 'path' ? segmentsOf(r) : []));
  const beside: PieceOnPage[] = [];
  for (const on of pieces) {
    const panel = garment.panels.find((p) => p.id === on.piece.laid.piece.panel);
    const rings = anchorMark(on);
    const own = numberInside(
      lettering,
      on,
      [pieceName(garment, panel?.piece)],
      rings.map((r) => boxOf([r])),
    );
    const boxes = [...rings, ...(own?.marks ?? [])].map((r) => boxOf([r]));
    if (own) marks.push(...own.marks);
    else if (holdsLabel(on, cloth)) beside.push(on);
    taken.push(...boxes);
    const arrow = own ? grainOn(on, boxes, lay.job.nap) : [];
    taken.push(...arrow.map((r) => boxOf([r])));
    marks.push(...rings, ...arrow);
  }
  const within: Box = { minX: 0, minY: 0, maxX: width, maxY: height };
  marks.push(...numbersBeside(lettering, beside, { within, taken, pieces, lines }));
  return marks;
}
