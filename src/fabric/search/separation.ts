import { firstX, hasLattice, settleX, settleY } from './domain';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';

/** What trying a place costs besides one look at every piece, and what one piece near enough to ask costs, in work. */
const LOOK = 10;
const HIT = 12;

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

const cube = (v: number): number => v * v * v;

/** Overlaps of large pieces weigh more: area to the power 3/8 for each of the two (square roots only: the same bits everywhere). */
const scaleOf = (area: number): number => cube(Math.sqrt(Math.sqrt(Math.sqrt(area))));

/** A tried place of one piece. */
interface Spot {
  shape: number;
  x: number;
  y: number;
  cost: number;
}

/** Places tried per move: all over the cloth, near the present one, and how many of the best are worked on. */
const WIDE_SAMPLES = 14;
const NEAR_SAMPLES = 10;
const REFINED = 3;
/** A round multiplies the weight of an overlapping pair by this much: from least to most with its overlap; and fades the others. */
const GROWTH = { least: 1.2, most: 2 };
const FADE = 0.95;
/** Near samples lie within this share of the shape's length and width, and this share of them keeps its turn. */
const NEAR_REACH = 0.25;
const SAME_TURN = 0.5;

function growOrFade(weights: Float64Array, overlaps: Float64Array, most: number): void {
  for (let k = 0; k < weights.length; k += 1) {
    const o = overlaps[k]!;
    weights[k] =
      o > 0
        ? weights[k]! * (GROWTH.least + (GROWTH.most - GROWTH.least) * (o / most))
        : Math.max(1, weights[k]! * FADE);
  }
}

/**
 * Drives the overlap out of a lay on cloth of a fixed length: guided local search over places and turns. Each pair's
 * overlap is the depth of the no-fit region (the least push that frees it), and each pair has a weight that grows while
 * it overlaps, so that the search is pushed out of dead ends.
 * Method after the published work on irregular strip packing by guided local search (Egeblad, Nielsen, Odgaard 2007;
 * Umetani and others 2009); sampling and weight rules are our own tuning.
 */
export class Separation {
  readonly state: LayState;
  /** Sum of the pairs' overlaps, unweighted; 0 when the lay is sound. */
  total = 0;
  private readonly space: LaySpace;
  private readonly random: () => number;
  private readonly n: number;
  /** Shapes that fit this length. */
  private readonly turns: readonly (readonly number[])[];
  private readonly length: number;
  private readonly weights: Float64Array;
  private readonly overlaps: Float64Array;
  /** The same for each piece and the edge of bounded cloth. */
  private readonly edgeWeights: Float64Array;
  private readonly edgeOverlaps: Float64Array;
  private readonly scales: Float64Array;
  private readonly spots: Spot[] = [];
  /** Set by a full `cost`: the way in which the weighted overlap falls fastest. */
  private downX = 0;
  private downY = 0;

  constructor(space: LaySpace, state: LayState, length: number, random: () => number) {
    this.space = space;
    this.state = copyState(state);
    this.length = length;
    this.random = random;
    this.n = space.count;
    this.weights = new Float64Array(this.n * this.n).fill(1);
    this.overlaps = new Float64Array(this.n * this.n);
    this.edgeWeights = new Float64Array(this.n).fill(1);
    this.edgeOverlaps = new Float64Array(this.n);
    this.scales = Float64Array.from(space.turns, (turns) => scaleOf(space.shapes[turns[0]!]!.area));
    const fits = (s: number): boolean =>
      firstX(space.shapes[s]!.domain) + space.shapes[s]!.length <= length + ROUNDING;
    this.turns = space.turns.map((turns) => turns.filter(fits));
    for (let i = 0; i < this.n; i += 1) this.clampToCloth(i);
    this.measureAll();
  }

  private clampToCloth(i: number): void {
    const { state } = this;
    const turns = this.turns[i]!;
    if (!turns.includes(state.shape[i]!)) state.shape[i] = turns[0]!;
    const shape = state.shape[i]!;
    state.x[i] = this.allowedX(shape, state.x[i]!);
    state.y[i] = this.allowedY(shape, state.y[i]!);
  }

  private roomAlong(shape: number): number {
    return Math.max(0, this.length - this.space.shapes[shape]!.length);
  }

  private allowedX(shape: number, x: number): number {
    const { domain, length } = this.space.shapes[shape]!;
    return settleX(domain, x, this.length - length);
  }

  private allowedY(shape: number, y: number): number {
    return settleY(this.space.shapes[shape]!.domain, y);
  }

  private overlapOf(i: number, j: number): number {
    const { x, y, shape } = this.state;
    const depth = this.space.depth(shape[j]!, shape[i]!, x[i]! - x[j]!, y[i]! - y[j]!);
    return depth * this.scales[i]! * this.scales[j]!;
  }

  private setOverlap(i: number, j: number): void {
    const overlap = this.overlapOf(i, j);
    this.overlaps[i * this.n + j] = overlap;
    this.overlaps[j * this.n + i] = overlap;
  }

