import type { Garment } from '../garment';
import { flattenPath, flattenRing, joinBoxes, pathBox, transformPath } from '../geometry';
import type { Box, Matrix, Path, Pt } from '../geometry';
import { dartLegs } from '../pattern';
import type { Panel, PanelledPiece } from '../panels';
import type { Block } from './block';
import { shortName } from './cleanText';
import { INK, SOFT, inkOn } from './ink';
import { partsInside } from './inside';
import { CAPITALS, circle, filled, grown, line, rectangle, stroked, text, textBox } from './marks';
import type { Lettering, Mark } from './marks';
import { colourOf } from './panelOnPaper';

export interface DrawingStyle {
  readonly width: number;
  readonly height: number;
  /** Fill of a panel; null leaves it white. */
  readonly fill: (panel: Panel) => string | null;
  /** Whether a panel's number is written. */
  readonly isNumbered: (panel: Panel) => boolean;
  readonly hasNames: boolean;
  /** Levels, darts and trims. */
  readonly hasDetail: boolean;
  /** Largest number, mm. */
  readonly numberSize: number;
  /** Between pieces, mm; usual: 9. */
  readonly gap?: number;
  /** Room beside the pieces for numbers that do not fit inside, mm; usual: 7. */
  readonly beside?: number;
  /** Names alone, small, without how often a piece is cut. */
  readonly isSmall?: boolean;
}

type Frame = Pick<DrawingStyle, 'width' | 'height' | 'hasNames' | 'gap' | 'beside'>;

/** Between pieces on the drawing, mm. */
const GAP = 9;
const NAME_HEIGHT = 8;
/** Below this, mm, a number does not fit into its panel and stands beside the piece. */
const LEAST_RADIUS = 1.7;
const SMALLEST_NUMBER = 2.3;
/** Room beside a piece for numbers that do not fit inside. */
const BESIDE = 7;

interface Layout {
  readonly k: number;
  readonly rows: readonly (readonly PanelledPiece[])[];
}

const boxOfPiece = (p: PanelledPiece): Box => joinBoxes(pathBox(p.whole.outline), pathBox(p.whole.stitching));
const widthOf = (b: Box): number => b.maxX - b.minX;
const heightOf = (b: Box): number => b.maxY - b.minY;

/** Pieces in order in as many rows as make the drawing largest. */
function bestLayout(
  pieces: readonly PanelledPiece[],
  { width, height, hasNames, gap = GAP, beside = BESIDE }: Frame,
): Layout {
  let best: Layout = { k: 0, rows: [] };
  for (let count = 1; count <= pieces.length; count += 1) {
    const perRow = Math.ceil(pieces.length / count);
    const rows: PanelledPiece[][] = [];
    for (let i = 0; i < pieces.length; i += perRow) rows.push(pieces.slice(i, i + perRow));
    const wide = Math.min(
      ...rows.map(
        (r) =>
          (width - (r.length - 1) * gap - 2 * beside) / r.reduce((s, p) => s + widthOf(boxOfPiece(p)), 0),
      ),
    );
    const names = hasNames ? NAME_HEIGHT : 0;
    const tall = rows.reduce((s, r) => s + Math.max(...r.map((p) => heightOf(boxOfPiece(p)))), 0);
    const k = Math.min(wide, (height - rows.length * names - (rows.length - 1) * gap) / tall);
    if (k > best.k) best = { k, rows };
  }
  return best;
}

/** Where each piece of a drawing lies: from its traced coordinates, mm, to the page. */
export interface PlacedPiece {
  readonly piece: PanelledPiece;
  readonly matrix: Matrix;
  /** Where its name stands. */
  readonly name: Pt;
}

/** Pieces side by side, in as many rows as make them largest; and the height they take up. */
export function placePieces(
  pieces: readonly PanelledPiece[],
  style: Frame,
): { readonly placed: readonly PlacedPiece[]; readonly height: number } {
  const { k, rows } = bestLayout(pieces, style);
  const { gap = GAP } = style;
  const placed: PlacedPiece[] = [];
  let y = 0;
  for (const r of rows) {
    const rowHeight = Math.max(...r.map((p) => heightOf(boxOfPiece(p)) * k));
    const full = r.reduce((s, p) => s + widthOf(boxOfPiece(p)) * k, (r.length - 1) * gap);
    let x = (style.width - full) / 2;
    for (const piece of r) {
      const b = boxOfPiece(piece);
      const name: Pt = [x + (widthOf(b) * k) / 2, y + rowHeight + 5];
      placed.push({ piece, matrix: [k, 0, 0, k, x - b.minX * k, y - b.minY * k], name });
      x += widthOf(b) * k + gap;
    }
    y += rowHeight + (style.hasNames ? NAME_HEIGHT : 0) + gap;
  }
  return { placed, height: Math.max(0, y - gap) };
}

/** Small drawing of pieces side by side, as worn seen from outside, in a frame no larger than asked for. */
export function garmentDrawing(
  lettering: Lettering,
  garment: Garment,
  pieces: readonly PanelledPiece[],
  style: DrawingStyle,
): Block {
  const { placed, height } = placePieces(pieces, style);
  const marks = placed.flatMap(({ piece, matrix, name }): Mark[] => [
    ...drawPiece(lettering, garment, piece, matrix, style),
    ...(style.hasNames
      ? [
          text(lettering, style.isSmall ? shortName(piece.whole.name, 18) : nameOf(piece), name, {
            size: style.isSmall ? 2.7 : 3.2,
            align: 'centre',
            colour: SOFT,
          }),
        ]
      : []),
  ]);
  return { width: style.width, height, marks };
}

