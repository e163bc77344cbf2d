import {
  type Path,
  type Pt,
  type Ring,
  add,
  cross,
  curvatureAt,
  curveLength,
  directionAt,
  dot,
  endOf,
  isCubic,
  passesNear,
  perpendicular,
  samePoint,
  scale,
  startOf,
} from '../../geometry';
import {
  type Panel,
  type PanelEdge,
  type PanelledPiece,
  type Seam,
  type SeamId,
  alongSeam,
  passagesThrough,
  placeAlong,
} from '../../panels';
import { type Allowances, remember } from '../../pattern';
import { allowanceOf } from '../widths';

/** A stretch of a seam, mm from its start. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What decides where a seam's marks can go. All lengths mm along the shorter side as sewn, darts shut. */
export interface SeamRoom {
  readonly seam: Seam;
  readonly length: number;
  readonly isClosed: boolean;
  /** Widest allowance of its two sides. */
  readonly allowance: number;
  /** Nearer to the ends than this the cutting edge of one side does not run along the seam. */
  readonly ends: readonly [number, number];
  /** Where marks cannot go: at corners, in curves tighter than the allowance, at darts. */
  readonly blocked: readonly Span[];
  /** Total turning, radians, whichever way. */
  readonly turning: number;
  /** Where it starts and ends. */
  readonly corners: readonly [Pt, Pt];
  /** Whether the cutting edges of both sides run along the seam at a place on it. Worked out when asked, and remembered. */
  readonly isOpen: (at: number) => boolean;
  /** The same object as long as all of this stays the same, whatever else moves: what is worked out from it can be kept. */
  readonly kept: object;
}

/** What stays while the panels on both sides of a seam stay. */
type SeamShape = Omit<SeamRoom, 'seam' | 'corners' | 'kept'>;

/** How far marks keep from a place where the cutting edge stops running along the seam, mm. */
const CLEAR = 2;
/** A joint that turns by less than this bends a cutting edge too little to matter, radians (5°). */
const BEND = 0.09;
/** How far marks keep from a dart, mm: its legs are pressed to one side there. Common practice, no source. */
const BESIDE_DART = 8;
/** Nothing nearer to a very sharp corner can be kept clear of it: this many allowances. */
const SHARPEST = 4;
const SAMPLES = 12;

const turnBetween = (into: Pt, outOf: Pt): number => Math.atan2(cross(into, outOf), dot(into, outOf));

/**
 * How far from a corner of its panel a seam's cutting edge begins to run along it, mm: at an inner corner where the two cutting edges
 * meet, at an outer one where the allowance is turned back over the panel.
 * @param turn of the boundary at the corner, radians, positive at an outer corner
 * @param own  allowance of the seam, other of the edge it meets there
 */
function cornerReach(turn: number, own: number, other: number): number {
  const sine = Math.sin(Math.abs(turn));
  if (sine < 0.02) return Math.abs(turn) > 1 ? own * SHARPEST : 0;
  const reach = turn < 0 ? (other - own * Math.cos(turn)) / sine : (-own * Math.cos(turn) - other) / sine;
  return Math.min(Math.max(0, reach), Math.max(own, other) * SHARPEST);
}

/** One side of a seam: the panel's edge, and what it meets at the ends, in ring order. */
interface Side {
  readonly panel: Panel;
  readonly edge: PanelEdge;
  readonly before: PanelEdge;
  readonly after: PanelEdge;
  /** Which stretch of the panel it is, counted over all its rings. */
  readonly place: number;
}

function sidesOfSeams(panels: readonly Panel[]): ReadonlyMap<SeamId, readonly Side[]> {
  const sides = new Map<SeamId, Side[]>();
  for (const panel of panels) {
    let first = 0;
    for (const ring of [panel.boundary, ...panel.holes]) {
      const place = first;
      first += ring.length;
      ring.forEach((edge, i) => {
        if (edge.origin.kind !== 'seam') return;
        const [before, after] = [ring.at(i - 1)!, ring[(i + 1) % ring.length]!];
        const side = { panel, edge, before, after, place: place + i };
        const list = sides.get(edge.origin.seam);
        if (list) list.push(side);
        else sides.set(edge.origin.seam, [side]);
      });
    }
  }
  return sides;
}