  private setEdgeOverlap(i: number): void {
    const { x, y, shape } = this.state;
    const depth = this.space.depthOffCloth(shape[i]!, x[i]!, y[i]!);
    this.edgeOverlaps[i] = depth * this.scales[i]! * this.scales[i]!;
  }

  private measureAll(): void {
    for (let i = 0; i < this.n; i += 1) {
      this.setEdgeOverlap(i);
      for (let j = 0; j < i; j += 1) this.setOverlap(i, j);
    }
    this.sum();
  }

  private sum(): void {
    this.total = 0;
    for (let i = 0; i < this.n; i += 1) {
      this.total += this.edgeOverlaps[i]!;
      for (let j = 0; j < i; j += 1) this.total += this.overlaps[i * this.n + j]!;
    }
  }

  /** Weighted overlap of piece i at a place; Infinity as soon as it is not below `limit`. */
  private cost(i: number, shape: number, x: number, y: number, limit: number): number {
    const { space, n, weights, scales } = this;
    const { x: xs, y: ys, shape: shapes } = this.state;
    const { boxes, forms, shapes: all } = space;
    const count = forms.length;
    const { form } = all[shape]!;
    space.meter.work += n + LOOK;
    let sum = 0;
    let downX = 0;
    let downY = 0;
    if (space.isBounded) {
      const edge = space.edgeOf(shape);
      const depth = edge.depth(x, y);
      space.meter.work += HIT;
      if (depth > 0) {
        const weight = this.edgeWeights[i]! * scales[i]!;
        sum = depth * weight;
        downX = (edge.pushX * weight) / depth;
        downY = (edge.pushY * weight) / depth;
      }
    }
    for (let j = 0; j < n; j += 1) {
      const b = 4 * (all[shapes[j]!]!.form * count + form);
      const dx = x - xs[j]!;
      const dy = y - ys[j]!;
      if (dx <= boxes[b]! || dx >= boxes[b + 1]! || dy <= boxes[b + 2]! || dy >= boxes[b + 3]! || j === i)
        continue;
      const p = space.pairing(shapes[j]!, shape);
      space.meter.work += HIT;
      const depth = p.noFit.depth(p.shiftX + p.sign * dx, p.shiftY + p.sign * dy);
      if (depth === 0) continue;
      const weight = weights[i * n + j]! * scales[j]!;
      sum += depth * weight;
      if (sum >= limit) return Infinity;
      const unit = (p.sign * weight) / depth;
      downX += p.noFit.pushX * unit;
      downY += p.noFit.pushY * unit;
    }
    this.downX = downX;
    this.downY = downY;
    return sum;
  }

  private offer(shape: number, x: number, y: number, cost: number): void {
    const { spots } = this;
    let k = spots.length;
    while (k > 0 && spots[k - 1]!.cost > cost) k -= 1;
    spots.splice(k, 0, { shape, x, y, cost });
    if (spots.length > REFINED) spots.pop();
  }

  private limit(): number {
    return this.spots.length < REFINED ? Infinity : this.spots[REFINED - 1]!.cost;
  }

  private trySpot(i: number, shape: number, x: number, y: number): void {
    const [atX, atY] = [this.allowedX(shape, x), this.allowedY(shape, y)];
    const cost = this.cost(i, shape, atX, atY, this.limit());
    if (cost < Infinity) this.offer(shape, atX, atY, cost);
  }

  private sample(i: number): void {
    const { state, random, space } = this;
    const turns = this.turns[i]!;
    const pick = (): number => turns[(random() * turns.length) | 0]!;
    for (let k = 0; k < WIDE_SAMPLES; k += 1) {
      const shape = pick();
      const { lowY, highY } = space.shapes[shape]!.domain;
      this.trySpot(i, shape, random() * this.roomAlong(shape), lowY + random() * (highY - lowY));
    }
    for (let k = 0; k < NEAR_SAMPLES; k += 1) {
      const shape = random() < SAME_TURN ? state.shape[i]! : pick();
      const s = space.shapes[shape]!;
      const x = state.x[i]! + (2 * random() - 1) * s.length * NEAR_REACH;
      const y = state.y[i]! + (2 * random() - 1) * s.width * NEAR_REACH;
      this.trySpot(i, shape, x, y);
    }
  }

  /** Try a spot moved by dx, dy (kept on the cloth); takes it if it is cheaper. */
  private tryStep(i: number, spot: Spot, dx: number, dy: number): boolean {
    const x = this.allowedX(spot.shape, spot.x + dx);
    const y = this.allowedY(spot.shape, spot.y + dy);
    const cost = this.cost(i, spot.shape, x, y, spot.cost);
    if (cost >= spot.cost) return false;
    spot.x = x;
    spot.y = y;
    spot.cost = cost;
    return true;
  }

  /** On cloth with a repeat: from one lattice place to the next while that is cheaper. */
  private hop(i: number, spot: Spot): void {
    const { stepX, stepY } = this.space.shapes[spot.shape]!.domain;
    const hops = [
      [stepX, 0],
      [-stepX, 0],
      [0, stepY],
      [0, -stepY],
    ].filter(([dx, dy]) => dx !== 0 || dy !== 0);
    let isBetter = true;
    while (isBetter && spot.cost > 0) isBetter = hops.some(([dx, dy]) => this.tryStep(i, spot, dx!, dy!));
  }

