import type { ConvexPart } from './convexParts';
import { contactEdges, convexSum, sidesOf, turnedHalf, unionBoundary } from './noFitEdges';
import type { EdgeSoup, PartBox } from './noFitEdges';

/** What is known of one cell of the grid laid over a no-fit region. */
interface Cell {
  /** 0: wholly outside, 1: wholly inside, 2: ask the half planes. */
  readonly kind: 0 | 1 | 2;
  /** nx, ny, c, last: a part's relevant half planes one after the other; last = 1 ends a part. */
  readonly planes: Float64Array;
  /** x, y, dx, dy, 1/length²: the boundary stretches that can be nearest to a point of the cell. */
  readonly edges: Float64Array;
}

const NOTHING = new Float64Array(0);
const OUTSIDE: Cell = { kind: 0, planes: NOTHING, edges: NOTHING };

/** Cells along each side of the grid. More cells: faster questions, more memory. */
const CELLS = 20;

/** A point this little inside (mm) still counts as touching: rounding of doubles at cloth size. */
const TOUCH = 1e-8;

/**
 * Where a moving shape may not be put because of a fixed one: the offsets at which their insides meet.
 * Kept as the union of the convex sums of their parts; `depth` is how far the moving shape must be pushed, at least, to
 * come free (distance to the boundary of that union). Cells of a grid are worked out when first asked for.
 */
export class NoFit {
  readonly box: PartBox;
  /** Boundary of the region: where the shapes touch. */
  readonly edges: EdgeSoup;
  /** Number of convex parts: what a new no-fit region costs grows with it. */
  readonly size: number;
  /** Set by `depth` when it is positive: the shortest push that frees the moving shape. */
  pushX = 0;
  pushY = 0;
  private readonly planes: readonly Float64Array[];
  private readonly cells: (Cell | undefined)[] = new Array<Cell | undefined>(CELLS * CELLS);
  private readonly perX: number;
  private readonly perY: number;

  /**
   * @param parts      convex parts of the region, at least one
   * @param candidates stretches x, y, dx, dy that its boundary is among
   */
  constructor(parts: readonly ConvexPart[], candidates: readonly number[]) {
    const sides = sidesOf(parts);
    this.size = parts.length;
    this.edges = unionBoundary(candidates, sides);
    this.planes = sides.map((s) => s.planes);
    const boxes = sides.map((s) => s.box);
    this.box = {
      minX: Math.min(...boxes.map((b) => b.minX)),
      minY: Math.min(...boxes.map((b) => b.minY)),
      maxX: Math.max(...boxes.map((b) => b.maxX)),
      maxY: Math.max(...boxes.map((b) => b.maxY)),
    };
    this.perX = CELLS / (this.box.maxX - this.box.minX);
    this.perY = CELLS / (this.box.maxY - this.box.minY);
  }

  /** 0 outside and on the boundary, else the least push that frees the moving shape, mm. */
  depth(x: number, y: number): number {
    const b = this.box;
    if (!(x > b.minX && x < b.maxX && y > b.minY && y < b.maxY)) return 0;
    const ix = Math.min(CELLS - 1, ((x - b.minX) * this.perX) | 0);
    const iy = Math.min(CELLS - 1, ((y - b.minY) * this.perY) | 0);
    const cell = this.cells[iy * CELLS + ix] ?? this.fill(ix, iy);
    if (cell.kind === 0 || (cell.kind === 2 && !isInside(cell.planes, x, y))) return 0;
    return this.nearest(cell.edges, x, y);
  }

  private nearest(edges: Float64Array, x: number, y: number): number {
    let best = Infinity;
    let toX = 0;
    let toY = 0;
    for (let k = 0; k < edges.length; k += 5) {
      const px = edges[k]! - x;
      const py = edges[k + 1]! - y;
      const dx = edges[k + 2]!;
      const dy = edges[k + 3]!;
      let t = -(px * dx + py * dy) * edges[k + 4]!;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const qx = px + t * dx;
      const qy = py + t * dy;
      const d = qx * qx + qy * qy;
      if (d < best) {
        best = d;
        toX = qx;
        toY = qy;
      }
    }
    this.pushX = toX;
    this.pushY = toY;
    return Math.sqrt(best);
  }

