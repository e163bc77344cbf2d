import type { LayPlan, Placement } from '../fabric';
import type { Garment } from '../garment';
import { applyMatrix, multiply, transformPath } from '../geometry';
import type { Line, Matrix, Path } from '../geometry';
import type { Colour } from '../pattern';
import { formatLength } from '../pattern';
import type { Block } from './block';
import { FAINT, INK, SOFT, tint } from './ink';
import { filled, line, rectangle, stroked, text } from './marks';
import type { Lettering, Mark } from './marks';

/** Room under the cloth for its size in words, mm. */
const BELOW = 6;

/** Degrees as a rotation, as placements are given. */
function placementMatrix({ x, y, rotation, flipped }: Placement): Matrix {
  const a = (rotation * Math.PI) / 180;
  const [c, s] = [Math.cos(a), Math.sin(a)];
  return multiply([c, s, -s, c, x, y], flipped ? [-1, 0, 0, 1, 0, 0] : [1, 0, 0, 1, 0, 0]);
}

/** Largest scale of a lay plan: 1 : 5. */
const LARGEST = 0.2;

/**
 * How the pieces lie on the cloth, to scale, in the larger of two ways: length to the right with selvedges above and below, or
 * length upwards with selvedges left and right. The number of a mirrored piece has a bar over it.
 */
export function layDrawing(
  lettering: Lettering,
  garment: Garment,
  colour: Colour,
  plan: LayPlan,
  width: number,
  height: number,
): Block {
  const fit = (across: number, down: number): number =>
    Math.min(LARGEST, width / across, (height - BELOW) / down);
  const [lying, standing] = [fit(plan.length, plan.width), fit(plan.width, plan.length)];
  const isStanding = standing > lying;
  const k = Math.max(lying, standing);
  const [w, h] = isStanding ? [plan.width * k, plan.length * k] : [plan.length * k, plan.width * k];
  const toPage: Matrix = isStanding ? [0, -k, k, 0, 0, h] : [k, 0, 0, k, 0, 0];
  const marks: Mark[] = [filled([rectangle(0, 0, w, h)], tint(colour.fill, 0.86))];
  for (const placed of plan.placed) marks.push(...placedPiece(lettering, garment, colour, placed, toPage));
  // Selvedges heavier than the cut ends.
  marks.push(stroked([rectangle(0, 0, w, h)], { width: 0.15, colour: FAINT }, true));
  const selvedges: readonly Line[] = isStanding
    ? [
        [
          [0, 0],
          [0, h],
        ],
        [
          [w, 0],
          [w, h],
        ],
      ]
    : [
        [
          [0, 0],
          [w, 0],
        ],
        [
          [0, h],
          [w, h],
        ],
      ];
  for (const [a, b] of selvedges) marks.push(line(a, b, { width: 0.5, colour: SOFT }));
  const { units } = garment.design;
  const words = `${formatLength(plan.length, units)} long × ${formatLength(plan.width, units)} wide, selvedges ${isStanding ? 'left and right' : 'above and below'}`;
  marks.push(text(lettering, words, [0, h + 4.2], { size: 2.5, colour: SOFT }));
  return { width, height: h + BELOW, marks };
}

function placedPiece(
  lettering: Lettering,
  garment: Garment,
  colour: Colour,
  placed: Placement,
  toPage: Matrix,
): Mark[] {
  const index = garment.panels.findIndex((p) => p.id === placed.panel);
  const cut = garment.cutPieces[index];
  if (!cut) return [];
  const m = multiply(toPage, placementMatrix(placed));
  const k = Math.hypot(toPage[0], toPage[1]);
  const rings: Path[] = [cut.cutting, ...cut.holes].map((ring) => transformPath(ring, m));
  const number = `${garment.plan.numbers.get(placed.panel) ?? index + 1}`;
  const at = applyMatrix(m, cut.label.at);
  const size = Math.min(4.5, Math.max(1.8, cut.label.radius * k * 1.2));
  const mark = text(lettering, number, [at[0], at[1] + size * 0.36], { size, bold: true, align: 'centre' });
  const marks: Mark[] = [filled(rings, tint(colour.fill, 0.55), { width: 0.2, colour: INK }), mark];
  if (placed.flipped) {
    const y = at[1] - size * 0.52;
    marks.push(line([mark.at[0] - 0.3, y], [mark.at[0] + mark.width + 0.3, y], { width: 0.3, colour: INK }));
  }
  return marks;
}
