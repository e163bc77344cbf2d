import type { NoFit } from '../noFit/noFit';
import { settleX, settleY } from './domain';
import type { Domain } from './domain';
import type { LaySpace, LayState } from './laySpace';
import { overlapFrom } from './overlapMeasure';

/** What trying a place costs besides one look at every mover, and what one mover near enough to ask costs, in work. */
const LOOK = 10;
const HIT = 12;
/** What gathering costs per mover. */
const GATHER = 4;

/** Numbers kept per other piece: box of places where the two may overlap, shift and sign of the look-up, weight. */
const STRIDE = 8;

/**
 * One mover's surroundings while it is being moved, in one of its shapes: what the weighted overlap with all others would be at
 * any place. Gathered once per move, so that trying a place runs over one row of numbers.
 */
export class Nearness {
  shape = 0;
  /** Set by a full `cost`: the way in which the weighted overlap falls fastest. */
  downX = 0;
  downY = 0;
  private readonly space: LaySpace;
  private readonly n: number;
  private readonly row: Float64Array;
  private readonly regions: (NoFit | undefined)[];
  private readonly pairs: Int32Array;
  private edge: NoFit | null = null;
  private edgeWeight = 0;
  private domain!: Domain;
  private most = 0;
  /** Rows of the movers that may be met within the window, those that cost most first; and the window. */
  private readonly listed: Int32Array;
  /** Rows of all movers. */
  private readonly every: Int32Array;
  private readonly shares: Float64Array;
  private listedCount = 0;
  private fromX = Infinity;
  private toX = -Infinity;
  private fromY = Infinity;
  private toY = -Infinity;

  constructor(space: LaySpace) {
    this.space = space;
    this.n = space.count;
    this.row = new Float64Array(STRIDE * this.n);
    this.regions = new Array<NoFit | undefined>(this.n).fill(undefined);
    this.pairs = new Int32Array(this.n);
    this.listed = new Int32Array(this.n);
    this.every = Int32Array.from({ length: this.n }, (_, j) => STRIDE * j);
    this.shares = new Float64Array(this.n);
  }

  /**
   * Gather what is around mover i in a shape.
   * @param weights per mover: of its overlap with i
   * @param length of the cloth, mm
   */
  gather(
    i: number,
    shape: number,
    state: LayState,
    weights: Float64Array,
    from: number,
    scales: Float64Array,
    edgeWeight: number,
    length: number,
  ): void {
    const { space, n, row, regions } = this;
    const { x, y, shape: shapes } = state;
    const { boxes, sign, shiftX, shiftY } = space.pairs;
    const own = space.shapes[shape]!;
    this.shape = shape;
    this.fromX = Infinity;
    this.domain = own.domain;
    this.most = length - own.length;
    this.edge = space.isBounded ? space.edgeOf(shape) : null;
    this.edgeWeight = edgeWeight;
    space.meter.work += GATHER * n;
    for (let j = 0, r = 0; j < n; j += 1, r += STRIDE) {
      if (j === i) {
        row[r] = Infinity;
        continue;
      }
      const k = space.pairOf(shapes[j]!, shape);
      const [xj, yj, s] = [x[j]!, y[j]!, sign[k]!];
      row[r] = xj + boxes[4 * k]!;
      row[r + 1] = xj + boxes[4 * k + 1]!;
      row[r + 2] = yj + boxes[4 * k + 2]!;
      row[r + 3] = yj + boxes[4 * k + 3]!;
      row[r + 4] = shiftX[k]! - s * xj;
      row[r + 5] = shiftY[k]! - s * yj;
      row[r + 6] = s;
      row[r + 7] = weights[from + j]! * scales[j]!;
      this.pairs[j] = k;
      regions[j] = space.pairs.known(k);
    }
  }

  allowedX(x: number): number {
    return settleX(this.domain, x, this.most);
  }

  allowedY(y: number): number {
    return settleY(this.domain, y);
  }

  /** Length and width of the room for its place. */
  get roomX(): number {
    return Math.max(0, this.most - this.domain.lowX);
  }

