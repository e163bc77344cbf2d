import { markLines } from '../allowance';
import {
  SAME_POINT,
  add,
  distance,
  endOf,
  mix,
  perpendicular,
  pointOn,
  nearestOnPath,
  pathThrough,
  scale,
  subtract,
  unit,
} from '../geometry';
import type { Line, Pt, Ring } from '../geometry';
import {
  CLIP_LINE,
  CUTTING_LINE,
  DART_LINE,
  FOLD_LINE,
  GRAIN_LINE,
  INK,
  LEVEL_LINE,
  NOTCH_LINE,
  STITCHING_LINE,
  STOP_LINE,
  TRIM_LINE,
  ZIP_LINE,
} from './ink';
import { circle, filled, line, stroked } from './marks';
import type { Mark } from './marks';
import { BRACKET_IN } from './panelOnPaper';
import type { PanelOnPaper } from './panelOnPaper';

/** From the cutting line in to a dot one millimetre before the inner corner: how far to clip. */
function clipMark(panel: PanelOnPaper, corner: Pt): Mark[] {
  const near = nearestOnPath(panel.cutting, corner);
  const edge = pointOn(panel.cutting, near);
  const gap = distance(edge, corner);
  if (gap < 2) return [];
  const stop = mix(corner, edge, 1 / gap);
  return [line(edge, stop, CLIP_LINE), filled([circle(stop, 0.6)], INK)];
}

function pointCross(p: Pt): Mark[] {
  const r = 2;
  const stroke = { width: 0.3, colour: INK };
  return [
    line([p[0] - r, p[1]], [p[0] + r, p[1]], stroke),
    line([p[0], p[1] - r], [p[0], p[1] + r], stroke),
    stroked([circle(p, 1)], { width: 0.2, colour: INK }, true),
  ];
}

/** All lines of a panel, without lettering and grain arrow. */
export function panelLines(panel: PanelOnPaper): Mark[] {
  return [
    ...panel.levels.flatMap(({ lines }) => lines.map(([a, b]) => line(a, b, LEVEL_LINE))),
    ...panel.trims.map(({ paths }) => stroked(paths, TRIM_LINE)),
    stroked([panel.stitching], STITCHING_LINE, true),
    ...panel.dartLegs.map(([a, b]) => line(a, b, DART_LINE)),
    ...panel.dartPoints.flatMap(pointCross),
    ...panel.clips.flatMap((p) => clipMark(panel, p)),
    ...panel.notches.flatMap((n) => markLines(n).map(([a, b]) => line(a, b, NOTCH_LINE))),
    ...panel.zips.flatMap(({ slot, stop }) => [
      ...(slot.length > 0 ? [stroked(slot, ZIP_LINE)] : []),
      ...(stop ? [line(...stop, STOP_LINE)] : []),
    ]),
    stroked(panel.foldEdge ? panel.holes : [panel.cutting, ...panel.holes], CUTTING_LINE, true),
    ...(panel.foldEdge ? foldMarks(panel.cutting, panel.foldEdge) : []),
  ];
}

/** How far from the fold's ends its bracket begins, mm. */
const BRACKET_SHORT = 12;

/** The cutting line but for its fold, the fold as a chain line, and a bracket whose arrows point to it. */
function foldMarks(cutting: Ring, [a, b]: Line): Mark[] {
  const onFold = cutting.findIndex(
    (c) => distance(c[0], a) < SAME_POINT && distance(endOf([c]), b) < SAME_POINT,
  );
  const rest = [...cutting.slice(onFold + 1), ...cutting.slice(0, onFold)];
  const along = unit(subtract(b, a));
  const inwards = scale(perpendicular(along), BRACKET_IN);
  const short = Math.min(BRACKET_SHORT, distance(a, b) / 4);
  const feet = [add(a, scale(along, short)), add(b, scale(along, -short))] as const;
  const [p, q] = [add(feet[0], inwards), add(feet[1], inwards)];
  const head = (foot: Pt): Mark => {
    const back = add(foot, scale(inwards, 3 / BRACKET_IN));
    const side = scale(along, 1.1);
    return filled([pathThrough([foot, add(back, side), subtract(back, side)], true)], INK);
  };
  return [
    stroked([rest], CUTTING_LINE),
    line(a, b, FOLD_LINE),
    stroked([pathThrough([feet[0], p, q, feet[1]], false)], GRAIN_LINE),
    ...feet.map(head),
  ];
}

/** Where a level's name goes: above its line, a little in from the left end; right of a steep one, below its upper end. */
export function levelNamePlace([a, b]: Line): Pt {
  const isSteep = Math.abs(b[1] - a[1]) > Math.abs(b[0] - a[0]);
  if (isSteep) return add(a[1] <= b[1] ? a : b, [1.2, 6]);
  const [left, right] = a[0] <= b[0] ? [a, b] : [b, a];
  return add(add(left, scale(unit(subtract(right, left)), 4)), [0, -1.2]);
}