const nameOf = ({ whole }: PanelledPiece): string =>
  whole.piece.cutting === 'pair'
    ? `${shortName(whole.name, 30)} (two, one mirrored)`
    : shortName(whole.name, 30);

const place = (m: Matrix, [x, y]: Pt): Pt => [m[0] * x + m[4], m[3] * y + m[5]];

function drawPiece(
  lettering: Lettering,
  garment: Garment,
  p: PanelledPiece,
  m: Matrix,
  style: DrawingStyle,
): Mark[] {
  const onPage = (path: Path): Path => transformPath(path, m);
  const marks: Mark[] = [];
  for (const panel of p.panels) {
    const rings = [panel.ring, ...panel.holeRings].map(onPage);
    const fill = style.fill(panel);
    const stroke = { width: 0.18, colour: INK };
    marks.push(fill === null ? stroked(rings, stroke, true) : filled(rings, fill, stroke));
  }
  if (style.hasDetail) marks.push(...detail(garment, p, m));
  marks.push(stroked([onPage(p.whole.stitching)], { width: 0.35, colour: INK }, true));
  marks.push(...panelNumbers(lettering, garment, p, m, style));
  return marks;
}

/** Levels and darts, faintly, and trims where they are laid. */
function detail(garment: Garment, p: PanelledPiece, m: Matrix): Mark[] {
  const marks: Mark[] = [];
  for (const run of garment.trims.filter((t) => t.piece === p.whole.piece.id && t.copy === 1)) {
    const paths = [transformPath(run.path, m)];
    marks.push(stroked(paths, { width: run.trim.width * m[0] + 0.3, colour: INK, dash: [1000, 0.001] }));
    marks.push(stroked(paths, { width: run.trim.width * m[0], colour: run.trim.fill, dash: [1000, 0.001] }));
  }
  const inside = [flattenRing(p.whole.stitching, 0.5)];
  for (const l of p.whole.levels) {
    for (const [a, b] of partsInside(inside, l.line)) {
      marks.push(line(place(m, a), place(m, b), { width: 0.12, colour: SOFT, dash: [2, 0.8, 0.4, 0.8] }));
    }
  }
  for (const dart of new Set(p.panels.flatMap((panel) => panel.darts))) {
    const { points } = flattenPath(dartLegs(dart), 0.2);
    for (let i = 0; i + 1 < points.length; i += 1) {
      marks.push(line(place(m, points[i]!), place(m, points[i + 1]!), { width: 0.15, colour: SOFT }));
    }
  }
  return marks;
}

/** Numbers inside their panels, or beside the piece with a leader where the panel is too small. */
export function panelNumbers(
  lettering: Lettering,
  garment: Garment,
  p: PanelledPiece,
  m: Matrix,
  style: Pick<DrawingStyle, 'fill' | 'isNumbered' | 'hasDetail' | 'numberSize'> & {
    /** Where a panel's number stands: its roomiest place, unless something else is drawn there. */
    readonly spotOf?: (panel: Panel) => Panel['spot'];
  },
): Mark[] {
  const marks: Mark[] = [];
  const box = boxOfPiece(p);
  const [left, right] = [place(m, [box.minX, 0])[0], place(m, [box.maxX, 0])[0]];
  const lastY = { left: -Infinity, right: -Infinity };
  const shown = p.panels.filter(style.isNumbered);
  for (const panel of [...shown].sort((a, b) => a.spot.at[1] - b.spot.at[1] || a.spot.at[0] - b.spot.at[0])) {
    const words = `${garment.plan.numbers.get(panel.id) ?? ''}`;
    const spot = (style.spotOf ?? ((p: Panel) => p.spot))(panel);
    const at = place(m, spot.at);
    const radius = spot.radius * m[0];
    const fill = style.fill(panel);
    // Two figures are wider than they are high: they need more of the circle.
    const size = Math.min(
      style.numberSize,
      Math.max(SMALLEST_NUMBER, radius * (words.length > 1 ? 1.15 : 1.4)),
    );
    if (radius >= LEAST_RADIUS) {
      const colour = fill === null ? INK : inkOn(fill);
      const mark = text(lettering, words, [at[0], at[1] + (size * CAPITALS) / 2], {
        size,
        bold: true,
        align: 'centre',
        colour,
      });
      // Darts and levels stop short of a number.
      const b = grown(
        { ...textBox(mark), minY: mark.at[1] - size * CAPITALS, maxY: mark.at[1] },
        size * 0.14,
      );
      if (style.hasDetail)
        marks.push(filled([rectangle(b.minX, b.minY, b.maxX - b.minX, b.maxY - b.minY)], fill ?? '#ffffff'));
      marks.push(mark);
      continue;
    }
    const side = at[0] < (left + right) / 2 ? 'left' : 'right';
    const y = Math.max(at[1], lastY[side] + SMALLEST_NUMBER * 1.3);
    lastY[side] = y;
    const x = side === 'left' ? left - 3 : right + 3;
    const end: Pt = [side === 'left' ? x + 0.6 : x - 0.6, y];
    marks.push(
      line(at, end, { width: 0.15, colour: SOFT }),
      filled([circle(at, 0.4)], fill === null ? INK : inkOn(fill)),
    );
    marks.push(
      text(lettering, words, [x, y + 0.85], {
        size: 2.5,
        bold: true,
        align: side === 'left' ? 'right' : 'left',
      }),
    );
  }
  return marks;
}

/** Every panel in its cloth's colour. */
export const inColours =
  (garment: Garment) =>
  (panel: Panel): string =>
    colourOf(garment, panel).fill;