const first = (path: Path): Pt => directionAt(path[0]!, 0);
const last = (path: Path): Pt => directionAt(path.at(-1)!, 1);

type WidthOf = (edge: PanelEdge) => number;

/** How much of the seam's start and end the corners of one side take up, mm. */
function endsOf({ edge, before, after }: Side, widthOf: WidthOf): readonly [number, number] {
  const own = widthOf(edge);
  const start = cornerReach(turnBetween(last(before.path), first(edge.path)), own, widthOf(before));
  const end = cornerReach(turnBetween(last(edge.path), first(after.path)), own, widthOf(after));
  return edge.origin.kind === 'seam' && edge.origin.forward ? [start, end] : [end, start];
}

interface Bends {
  /** Arc lengths of the path. */
  readonly blocked: readonly Span[];
  readonly turning: number;
}

/** Where a path turns too sharply for a cutting edge `width` mm beside it, and how much it turns in all. */
function bendsOf(path: Path, width: number, isClosed: boolean): Bends {
  const blocked: Span[] = [];
  let [s, turning] = [0, 0];
  const joint = (turn: number, at: number): void => {
    turning += Math.abs(turn);
    if (Math.abs(turn) < BEND) return;
    const reach = cornerReach(-Math.abs(turn), width, width) + CLEAR;
    blocked.push({ from: at - reach, to: at + reach });
  };
  if (isClosed) joint(turnBetween(last(path), first(path)), 0);
  path.forEach((curve, i) => {
    if (i > 0) joint(turnBetween(directionAt(path[i - 1]!, 1), directionAt(curve, 0)), s);
    const length = curveLength(curve);
    if (isCubic(curve)) {
      let heading = directionAt(curve, 0);
      for (let k = 1; k <= SAMPLES; k += 1) {
        const next = directionAt(curve, k / SAMPLES);
        turning += Math.abs(turnBetween(heading, next));
        heading = next;
        const [t0, t1] = [(k - 1) / SAMPLES, k / SAMPLES];
        const tight = Math.max(...[t0, (t0 + t1) / 2, t1].map((t) => Math.abs(curvatureAt(curve, t))));
        if (tight * (width + CLEAR) > 1)
          blocked.push({
            from: s + curveLength(curve, 0, t0) - CLEAR,
            to: s + curveLength(curve, 0, t1) + CLEAR,
          });
      }
    }
    s += length;
  });
  if (isClosed)
    blocked.push(...blocked.filter((b) => b.from < 0).map((b) => ({ from: b.from + s, to: b.to + s })));
  return { blocked, turning };
}

/** The same on a side with darts in it: spans as sewn, and the darts themselves. */
function blockedOn({ panel, edge }: Side, width: number, isClosed: boolean): readonly Span[] {
  const path = alongSeam(edge);
  const wedges = panel.darts
    .flatMap((d) => passagesThrough(path, d))
    .map(({ enter, leave }) => ({ from: enter.along, to: leave.along }));
  const sewn = (s: number): number =>
    wedges.reduce((rest, w) => rest - Math.max(0, Math.min(s, w.to) - w.from), s);
  return [
    ...bendsOf(path, width, isClosed).blocked.map(({ from, to }) => ({ from: sewn(from), to: sewn(to) })),
    ...wedges.map((w) => ({ from: sewn(w.from) - BESIDE_DART, to: sewn(w.from) + BESIDE_DART })),
  ];
}

/** How much nearer another edge's allowance may come before it takes in the cutting edge, mm. */
const TAKEN_IN = 0.05;

/** Whether the cutting edge runs along one side at a length from the seam's start: no allowance of another edge reaches over it. */
function isOpenOn({ panel, edge }: Side, widthOf: WidthOf, at: number): boolean {
  const { point, direction } = placeAlong(alongSeam(edge), panel.darts, at);
  const forward = edge.origin.kind === 'seam' && edge.origin.forward;
  const foot = add(point, scale(perpendicular(direction), forward ? -widthOf(edge) : widthOf(edge)));
  const isTakenIn = (other: PanelEdge): boolean => passesNear(other.path, foot, widthOf(other) - TAKEN_IN);
  return ![panel.boundary, ...panel.holes].some((ring) => ring.some(isTakenIn));
}

