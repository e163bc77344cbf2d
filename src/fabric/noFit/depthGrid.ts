import type { EdgeSoup, PartBox } from './noFitEdges';

/** Half planes nx, ny, c of the convex parts of a region one part after the other, where each part's begin, and its boundary. */
export interface RegionSides extends PartBox {
  readonly planes: Float64Array;
  readonly partStarts: readonly number[];
  readonly edges: EdgeSoup;
}

/** Work is counted here, in simple look-ups. */
export interface Meter {
  work: number;
}

/** Cells along each side of the grid, and of a block of cells that share one look at the whole region. */
const BLOCK = 6;
const BLOCKS = 8;
const CELLS = BLOCK * BLOCKS;
const CORNERS = CELLS + 1;

/** A point this little inside (mm) still counts as touching: rounding of doubles at cloth size. */
const TOUCH = 1e-8;

/** What a cell is known to be; from 1 on: where its list begins in the pool. */
const UNKNOWN = 0;
const OUTSIDE = -1;
const INSIDE = -2;

/** What filling a cell or corner costs per thing looked at, and an exact look beyond the plain one, in work. */
const FILL = 0.5;
const EXACT = 3;

/** The parts' half planes (a part's last one marked by ~) and the boundary's stretches that matter in a block of cells. */
interface Block {
  /** 0: the boundary may run through it. */
  readonly kind: number;
  readonly planes: Int32Array;
  readonly stretches: Int32Array;
}

/** Reused lists: of half planes or stretches picked, and of squared distances. */
let picked = new Int32Array(1024);
let squares = new Float64Array(1024);

function makeRoom(count: number): void {
  if (count <= picked.length) return;
  picked = new Int32Array(2 * count);
  squares = new Float64Array(2 * count);
}

/**
 * A grid over a region that answers how deep a point lies in it: exactly in cells that the boundary runs through, from the depths
 * of the corners in those wholly inside. Cells are worked out when first asked for, from blocks of cells, which are too.
 */
export class DepthGrid {
  /** Outside it nothing is inside. */
  readonly box: PartBox;
  /** Boundary of the region: where the shapes touch. */
  readonly edges: EdgeSoup;
  /** Number of convex parts: what a new region costs grows with it. */
  readonly size: number;
  /** Set by `depth` where it is positive: the direction in which it falls fastest (per mm; of length 1 or less). */
  downX = 0;
  downY = 0;
  private readonly sides: RegionSides;
  private readonly meter: Meter;
  /** The boundary's stretches as x, y, dx, dy, 1/length². */
  private readonly stretches: Float64Array;
  private readonly everyPlane: Int32Array;
  private readonly everyStretch: Int32Array;
  private readonly perX: number;
  private readonly perY: number;
  private readonly blocks: (Block | undefined)[] = new Array<Block | undefined>(BLOCKS * BLOCKS).fill(
    undefined,
  );
  private readonly cells = new Int32Array(CELLS * CELLS);
  private readonly corners = new Float32Array(CORNERS * CORNERS).fill(-1);
  /** Per listed cell: number of planes, planes (a part's last one marked by ~), number of stretches, stretches. */
  private pool = new Int32Array(512);
  private pooled = 1;

  constructor(sides: RegionSides, meter: Meter) {
    this.sides = sides;
    this.box = sides;
    this.edges = sides.edges;
    this.size = sides.partStarts.length - 1;
    this.meter = meter;
    this.stretches = stretchesOf(sides.edges);
    this.everyPlane = Int32Array.from({ length: sides.planes.length / 3 }, (_, i) => 3 * i);
    for (const end of sides.partStarts) if (end > 0) this.everyPlane[end / 3 - 1] = ~(end - 3);
    this.everyStretch = Int32Array.from({ length: this.stretches.length / 5 }, (_, i) => 5 * i);
    this.perX = CELLS / (sides.maxX - sides.minX);
    this.perY = CELLS / (sides.maxY - sides.minY);
  }

  /** 0 outside and on the boundary, else about the distance to the boundary, mm; positive exactly where the point is inside. */
  depth(x: number, y: number): number {
    const s = this.sides;
    const gx = (x - s.minX) * this.perX;
    const gy = (y - s.minY) * this.perY;
    if (!(gx > 0 && gx < CELLS && gy > 0 && gy < CELLS)) return 0;
    const ix = gx | 0;
    const iy = gy | 0;
    const at = iy * CELLS + ix;
    let cell = this.cells[at]!;
    if (cell === UNKNOWN) cell = this.fill(ix, iy);
    if (cell === OUTSIDE) return 0;
    if (cell > 0) {
      this.meter.work += EXACT;
      return this.exact(cell, x, y);
    }
    return this.mixed(iy * CORNERS + ix, gx - ix, gy - iy);
  }