  private fill(ix: number, iy: number): Cell {
    const [hx, hy] = [0.5 / this.perX, 0.5 / this.perY];
    const [cx, cy] = [this.box.minX + (2 * ix + 1) * hx, this.box.minY + (2 * iy + 1) * hy];
    const cell = this.cellAt(cx, cy, hx, hy);
    this.cells[iy * CELLS + ix] = cell;
    return cell;
  }

  /** Half planes that cut the cell (centre, half sizes), part by part; a part that covers the cell settles it. */
  private cellAt(cx: number, cy: number, hx: number, hy: number): Cell {
    const groups: number[] = [];
    for (const planes of this.planes) {
      const own: number[] = [];
      let isApart = false;
      for (let k = 0; k < planes.length && !isApart; k += 3) {
        const nx = planes[k]!;
        const ny = planes[k + 1]!;
        const c = planes[k + 2]!;
        const room = c - TOUCH - nx * cx - ny * cy;
        const reach = Math.abs(nx) * hx + Math.abs(ny) * hy;
        if (room <= -reach) isApart = true;
        else if (room <= reach) own.push(nx, ny, c - TOUCH, 0);
      }
      if (isApart) continue;
      if (own.length === 0) return { kind: 1, planes: NOTHING, edges: this.nearEdges(cx, cy, hx, hy) };
      own[own.length - 1] = 1;
      groups.push(...own);
    }
    if (groups.length === 0) return OUTSIDE;
    return { kind: 2, planes: Float64Array.from(groups), edges: this.nearEdges(cx, cy, hx, hy) };
  }

  /** Boundary stretches no farther from the centre than the nearest one plus the cell's diameter. */
  private nearEdges(cx: number, cy: number, hx: number, hy: number): Float64Array {
    const e = this.edges;
    const far: number[] = [];
    let least = Infinity;
    for (let k = 0; k < e.length; k += 4) {
      const dx = e[k + 2]! - e[k]!;
      const dy = e[k + 3]! - e[k + 1]!;
      const px = e[k]! - cx;
      const py = e[k + 1]! - cy;
      const t = Math.min(1, Math.max(0, -(px * dx + py * dy) / (dx * dx + dy * dy)));
      const d = Math.sqrt((px + t * dx) ** 2 + (py + t * dy) ** 2);
      far.push(d);
      least = Math.min(least, d);
    }
    const most = least + 2 * Math.sqrt(hx * hx + hy * hy) + TOUCH;
    const out: number[] = [];
    far.forEach((d, i) => {
      if (d > most) return;
      const k = 4 * i;
      const [dx, dy] = [e[k + 2]! - e[k]!, e[k + 3]! - e[k + 1]!];
      out.push(e[k]!, e[k + 1]!, dx, dy, 1 / (dx * dx + dy * dy));
    });
    return Float64Array.from(out);
  }
}

function isInside(planes: Float64Array, x: number, y: number): boolean {
  let isIn = true;
  for (let k = 0; k < planes.length; k += 4) {
    if (isIn && planes[k]! * x + planes[k + 1]! * y >= planes[k + 2]!) isIn = false;
    if (planes[k + 3] === 1) {
      if (isIn) return true;
      isIn = true;
    }
  }
  return false;
}

/** A polygon, or several that overlap, as its outlines and as the convex parts of its inside. */
export interface PartedShape {
  /** Corner coordinates x0, y0, x1, y1 …, positive area; usually one outline. */
  readonly outlines: readonly Float64Array[];
  readonly parts: readonly ConvexPart[];
}

/** Offsets of `moving` from `fixed` (both about their own origins) at which their insides meet. */
export function noFitOf(fixed: PartedShape, moving: PartedShape): NoFit {
  const turned = moving.parts.map(turnedHalf);
  const turnedOutlines = moving.outlines.map(turnedHalf);
  const candidates = fixed.outlines.flatMap((p) => turnedOutlines.flatMap((q) => contactEdges(p, q)));
  return new NoFit(fixed.parts.flatMap((p) => turned.map((q) => convexSum(p, q))), candidates);
}
