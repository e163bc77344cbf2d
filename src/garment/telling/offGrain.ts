import {
  type Line,
  type Path,
  cross,
  curveLength,
  distance,
  dot,
  pointAt,
  subtract,
  unit,
} from '../../geometry';

/** An edge is held against stretching when it runs more than this off both warp and weft, radians (20°). Common practice, no source. */
const OFF_GRAIN = (20 * Math.PI) / 180;
/** A shorter stretch off the grain is left alone, mm. Our choice. */
const SHORTEST = 40;
const STEP = 5;

/** Angle between a direction and the nearer of warp and weft, radians, 0 to π/4. */
export function offGrainAngle(direction: readonly [number, number], grain: Line): number {
  const warp = unit(subtract(grain[1], grain[0]));
  const turn = Math.atan2(Math.abs(cross(warp, direction)), Math.abs(dot(warp, direction)));
  return Math.min(turn, Math.PI / 2 - turn);
}

/** How much of a path runs off the grain, mm; 0 where it is too little to matter. Curves are looked at chord by chord. */
export function lengthOffGrain(path: Path, grain: Line): number {
  let off = 0;
  for (const c of path) {
    const n = c.length === 2 ? 1 : Math.max(2, Math.ceil(curveLength(c) / STEP));
    let last = c[0];
    for (let i = 1; i <= n; i += 1) {
      const next = i === n ? c[c.length - 1]! : pointAt(c, i / n);
      if (offGrainAngle(subtract(next, last), grain) > OFF_GRAIN) off += distance(last, next);
      last = next;
    }
  }
  return off >= SHORTEST ? off : 0;
}