  /** Between the depths of a cell's corners. */
  private mixed(k: number, u: number, v: number): number {
    const c = this.corners;
    const a = c[k]!;
    const b = c[k + 1]!;
    const d = c[k + CORNERS]!;
    const e = c[k + CORNERS + 1]!;
    const low = a + (b - a) * u;
    const high = d + (e - d) * u;
    this.downX = ((a - b) * (1 - v) + (d - e) * v) * this.perX;
    this.downY = (low - high) * this.perY;
    return low + (high - low) * v;
  }

  /** In a listed cell: whether the point is inside any part, then the nearest stretch. */
  private exact(cell: number, x: number, y: number): number {
    const end = cell + 1 + this.pool[cell]!;
    return this.isInAny(this.pool, cell + 1, end, x, y) ? this.nearest(end, x, y) : 0;
  }

  /** Whether the point is inside any part whose half planes are listed. */
  private isInAny(list: Int32Array, from: number, end: number, x: number, y: number): boolean {
    const planes = this.sides.planes;
    let isIn = true;
    for (let k = from; k < end; k += 1) {
      const entry = list[k]!;
      const p = entry < 0 ? ~entry : entry;
      if (isIn && planes[p]! * x + planes[p + 1]! * y >= planes[p + 2]! - TOUCH) isIn = false;
      if (entry < 0) {
        if (isIn) return true;
        isIn = true;
      }
    }
    return false;
  }

  /** Whether the depth is positive: quicker to ask at a place that is asked about only once. */
  isInside(x: number, y: number): boolean {
    const s = this.sides;
    const gx = (x - s.minX) * this.perX;
    const gy = (y - s.minY) * this.perY;
    if (!(gx > 0 && gx < CELLS && gy > 0 && gy < CELLS)) return false;
    const cell = this.cells[(gy | 0) * CELLS + (gx | 0)]!;
    if (cell > 0) return this.isInAny(this.pool, cell + 1, cell + 1 + this.pool[cell]!, x, y);
    if (cell !== UNKNOWN) return cell === INSIDE;
    const { kind, planes } = this.blockOf(gx | 0, gy | 0);
    this.meter.work += planes.length;
    return kind === 0 ? this.isInAny(planes, 0, planes.length, x, y) : kind === INSIDE;
  }

