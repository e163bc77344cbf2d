import {
  type Path,
  type Pt,
  cross,
  dot,
  distance,
  endOf,
  flattenPath,
  pathBox,
  pathLength,
  pointAtLength,
  startOf,
  subtract,
  unit,
} from '../geometry';
import type { Piece } from './design';

/** An edge as its shape and place show it. Shares are of the piece's height along the grain, 0 at the top. */
interface Shape {
  /** From end to end: along the grain and across it, mm, without sign. */
  readonly fall: number;
  readonly run: number;
  /** How far its middle lies inside (positive) or outside the chord, as a share of the chord. */
  readonly hollow: number;
  readonly top: number;
  readonly bottom: number;
  /** Across the grain: 0 at the drawing's left end of the piece, 1 at the right. */
  readonly across: number;
}

type Is = (shape: Shape) => boolean;

const isAcross: Is = (s) => s.run > 1.5 * s.fall;
const isUpright: Is = (s) => s.fall > 1.2 * s.run;

/**
 * How each edge is known by shape and place. The shares are our own, tried on the demonstration drafts and made-up ones; a piece
 * that does not fit all of them all round gets no proposals.
 */
const LOOKS: Readonly<Record<string, Is>> = {
  neckline: (s) => s.top < 0.35 && s.hollow > -0.05,
  shoulder: (s) => s.bottom < 0.45 && s.run > 0.8 * s.fall && Math.abs(s.hollow) < 0.08,
  armhole: (s) => s.hollow > 0.05 && s.bottom < 0.8 && s.fall > 0.3 * s.run,
  'side seam': (s) => isUpright(s) && s.bottom > 0.6,
  hem: (s) => isAcross(s) && s.bottom > 0.9 && s.top > 0.7,
  waist: (s) => isAcross(s) && s.top < 0.25 && s.bottom < 0.4,
  centre: (s) => s.fall > 3 * s.run && Math.abs(s.hollow) < 0.06 && Math.abs(s.across - 0.5) > 0.35,
  'sleeve cap': (s) => isAcross(s) && s.hollow < -0.1 && s.top < 0.05,
  'underarm seam': (s) => s.fall > 0.5 * s.run && s.bottom > 0.8 && Math.abs(s.hollow) < 0.15,
};

/** Edges of known kinds of piece, in order round it. A half on the fold is an open row of edges from fold to fold, others a ring. */
interface Kind {
  readonly edges: readonly string[];
  readonly onFold: boolean;
  /** What the piece's name must hold, where the shape alone does not tell. */
  readonly called: RegExp | null;
}

const UPPER = ['shoulder', 'armhole', 'side seam', 'hem'];
const KINDS: readonly Kind[] = [
  { edges: ['neckline', ...UPPER], onFold: true, called: null },
  { edges: ['neckline', ...UPPER, 'centre'], onFold: false, called: null },
  {
    edges: ['neckline', ...UPPER, 'side seam', 'armhole', 'shoulder'],
    onFold: false,
    called: null,
  },
  { edges: ['sleeve cap', 'underarm seam', 'hem', 'underarm seam'], onFold: false, called: null },
  { edges: ['sleeve cap', 'underarm seam', 'hem'], onFold: true, called: /\bsleeve\b/ },
  { edges: ['waist', 'side seam', 'hem'], onFold: true, called: /\bskirt\b/ },
  { edges: ['waist', 'side seam', 'hem', 'centre'], onFold: false, called: /\bskirt\b/ },
  { edges: ['waist', 'side seam', 'hem', 'side seam'], onFold: false, called: /\bskirt\b/ },
];

/** Down the grain as drawn: the traced one, else the fold, else straight down. */
function downOf({ grain, fold }: Piece): Pt {
  const line = grain ?? fold;
  const d = line ? unit(subtract(line[1], line[0])) : ([0, 1] as const);
  return d[1] < 0 ? [-d[0], -d[1]] : d;
}

function shapesOf(edges: readonly Path[], down: Pt): Shape[] {
  const across: Pt = [down[1], -down[0]];
  const turned = edges.map((path) => {
    const points = flattenPath(path).points;
    return points.map((p): Pt => [dot(p, across), dot(p, down)]);
  });
  const all = turned.flat();
  const box = pathBox(all.slice(1).map((p, i) => [all[i]!, p] as const));
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  return edges.map((path, i) => {
    const ys = turned[i]!.map((p) => p[1]);
    const [a, b] = [turned[i]![0]!, turned[i]!.at(-1)!];
    return {
      fall: Math.abs(b[1] - a[1]),
      run: Math.abs(b[0] - a[0]),
      hollow: hollowOf(path),
      top: (Math.min(...ys) - box.minY) / height,
      bottom: (Math.max(...ys) - box.minY) / height,
      across: ((a[0] + b[0]) / 2 - box.minX) / width,
    };
  });
}