function openness(sides: readonly Side[], widthOf: WidthOf): (at: number) => boolean {
  const known = new Map<number, boolean>();
  return (at) => {
    const found = known.get(at) ?? sides.every((s) => isOpenOn(s, widthOf, at));
    known.set(at, found);
    return found;
  };
}

const hasDarts = ({ panel }: Side): boolean => panel.darts.length > 0 || panel.closings.length > 0;

function shapeOf(seam: Seam, sides: readonly Side[], widthOf: WidthOf): SeamShape {
  const isClosed = samePoint(startOf(seam.path), endOf(seam.path)) && sides.every((s) => s.before === s.edge);
  const allowance = Math.max(0, ...sides.map((s) => widthOf(s.edge)));
  const ends = isClosed ? [] : sides.map((s) => endsOf(s, widthOf));
  const { blocked, turning } = bendsOf(seam.path, allowance, isClosed);
  const keep = (which: 0 | 1): number => (isClosed ? 0 : Math.max(0, ...ends.map((e) => e[which])) + CLEAR);
  return {
    length: Math.min(seam.lengthA, seam.lengthB),
    isClosed,
    allowance,
    ends: [keep(0), keep(1)],
    blocked: sides.some(hasDarts) ? sides.flatMap((s) => blockedOn(s, allowance, isClosed)) : blocked,
    turning,
    isOpen: openness(sides, widthOf),
  };
}

/** A panel as far as seams on it are concerned, and what was found for each of its stretches. */
interface Ground {
  readonly found: Map<
    number,
    { readonly other: Ground | undefined; readonly key: string; readonly shape: SeamShape }
  >;
}

/** Remembered by shapes and widths: panels that stay while a line elsewhere moves keep their ground. */
const groundOnce = remember(
  (_ring: Ring, _holes: readonly Ring[], _darts: Panel['darts'], _stretches: readonly number[]): Ground => ({
    found: new Map(),
  }),
);

function groundOf({ boundary, holes, ring, holeRings, darts, closings }: Panel, widthOf: WidthOf): Ground {
  if (closings.length > 0) return { found: new Map() };
  const stretches = [boundary, ...holes].flatMap((r) => r.flatMap((e) => [e.path.length, widthOf(e)]));
  return groundOnce(ring, holeRings, darts, stretches);
}

const saidOf = ({ place, edge: { origin } }: Side): string =>
  `${place} ${origin.kind === 'seam' && origin.forward}`;

/** The room on a seam; kept while the panels on both its sides stay. */
function roomOf(
  seam: Seam,
  sides: readonly Side[],
  widthOf: WidthOf,
  grounds: ReadonlyMap<Panel, Ground>,
): SeamRoom {
  const [own, other] = sides.map((s) => grounds.get(s.panel)!);
  const key = `${sides.map(saidOf).join()} ${seam.lengthA} ${seam.lengthB} ${startOf(seam.path).join()}`;
  const known = own?.found.get(sides[0]!.place);
  const isSame = known?.key === key && known.other === other && seam.eased.length === 0;
  const shape = isSame ? known.shape : shapeOf(seam, sides, widthOf);
  if (!isSame) own?.found.set(sides[0]!.place, { other, key, shape });
  return { ...shape, seam, corners: [startOf(seam.path), endOf(seam.path)], kept: shape };
}

/** The room for marks on every seam of a piece, in the order of its seams. */
export const seamRooms = remember((sliced: PanelledPiece, allowances: Allowances): readonly SeamRoom[] => {
  const sides = sidesOfSeams(sliced.panels);
  const widthOf: WidthOf = (edge) => allowanceOf(edge, sliced.whole, allowances);
  const grounds = new Map(sliced.panels.map((p) => [p, groundOf(p, widthOf)] as const));
  return sliced.seams.map((seam) => roomOf(seam, sides.get(seam.id) ?? [], widthOf, grounds));
});