  /** Distance to the nearest of the stretches listed in the pool from `k`. */
  private nearest(k: number, x: number, y: number): number {
    const { pool, stretches: s } = this;
    const end = k + 1 + pool[k]!;
    let best = Infinity;
    let toX = 0;
    let toY = 0;
    for (let i = k + 1; i < end; i += 1) {
      const at = pool[i]!;
      const px = s[at]! - x;
      const py = s[at + 1]! - y;
      const dx = s[at + 2]!;
      const dy = s[at + 3]!;
      let t = -(px * dx + py * dy) * s[at + 4]!;
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
    const depth = Math.sqrt(best);
    this.downX = toX / depth;
    this.downY = toY / depth;
    return depth;
  }

  private fill(ix: number, iy: number): number {
    const { kind, planes, stretches } = this.blockOf(ix, iy);
    const [hx, hy] = [0.5 / this.perX, 0.5 / this.perY];
    const [cx, cy] = [this.sides.minX + (2 * ix + 1) * hx, this.sides.minY + (2 * iy + 1) * hy];
    let cell = kind;
    if (kind === 0) {
      const count = this.planesNear(planes, cx, cy, hx, hy);
      cell = count > 0 ? this.list(count, stretches, cx, cy, hx, hy) : count;
    }
    if (cell === INSIDE)
      for (const k of [0, 1, CORNERS, CORNERS + 1]) this.fillCorner(iy * CORNERS + ix + k, stretches);
    this.cells[iy * CELLS + ix] = cell;
    return cell;
  }

  private fillCorner(k: number, stretches: Int32Array): void {
    if (this.corners[k]! >= 0) return;
    const x = this.sides.minX + (k % CORNERS) / this.perX;
    const y = this.sides.minY + Math.floor(k / CORNERS) / this.perY;
    this.corners[k] = Math.sqrt(this.leastSquare(stretches, x, y));
  }

  /** Into the pool: the planes picked last, and the stretches near a box. @returns where */
  private list(
    planes: number,
    stretches: Int32Array,
    cx: number,
    cy: number,
    hx: number,
    hy: number,
  ): number {
    const most = planes + stretches.length + 2;
    if (this.pooled + most > this.pool.length) {
      const larger = new Int32Array(2 * this.pool.length + most);
      larger.set(this.pool);
      this.pool = larger;
    }
    const at = this.pooled;
    const { pool } = this;
    pool[at] = planes;
    for (let k = 0; k < planes; k += 1) pool[at + 1 + k] = picked[k]!;
    const count = this.stretchesNear(stretches, cx, cy, hx, hy);
    pool[at + 1 + planes] = count;
    for (let k = 0; k < count; k += 1) pool[at + 2 + planes + k] = picked[k]!;
    this.pooled += planes + count + 2;
    return at;
  }

  private blockOf(ix: number, iy: number): Block {
    const [bx, by] = [(ix / BLOCK) | 0, (iy / BLOCK) | 0];
    return this.blocks[by * BLOCKS + bx] ?? this.makeBlock(bx, by);
  }

  private makeBlock(bx: number, by: number): Block {
    const { sides } = this;
    const [hx, hy] = [(0.5 * BLOCK) / this.perX, (0.5 * BLOCK) / this.perY];
    const [cx, cy] = [sides.minX + (2 * bx + 1) * hx, sides.minY + (2 * by + 1) * hy];
    const count = this.planesNear(this.everyPlane, cx, cy, hx, hy);
    const planes = picked.slice(0, Math.max(0, count));
    const near = count === OUTSIDE ? 0 : this.stretchesNear(this.everyStretch, cx, cy, hx, hy);
    const block: Block = { kind: Math.min(0, count), planes, stretches: picked.slice(0, near) };
    this.blocks[by * BLOCKS + bx] = block;
    return block;
  }

  /**
   * Pick of listed half planes those that cut a box (centre, half sizes), part by part; a part that covers the box settles it.
   * @returns how many were picked; OUTSIDE or INSIDE for none
   */
  private planesNear(listed: Int32Array, cx: number, cy: number, hx: number, hy: number): number {
    const { planes } = this.sides;
    makeRoom(listed.length);
    this.meter.work += listed.length * FILL;
    let count = 0;
    let before = 0;
    let isApart = false;
    for (let i = 0; i < listed.length; i += 1) {
      const entry = listed[i]!;
      const k = entry < 0 ? ~entry : entry;
      if (!isApart) {
        const nx = planes[k]!;
        const ny = planes[k + 1]!;
        const room = planes[k + 2]! - TOUCH - nx * cx - ny * cy;
        const reach = (nx < 0 ? -nx : nx) * hx + (ny < 0 ? -ny : ny) * hy;
        if (room <= -reach) isApart = true;
        else if (room <= reach) {
          picked[count] = k;
          count += 1;
        }
      }
      if (entry >= 0) continue;
      if (isApart) count = before;
      else if (count === before) return INSIDE;
      else picked[count - 1] = ~picked[count - 1]!;
      before = count;
      isApart = false;
    }
    return count === 0 ? OUTSIDE : count;
  }

  /** Pick of listed stretches those no farther from a box's centre than the nearest one plus the box's diameter. */
  private stretchesNear(listed: Int32Array, cx: number, cy: number, hx: number, hy: number): number {
    const least = Math.sqrt(this.leastSquare(listed, cx, cy));
    const most = least + 2 * Math.sqrt(hx * hx + hy * hy) + TOUCH;
    let count = 0;
    for (let i = 0; i < listed.length; i += 1) {
      if (squares[i]! > most * most) continue;
      picked[count] = listed[i]!;
      count += 1;
    }
    return count;
  }

  /** Square of the distance from a point to the nearest of listed stretches; those to each of them are left in `squares`. */
  private leastSquare(listed: Int32Array, x: number, y: number): number {
    const s = this.stretches;
    makeRoom(listed.length);
    this.meter.work += listed.length * FILL;
    let least = Infinity;
    for (let i = 0; i < listed.length; i += 1) {
      const k = listed[i]!;
      const px = s[k]! - x;
      const py = s[k + 1]! - y;
      const dx = s[k + 2]!;
      const dy = s[k + 3]!;
      let t = -(px * dx + py * dy) * s[k + 4]!;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const qx = px + t * dx;
      const qy = py + t * dy;
      const d = qx * qx + qy * qy;
      squares[i] = d;
      if (d < least) least = d;
    }
    return least;
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