/** Inside is where +90° from the direction of travel points, on a ring of positive signedArea. */
function hollowOf(path: Path): number {
  const [a, b] = [startOf(path), endOf(path)];
  const chord = distance(a, b);
  if (chord === 0) return 0;
  const length = pathLength(path);
  const offs = [0.25, 0.5, 0.75].map(
    (share) => cross(unit(subtract(b, a)), subtract(pointAtLength(path, length * share).point, a)) / chord,
  );
  return offs.reduce((most, o) => (Math.abs(o) > Math.abs(most) ? o : most), 0);
}

/** Words for a centre edge: of a front or of a back; null where the piece's name does not tell. */
function centreName(piece: Piece): string | null {
  const name = piece.name.toLowerCase();
  if (/\bback\b/.test(name)) return 'centre back';
  return /\bfront\b/.test(name) ? 'centre front' : null;
}

/** A bodice that ends at the waist level has a waist there and no hem, where the level was traced: this near, share of its height. */
const AT_WAIST = 0.06;

function lowerName(piece: Piece, edges: readonly Path[], down: Pt, hem: Path): string {
  const waist = piece.levels.find((l) => /\bwaist\b/i.test(l.name));
  if (!waist) return 'hem';
  const heights = edges.flat().map((c) => dot(c[0], down));
  const height = Math.max(...heights) - Math.min(...heights);
  const gap = Math.abs(dot(waist.line[0], down) - dot(startOf(hem), down));
  return gap < AT_WAIST * height ? 'waist' : 'hem';
}

/** The ways a kind's edges can be laid round a piece: either direction, a ring from any edge. */
function layings({ edges, onFold }: Kind): readonly (readonly string[])[] {
  const both = [edges, [...edges].reverse()];
  if (onFold) return both;
  return both.flatMap((row) => row.map((_, i) => [...row.slice(i), ...row.slice(0, i)]));
}

function fits(row: readonly string[], shapes: readonly Shape[], given: readonly (string | null)[]): boolean {
  return row.every((name, i) => {
    const own = given[i];
    if (own) return own === name || (name === 'centre' && own.startsWith('centre'));
    return LOOKS[name]!(shapes[i]!);
  });
}

/** The row, when all of them are alike. */
const onlyOne = (rows: readonly (readonly string[])[]): readonly string[] | null =>
  new Set(rows.map((row) => row.join('|'))).size === 1 ? rows[0]! : null;

/** Where a half bodice can be read either way round: its armhole is usually deeper than its neckline, its centre straighter than its side. */
function isUsual(row: readonly string[], shapes: readonly Shape[]): boolean {
  const of = (name: string): Shape | undefined => shapes[row.indexOf(name)];
  const [neck, arm, centre, side] = ['neckline', 'armhole', 'centre', 'side seam'].map(of);
  const isDeeper = !neck || !arm || arm.bottom > neck.bottom;
  return isDeeper && (!centre || !side || Math.abs(centre.hollow) <= Math.abs(side.hollow));
}

/**
 * Names for edges that nobody named, by shape and place on the piece: hem, neckline, shoulder, armhole, side seam, centre edge, sleeve cap,
 * underarm seam, and a skirt's waist. All edges of the piece must look like one known kind of piece, and only one way round; else
 * there are no proposals, and the edges stay numbered.
 * @param edges in ring order as traced; without the fold
 * @param given traced names, or null
 * @returns a name or null per edge; null where one was given
 */
export function proposeNames(
  piece: Piece,
  edges: readonly Path[],
  given: readonly (string | null)[],
): readonly (string | null)[] {
  const none = edges.map(() => null);
  const open = KINDS.filter((k) => k.onFold === (piece.fold !== null) && k.edges.length === edges.length);
  if (open.length === 0 || given.every((g) => g !== null)) return none;
  const down = downOf(piece);
  const shapes = shapesOf(edges, down);
  const rows = open
    .filter(({ called }) => !called || called.test(piece.name.toLowerCase()))
    .flatMap(layings)
    .filter((row) => fits(row, shapes, given));
  const row = onlyOne(rows) ?? onlyOne(rows.filter((r) => isUsual(r, shapes)));
  if (!row) return none;
  return row.map((name, i) => {
    if (given[i]) return null;
    if (name === 'centre') return centreName(piece);
    return name === 'hem' ? lowerName(piece, edges, down, edges[i]!) : name;
  });
}
