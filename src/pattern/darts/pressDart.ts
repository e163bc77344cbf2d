import {
  type Line,
  type Path,
  type Polyline,
  type Pt,
  type Ring,
  centroidOfPoints,
  cross,
  dot,
  flattenRing,
  mix,
  nearestOnPath,
  pathLength,
  pointAtLength,
  subtract,
  unit,
} from '../../geometry';
import type { DartShape } from '../design';

/** What the way a dart is pressed depends on. */
export interface PressFrame {
  readonly grain: Line;
  /** The fold, or the centre edge; null where the piece has neither. */
  readonly centre: Path | null;
  readonly hem: Path | null;
  readonly ring: Ring;
}

/** How a dart is pressed: which of its legs its fold lies beyond, and in words. */
export interface Pressed {
  /** 0: over its first leg (the first mouth end, or points[1] of a double-pointed dart), 1: over the other. */
  readonly leg: 0 | 1;
  readonly towards: 'down' | 'the centre' | 'the larger side';
}

/**
 * Which way a dart is pressed: one that lies nearer to the cross grain (bust, side) down, any other towards the centre, without a centre
 * towards the larger side. Source: "bust darts down; vertical darts to centre", fabricatedcloset.com (n.d.). Down is along the grain,
 * towards the hem where there is one, else down the page.
 */
export function pressDart(dart: DartShape, frame: PressFrame): Pressed {
  const [a, b] = dart.kind === 'single' ? dart.mouth : [dart.points[1], dart.points[3]];
  const tip = dart.kind === 'single' ? dart.point : dart.points[0];
  const foot = dart.kind === 'single' ? mix(a, b, 0.5) : dart.points[2];
  const axis = unit(subtract(foot, tip));
  const corners = flattenRing(frame.ring, 0.5);
  const down = downOf(frame, corners);
  if (Math.abs(cross(axis, down)) > Math.abs(dot(axis, down)))
    return { leg: dot(subtract(b, a), down) > 0 ? 1 : 0, towards: 'down' };
  const middle = mix(a, b, 0.5);
  if (frame.centre && frame.centre.length > 0) {
    const to = subtract(nearestOnPath(frame.centre, middle).point, middle);
    return { leg: dot(subtract(b, a), to) > 0 ? 1 : 0, towards: 'the centre' };
  }
  const to = subtract(centroidOfPoints(corners), middle);
  return { leg: dot(subtract(b, a), to) > 0 ? 1 : 0, towards: 'the larger side' };
}

/** Unit vector along the grain, towards the hem where there is one, else down the page (or, lying across it, to the right). */
function downOf({ grain, hem }: PressFrame, corners: Polyline): Pt {
  const along = unit(subtract(grain[1], grain[0]));
  const flip = (way: number): Pt => (way < 0 ? [-along[0], -along[1]] : along);
  if (hem && hem.length > 0) {
    const middle = pointAtLength(hem, pathLength(hem) / 2).point;
    return flip(dot(along, subtract(middle, centroidOfPoints(corners))));
  }
  return flip(Math.abs(along[1]) > 0.1 ? along[1] : along[0]);
}
