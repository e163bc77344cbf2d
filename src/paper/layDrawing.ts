import type { LayPlan, Placement } from '../fabric';
import type { Garment } from '../garment';
import { applyMatrix, multiply, transformPath } from '../geometry';
import type { Matrix, Path } from '../geometry';
import type { Colour } from '../pattern';
import { formatLength } from '../pattern';
import type { Block } from './block';
import { FAINT, INK, SOFT, tint } from './ink';
import { filled, line, rectangle, stroked, text } from './marks';
import type { Lettering, Mark } from './marks';

/** Room under the cloth for its length, and left of it for its width, mm. */
const BELOW = 6;
const LEFT = 5;

/** Degrees as a rotation, as placements are given. */
function placementMatrix({ x, y, rotation, flipped }: Placement): Matrix {
  const a = (rotation * Math.PI) / 180;
  const [c, s] = [Math.cos(a), Math.sin(a)];
  return multiply([c, s, -s, c, x, y], flipped ? [-1, 0, 0, 1, 0, 0] : [1, 0, 0, 1, 0, 0]);
}

/**
 * How the pieces lie on the cloth, to scale: its length to the right, selvedges above and below.
 * A mirrored piece is marked; its number has a bar over it.
 */
export function layDrawing(lettering: Lettering, garment: Garment, colour: Colour, plan: LayPlan, width: number, height: number): Block {
  const k = Math.min((width - LEFT) / plan.length, (height - BELOW) / plan.width);
  const [w, h] = [plan.length * k, plan.width * k];
  const marks: Mark[] = [filled([rectangle(LEFT, 0, w, h)], tint(colour.fill, 0.86))];
  for (const placed of plan.placed) marks.push(...placedPiece(lettering, garment, colour, placed, k));
  // Selvedges heavier than the cut ends.
  marks.push(stroked([rectangle(LEFT, 0, w, h)], { width: 0.15, colour: FAINT }, true));
  for (const y of [0, h]) marks.push(line([LEFT, y], [LEFT + w, y], { width: 0.5, colour: SOFT }));
  const { units } = garment.design;
  const small = { size: 2.5, colour: SOFT };
  marks.push(text(lettering, `${formatLength(plan.length, units)} long × ${formatLength(plan.width, units)} wide`, [LEFT, h + 4.2], small));
  if (w > 90) marks.push(text(lettering, 'selvedges above and below', [LEFT + w, h + 4.2], { ...small, align: 'right' }));
  return { width, height: h + BELOW, marks };
}

function placedPiece(lettering: Lettering, garment: Garment, colour: Colour, placed: Placement, k: number): Mark[] {
  const index = garment.panels.findIndex((p) => p.id === placed.panel);
  const cut = garment.cutPieces[index];
  if (!cut) return [];
  const m = multiply([k, 0, 0, k, LEFT, 0], placementMatrix(placed));
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
