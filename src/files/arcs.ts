import type { Curve, Pt } from '../geometry';

/**
 * Widest angle one cubic stands for. At an eighth of a turn the cubic leaves its arc by 4e-7 of the radius (at a quarter
 * turn by 2.7e-4, which would make a circle's area wrong by 2.8e-4).
 */
const WIDEST = Math.PI / 4;

/** An ellipse in its own frame: centre, radii, turn of its x axis. */
interface Ellipse {
  readonly centre: Pt;
  readonly rx: number;
  readonly ry: number;
  /** Radians, from +x towards +y. */
  readonly turn: number;
}

function placed({ centre, rx, ry, turn }: Ellipse, x: number, y: number): Pt {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [centre[0] + c * rx * x - s * ry * y, centre[1] + s * rx * x + c * ry * y];
}

/** Cosine and sine, exact at quarter turns. */
function direction(angle: number): Pt {
  const quarters = angle / (Math.PI / 2);
  const near = Math.round(quarters);
  if (Math.abs(quarters - near) > 1e-12) return [Math.cos(angle), Math.sin(angle)];
  const q = ((near % 4) + 4) % 4;
  return q === 0 ? [1, 0] : q === 1 ? [0, 1] : q === 2 ? [-1, 0] : [0, -1];
}

/**
 * Cubics along an ellipse from one parameter angle by `delta` radians. Handle length 4/3·tan(step/4): the usual cubic
 * for a circular arc, touching it at both ends and in the middle.
 */
function alongEllipse(ellipse: Ellipse, from: number, delta: number): Curve[] {
  const count = Math.max(1, Math.ceil(Math.abs(delta) / WIDEST - 1e-9));
  const step = delta / count;
  const k = (4 / 3) * Math.tan(step / 4);
  const curves: Curve[] = [];
  for (let i = 0; i < count; i += 1) {
    const [ax, ay] = direction(from + i * step);
    const [bx, by] = direction(from + (i + 1) * step);
    curves.push([
      placed(ellipse, ax, ay),
      placed(ellipse, ax - k * ay, ay + k * ax),
      placed(ellipse, bx + k * by, by - k * bx),
      placed(ellipse, bx, by),
    ]);
  }
  return curves;
}

/** A whole ellipse, from its right-hand end towards +y, as SVG 1.1 section 9.4 says. */
export const ellipseCurves = (centre: Pt, rx: number, ry: number): Curve[] =>
  closedUp(alongEllipse({ centre, rx, ry, turn: 0 }, 0, 2 * Math.PI));

/** The last curve ends exactly where the first starts. */
function closedUp(curves: Curve[]): Curve[] {
  const last = curves.at(-1)!;
  curves[curves.length - 1] = [...last.slice(0, -1), curves[0]![0]] as unknown as Curve;
  return curves;
}

const angleBetween = (ux: number, uy: number, vx: number, vy: number): number =>
  Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);

/**
 * An elliptical arc of path data as cubics; ends exactly at `to`. Conversion to centre form and the enlarging of radii
 * that are too small follow SVG 1.1, appendix F.6. A radius of 0 gives a straight stretch; equal ends give nothing.
 * @param turn of the ellipse's x axis, degrees
 */
export function arcCurves(
  from: Pt,
  rxGiven: number,
  ryGiven: number,
  turn: number,
  large: boolean,
  sweep: boolean,
  to: Pt,
): Curve[] {
  if (from[0] === to[0] && from[1] === to[1]) return [];
  let [rx, ry] = [Math.abs(rxGiven), Math.abs(ryGiven)];
  if (rx === 0 || ry === 0) return [[from, to]];
  const phi = ((turn % 360) * Math.PI) / 180;
  const [c, s] = [Math.cos(phi), Math.sin(phi)];
  const [hx, hy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [x, y] = [c * hx + s * hy, -s * hx + c * hy];
  const tooSmall = (x / rx) ** 2 + (y / ry) ** 2;
  if (tooSmall > 1) [rx, ry] = [rx * Math.sqrt(tooSmall), ry * Math.sqrt(tooSmall)];
  const [ux, uy] = [x / rx, y / ry];
  const square = ux * ux + uy * uy;
  const root = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, (1 - square) / square));
  const [cx, cy] = [root * uy, -root * ux];
  const start = Math.atan2(uy - cy, ux - cx);
  let delta = angleBetween(ux - cx, uy - cy, -ux - cx, -uy - cy);
  if (!sweep && delta > 0) delta -= 2 * Math.PI;
  if (sweep && delta < 0) delta += 2 * Math.PI;
  const centre: Pt = [
    c * rx * cx - s * ry * cy + (from[0] + to[0]) / 2,
    s * rx * cx + c * ry * cy + (from[1] + to[1]) / 2,
  ];
  const curves = alongEllipse({ centre, rx, ry, turn: phi }, start, delta);
  const first = curves[0]!;
  curves[0] = [from, ...first.slice(1)] as unknown as Curve;
  const last = curves.at(-1)!;
  curves[curves.length - 1] = [...last.slice(0, -1), to] as unknown as Curve;
  return curves;
}