  get lowX(): number {
    return this.domain.lowX;
  }

  get roomY(): number {
    return Math.max(0, this.domain.highY - this.domain.lowY);
  }

  get lowY(): number {
    return this.domain.lowY;
  }

  /** Weighted overlap at a place; Infinity as soon as it is not below `limit`. */
  cost(x: number, y: number, limit: number): number {
    this.space.meter.work += this.n;
    return this.sumOver(this.every, this.n, x, y, limit);
  }

  /** Begin to try places about x, y, up to `reach` from it: as `cost`, and sees who may be met there. */
  focus(x: number, y: number, reach: number): number {
    const { row, listed, shares } = this;
    this.fromX = x - reach;
    this.toX = x + reach;
    this.fromY = y - reach;
    this.toY = y + reach;
    const end = row.length;
    let count = 0;
    for (let r = 0; r < end; r += STRIDE) {
      if (
        this.toX <= row[r]! ||
        this.fromX >= row[r + 1]! ||
        this.toY <= row[r + 2]! ||
        this.fromY >= row[r + 3]!
      )
        continue;
      let share = 0;
      if (x > row[r]! && x < row[r + 1]! && y > row[r + 2]! && y < row[r + 3]!) {
        const region = this.regions[r >> 3] ?? this.region(r >> 3);
        const depth = region.depth(row[r + 6]! * x + row[r + 4]!, row[r + 6]! * y + row[r + 5]!);
        share = overlapFrom(depth) * row[r + 7]!;
      }
      let k = count;
      for (; k > 0 && shares[k - 1]! < share; k -= 1) {
        shares[k] = shares[k - 1]!;
        listed[k] = listed[k - 1]!;
      }
      shares[k] = share;
      listed[k] = r;
      count += 1;
    }
    this.listedCount = count;
    this.space.meter.work += this.n + LOOK + 2 * HIT * count;
    return this.costNear(x, y, Infinity);
  }

  /** The same as `cost`, for places near the one last focussed on. */
  costNear(x: number, y: number, limit: number): number {
    if (!(x >= this.fromX && x <= this.toX && y >= this.fromY && y <= this.toY)) {
      const reach = (this.toX - this.fromX) / 2;
      const cost = this.focus(x, y, reach);
      return cost < limit ? cost : Infinity;
    }
    return this.sumOver(this.listed, this.listedCount, x, y, limit);
  }

  /** Weighted overlap at a place with the edge of the cloth and the movers whose rows are listed. */
  private sumOver(list: Int32Array, count: number, x: number, y: number, limit: number): number {
    const { row, regions } = this;
    let sum = 0;
    let downX = 0;
    let downY = 0;
    let hits = 0;
    if (this.edge) {
      const depth = this.edge.depth(x, y);
      if (depth > 0) {
        sum = overlapFrom(depth) * this.edgeWeight;
        downX = this.edge.downX * this.edgeWeight;
        downY = this.edge.downY * this.edgeWeight;
      }
    }
    for (let k = 0; k < count; k += 1) {
      const r = list[k]!;
      if (x <= row[r]! || x >= row[r + 1]! || y <= row[r + 2]! || y >= row[r + 3]!) continue;
      const region = regions[r >> 3] ?? this.region(r >> 3);
      const s = row[r + 6]!;
      hits += 1;
      const depth = region.depth(s * x + row[r + 4]!, s * y + row[r + 5]!);
      if (depth === 0) continue;
      const weight = row[r + 7]!;
      sum += overlapFrom(depth) * weight;
      if (sum >= limit) {
        sum = Infinity;
        break;
      }
      downX += region.downX * s * weight;
      downY += region.downY * s * weight;
    }
    this.space.meter.work += LOOK + HIT * hits;
    this.downX = downX;
    this.downY = downY;
    return sum;
  }

  private region(j: number): NoFit {
    const made = this.space.pairs.region(this.pairs[j]!);
    this.regions[j] = made;
    return made;
  }
}