  /** Walk a spot the way its overlap falls fastest, in steps that grow on success and shrink on failure. */
  private slide(i: number, spot: Spot, first: number, last: number): void {
    this.cost(i, spot.shape, spot.x, spot.y, Infinity);
    let gx = this.downX;
    let gy = this.downY;
    for (let step = first; spot.cost > 0 && step > last;) {
      const l = Math.sqrt(gx * gx + gy * gy);
      if (l === 0) return;
      if (this.tryStep(i, spot, (gx / l) * step, (gy / l) * step)) {
        gx = this.downX;
        gy = this.downY;
        step *= 1.5;
      } else step *= 0.4;
    }
  }

  /** Walk a spot downhill by axis and slanting steps that grow on success and shrink on failure. */
  private feel(i: number, spot: Spot, first: number, last: number): void {
    let stepX = first;
    let stepY = first;
    while (spot.cost > 0 && Math.max(stepX, stepY) > last) {
      const way = (this.random() * 4) | 0;
      const ux = way === 1 ? 0 : stepX;
      const uy = way === 0 ? 0 : way === 3 ? -stepY : stepY;
      const better = this.tryStep(i, spot, ux, uy) || this.tryStep(i, spot, -ux, -uy);
      const factor = better ? 1.1 : way > 1 ? 0.7 : 0.5;
      if (way !== 1) stepX *= factor;
      if (way !== 0) stepY *= factor;
    }
  }

  /** Move piece i to the cheapest place found, if that is cheaper than where it is. */
  private movePiece(i: number): void {
    const { state, spots } = this;
    const size = Math.min(
      this.space.shapes[state.shape[i]!]!.length,
      this.space.shapes[state.shape[i]!]!.width,
    );
    const here = { shape: state.shape[i]!, x: state.x[i]!, y: state.y[i]!, cost: 0 };
    here.cost = this.cost(i, here.shape, here.x, here.y, Infinity);
    const before = here.cost;
    spots.length = 0;
    this.sample(i);
    if (hasLattice(this.space.shapes[here.shape]!.domain)) spots.push({ ...here });
    for (const spot of spots) {
      this.slide(i, spot, size * 0.04, size * 0.004);
      if (hasLattice(this.space.shapes[spot.shape]!.domain)) this.hop(i, spot);
    }
    this.slide(i, here, size * 0.02, size * 0.002);
    let best = here;
    for (const spot of spots) if (spot.cost < best.cost) best = spot;
    this.slide(i, best, size * 0.004, size * 0.002);
    this.feel(i, best, size * 0.002, size * 0.0005);
    if (best.cost >= before) return;
    state.shape[i] = best.shape;
    state.x[i] = best.x;
    state.y[i] = best.y;
    this.setEdgeOverlap(i);
    for (let j = 0; j < this.n; j += 1) if (j !== i) this.setOverlap(i, j);
  }

  private overlapping(): number[] {
    const out: number[] = [];
    for (let i = 0; i < this.n; i += 1) {
      let any = this.edgeOverlaps[i]! > 0;
      for (let j = 0; j < this.n && !any; j += 1) any = this.overlaps[i * this.n + j]! > 0;
      if (any) out.push(i);
    }
    for (let k = out.length - 1; k > 0; k -= 1) {
      const m = (this.random() * (k + 1)) | 0;
      [out[k], out[m]] = [out[m]!, out[k]!];
    }
    return out;
  }

  private growWeights(): void {
    let most = 0;
    for (const o of this.overlaps) if (o > most) most = o;
    for (const o of this.edgeOverlaps) if (o > most) most = o;
    if (most === 0) return;
    growOrFade(this.weights, this.overlaps, most);
    growOrFade(this.edgeWeights, this.edgeOverlaps, most);
  }

  /** One round: every overlapping piece is moved once, then the weights change. Yields after each piece. */
  *round(): Generator<void, void> {
    for (const i of this.overlapping()) {
      this.movePiece(i);
      yield;
    }
    this.sum();
    this.growWeights();
  }

  /**
   * Rounds until the overlap is gone or no round in `patience` has lowered it by 2 %, `strikes` times over, each time
   * from the best lay so far with the weights as they have become. Leaves the best lay in `state`.
   * @returns whether the lay is sound
   */
  *run(patience: number, strikes: number): Generator<void, boolean> {
    let best = copyState(this.state);
    let least = this.total;
    for (let strike = 0; strike < strikes && this.total > 0; strike += 1) {
      const start = least;
      let low = this.total;
      for (let idle = 0; idle < patience && this.total > 0; idle += 1) {
        yield* this.round();
        if (this.total < 0.98 * low) idle = -1;
        low = Math.min(low, this.total);
        if (this.total < least) [best, least] = [copyState(this.state), this.total];
      }
      if (least < 0.98 * start) strike = -1;
      if (this.total > 0) this.restore(best);
    }
    return this.total === 0;
  }

  private restore(s: LayState): void {
    this.state.x.set(s.x);
    this.state.y.set(s.y);
    this.state.shape.set(s.shape);
    this.measureAll();
  }
}
