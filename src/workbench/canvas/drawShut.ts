import paper from 'paper/dist/paper-core';
import { add, mix, scale, subtract, unit, type Pt } from '../../geometry';
import type { FoldedShut } from '../../pattern';
import type { PieceDrawing, PieceView } from './drawPiece';
import { INK, SERIF } from './ink';
import { pathItem, pointsItem, ringItem, shiftSized, sizedItem, textItem } from './shapes';

/** Angle at the first point from the second to the third, degrees. */
function opening([p, a, b]: readonly [Pt, Pt, Pt]): number {
  const [ux, uy, vx, vy] = [a[0] - p[0], a[1] - p[1], b[0] - p[0], b[1] - p[1]];
  return (Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * 180) / Math.PI;
}

/** One part of the flat drawing, cut out along the part's ring and turned to where it lies. */
function partItem(flat: paper.Group, ring: paper.Path, about: Pt, degrees: number): paper.Group {
  const pivot = new paper.Point(about[0], about[1]);
  ring.rotate(-degrees, pivot);
  ring.clipMask = true;
  const part = new paper.Group({ children: [ring, flat], insert: false });
  part.rotate(degrees, pivot);
  return part;
}

/** How far the slit's name stands off its opening, mm. */
const OFF_SLIT = 9;

/** Height of the slit's name, px: smaller from afar, so that it stays off the next piece. */
const slitNameSize = (zoom: number): number => Math.max(8, Math.min(14, zoom * 18));

/** Says what the open slit is, just beyond the edge it opens at. */
function slitName([point, a, b]: readonly [Pt, Pt, Pt]): paper.Item {
  const middle = mix(a, b, 0.5);
  const at = add(middle, scale(unit(subtract(middle, point)), OFF_SLIT));
  const words = textItem(add(at, [0, -10]), 'slit, opens\nto lie flat', {
    fontFamily: SERIF,
    fontSize: 14,
    leading: 16,
    fillColor: new paper.Color(INK.graphite),
    justification: middle[0] < point[0] ? 'right' : 'left',
  });
  return sizedItem(at, 14, slitNameSize, [words]);
}

/**
 * A piece with one dart folded shut: both parts of its flat drawing where they lie now, the sewn line of the dart, and the slit it
 * needs to lie flat. Numbers and names go to where their places are.
 */
export function drawShut(
  view: PieceView,
  shut: FoldedShut,
  drawFlat: (view: PieceView) => PieceDrawing,
): PieceDrawing {
  const plain: PieceView = { ...view, shut: null, showAllowances: false };
  const degrees = opening(shut.slit);
  const [point] = shut.slit;
  const drawings = shut.parts.map(() => drawFlat(plain));
  const parts = shut.parts.map((part, i) => {
    const { group, sized } = drawings[i]!;
    for (const item of sized) item.remove();
    const ring = ringItem(part.ring, [], {}) as paper.Path;
    return partItem(group, ring, point, part.turned ? degrees : 0);
  });
  const { sized } = drawings[0]!;
  for (const item of sized) {
    const { anchor } = item.data as { anchor: Pt };
    const to = shut.toShut(anchor);
    shiftSized(item, [to[0] - anchor[0], to[1] - anchor[1]]);
  }
  const graphite = new paper.Color(INK.graphite);
  const marks = [
    ...shut.parts.map((part) => pathItem(part.along, { strokeColor: graphite, strokeWidth: 1.6 })),
    pathItem(shut.seam, { strokeColor: graphite, strokeWidth: 2 }),
    pointsItem([shut.slit[1], point, shut.slit[2]], {
      strokeColor: graphite,
      strokeWidth: 1,
      dashArray: [4, 4],
    }),
  ];
  const named = [...sized, slitName(shut.slit)];
  return {
    group: new paper.Group({ children: [...parts, ...marks, ...named], insert: false }),
    sized: named,
  };
}
