import { add, distance, dot, mix, perpendicular, scale, subtract, unit } from '../geometry';
import type { Box, Line } from '../geometry';
import { arrowHead } from './arrowHead';
import { GRAIN_LINE } from './ink';
import { entersBox, longLine, partsInside } from './inside';
import { grown, line } from './marks';
import type { Mark } from './marks';
import type { PanelOnPaper } from './panelOnPaper';

const LONGEST = 170;
const SHORTEST = 14;
const HEAD = 3.6;
/** Distance kept from dart legs, mm. */
const CLEAR_OF_LINES = 3;
/** What crossing one costs, as length of arrow, mm. */
const CROSSING = 400;
/** What lying on a join costs, mm. */
const ON_JOIN = 60;
/** The share of the room along the grain that the arrow takes. */
const SHARE = 0.72;

/** The longest clear stretches along the grain, at several distances to either side of the traced place. */
function rooms(panel: PanelOnPaper, taken: readonly Box[]): { room: Line; aside: number }[] {
  const [a, b] = panel.grain;
  const along = unit(subtract(b, a));
  const across = perpendicular(along);
  const middle = mix(a, b, 0.5);
  const widest = distance([panel.box.minX, panel.box.minY], [panel.box.maxX, panel.box.maxY]) / 2;
  const found: { room: Line; aside: number }[] = [];
  for (let aside = 0; aside <= widest; aside += 3) {
    for (const side of aside === 0 ? [1] : [1, -1]) {
      const at = add(middle, scale(across, side * aside));
      for (const part of partsInside(panel.stitched, longLine(at, along))) {
        for (const room of freeParts(part, taken)) found.push({ room, aside });
      }
    }
  }
  return found;
}

/** Whether the stretch crosses one of the lines or runs along it closer than CLEAR_OF_LINES. */
function isNear([a, b]: Line, lines: readonly Line[]): boolean {
  const along = unit(subtract(b, a));
  const across = perpendicular(along);
  const reach = distance(a, b);
  return lines.some(([p, q]) => {
    const [p1, q1] = [subtract(p, a), subtract(q, a)];
    // In the arrow's own frame: along it from 0 to reach, across it within the clearance.
    const box = {
      minX: -CLEAR_OF_LINES,
      minY: -CLEAR_OF_LINES,
      maxX: reach + CLEAR_OF_LINES,
      maxY: CLEAR_OF_LINES,
    };
    return entersBox([dot(p1, along), dot(p1, across)], [dot(q1, along), dot(q1, across)], box);
  });
}

/** Whether a place lies between the legs of a dart: an arrow there would look like the dart's middle. Legs are crossed on both sides of it. */
function isInDart([a, b]: Line, legs: readonly Line[]): boolean {
  const along = unit(subtract(b, a));
  const across = perpendicular(along);
  const middle = mix(a, b, 0.5);
  const sides = legs.flatMap(([p, q]): number[] => {
    const [p1, q1] = [subtract(p, middle), subtract(q, middle)];
    const [s, t] = [dot(p1, along), dot(q1, along)];
    if (s > 0 === t > 0) return [];
    return [dot(mix(p1, q1, s / (s - t)), across)];
  });
  const isOdd = (found: readonly number[]): boolean => found.length % 2 === 1;
  return isOdd(sides.filter((x) => x > 0)) && isOdd(sides.filter((x) => x < 0));
}

const isWithin = (l: Line, boxes: readonly Box[]): boolean =>
  boxes.some((b) => l.every(([x, y]) => x > b.minX && x < b.maxX && y > b.minY && y < b.maxY));

/** A stretch without what lies in the boxes. */
function freeParts(part: Line, taken: readonly Box[]): Line[] {
  let parts = [part];
  for (const box of taken.map((b) => grown(b, 1.5))) {
    parts = parts.flatMap((p) => {
      if (!entersBox(p[0], p[1], box)) return [p];
      const square = [
        [box.minX, box.minY],
        [box.maxX, box.minY],
        [box.maxX, box.maxY],
        [box.minX, box.maxY],
      ] as const;
      const covered = partsInside([square], p)[0];
      return covered ? [[p[0], covered[0]] as const, [covered[1], p[1]] as const] : [p];
    });
  }
  return parts;
}

/**
 * The grain arrow where it is longest without running through lettering, near the middle rather than at an edge.
 * It keeps out of darts. Strips of joins are crossed, but not run along, if it can be helped. Two heads; one head with a nap, pointing the way the grain was traced. Falls back to the derived place where all is taken.
 */
export function grainArrow(
  panel: PanelOnPaper,
  taken: readonly Box[],
  joins: readonly Box[] = [],
): { marks: Mark[]; axis: Line } {
  const along = unit(subtract(panel.grain[1], panel.grain[0]));
  let best: Line = panel.grain;
  let bestScore = -Infinity;
  for (const { room, aside } of rooms(panel, taken)) {
    const length = distance(room[0], room[1]);
    if (length < SHORTEST || Math.min(length * SHARE, LONGEST) - aside * 0.35 <= bestScore) continue;
    for (const place of [0.5, 0.35, 0.65]) {
      const half = Math.min(length * SHARE * Math.min(place, 1 - place), LONGEST / 2);
      const middle = mix(room[0], room[1], place);
      const arrow: Line = [subtract(middle, scale(along, half)), add(middle, scale(along, half))];
      const cost =
        (isNear(arrow, panel.dartLegs) || isInDart(arrow, panel.dartLegs) ? CROSSING : 0) +
        (isWithin(arrow, joins) ? ON_JOIN : 0);
      const score = 2 * half - aside * 0.35 - cost;
      if (score <= bestScore) continue;
      bestScore = score;
      best = arrow;
    }
  }
  if (dot(subtract(best[1], best[0]), along) < 0) best = [best[1], best[0]];
  const marks: Mark[] = [line(best[0], best[1], GRAIN_LINE), arrowHead(best[1], along, HEAD)];
  if (!panel.colour.nap) marks.push(arrowHead(best[0], scale(along, -1), HEAD));
  return { marks, axis: best };
}
