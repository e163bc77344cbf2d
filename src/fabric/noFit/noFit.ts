import type { ConvexPart } from './convexParts';
import { contactEdges, convexSum, sidesOf, turnedHalf, unionBoundary } from './noFitEdges';
import type { EdgeSoup, PartBox } from './noFitEdges';

/** What is known of one cell of the grid laid over a no-fit region. */
interface Cell {
  /** 0: wholly outside, 1: wholly inside, 2: ask the half planes. */
  readonly kind: 0 | 1 | 2;
  /** A part's relevant half planes one after the other, as places in the region's list; ~place ends a part. */
  readonly planes: readonly number[];
  /** The boundary stretches that can be nearest to a point of the cell, as places in the region's list. */
  readonly edges: readonly number[];
}

const NOTHING: readonly number[] = [];
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
  /** Half planes nx, ny, c of all parts, and where each part's begin. */
  private readonly planes: Float64Array;
  private readonly partStarts: readonly number[];
  /** The boundary's stretches as x, y, dx, dy, 1/length². */
  private readonly stretches: Float64Array;
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
    this.stretches = stretchesOf(this.edges);
    const starts = [0];
    for (const { planes } of sides) starts.push(starts.at(-1)! + planes.length);
    this.partStarts = starts;
    this.planes = new Float64Array(starts.at(-1)!);
    sides.forEach(({ planes }, i) => this.planes.set(planes, starts[i]));
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
    if (cell.kind === 0 || (cell.kind === 2 && !isInside(this.planes, cell.planes, x, y))) return 0;
    return this.nearest(cell.edges, x, y);
  }

  private nearest(near: readonly number[], x: number, y: number): number {
    const s = this.stretches;
    let best = Infinity;
    let toX = 0;
    let toY = 0;
    for (let i = 0; i < near.length; i += 1) {
      const k = near[i]!;
      const px = s[k]! - x;
      const py = s[k + 1]! - y;
      const dx = s[k + 2]!;
      const dy = s[k + 3]!;
      let t = -(px * dx + py * dy) * s[k + 4]!;
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
    const { planes, partStarts } = this;
    const groups: number[] = [];
    for (let part = 0; part + 1 < partStarts.length; part += 1) {
      const before = groups.length;
      let isApart = false;
      for (let k = partStarts[part]!; k < partStarts[part + 1]! && !isApart; k += 3) {
        const nx = planes[k]!;
        const ny = planes[k + 1]!;
        const room = planes[k + 2]! - TOUCH - nx * cx - ny * cy;
        const reach = Math.abs(nx) * hx + Math.abs(ny) * hy;
        if (room <= -reach) isApart = true;
        else if (room <= reach) groups.push(k);
      }
      if (isApart) groups.length = before;
      else if (groups.length === before)
        return { kind: 1, planes: NOTHING, edges: this.nearEdges(cx, cy, hx, hy) };
      else groups.push(~groups.pop()!);
    }
    if (groups.length === 0) return OUTSIDE;
    return { kind: 2, planes: groups.slice(), edges: this.nearEdges(cx, cy, hx, hy) };
  }

  /** Boundary stretches no farther from the centre than the nearest one plus the cell's diameter. */
  private nearEdges(cx: number, cy: number, hx: number, hy: number): readonly number[] {
    const s = this.stretches;
    const far: number[] = [];
    let least = Infinity;
    for (let k = 0; k < s.length; k += 5) {
      const dx = s[k + 2]!;
      const dy = s[k + 3]!;
      const px = s[k]! - cx;
      const py = s[k + 1]! - cy;
      const t = Math.min(1, Math.max(0, -(px * dx + py * dy) * s[k + 4]!));
      const d = Math.sqrt((px + t * dx) ** 2 + (py + t * dy) ** 2);
      far.push(d);
      if (d < least) least = d;
    }
    const most = least + 2 * Math.sqrt(hx * hx + hy * hy) + TOUCH;
    const out: number[] = [];
    for (let i = 0; i < far.length; i += 1) if (far[i]! <= most) out.push(5 * i);
    return out.slice();
  }
}

function stretchesOf(edges: EdgeSoup): Float64Array {
  const out = new Float64Array((edges.length / 4) * 5);
  for (let k = 0, at = 0; k < edges.length; k += 4, at += 5) {
    const dx = edges[k + 2]! - edges[k]!;
    const dy = edges[k + 3]! - edges[k + 1]!;
    out.set([edges[k]!, edges[k + 1]!, dx, dy, 1 / (dx * dx + dy * dy)], at);
  }
  return out;
}

/** Whether a point is inside any of the parts whose half planes are listed; ~place ends a part's. */
function isInside(planes: Float64Array, list: readonly number[], x: number, y: number): boolean {
  let isIn = true;
  for (let i = 0; i < list.length; i += 1) {
    const entry = list[i]!;
    const k = entry < 0 ? ~entry : entry;
    if (isIn && planes[k]! * x + planes[k + 1]! * y >= planes[k + 2]! - TOUCH) isIn = false;
    if (entry < 0) {
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
  return new NoFit(
    fixed.parts.flatMap((p) => turned.map((q) => convexSum(p, q))),
    candidates,
  );
}
