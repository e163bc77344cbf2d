import { firstX, hasLattice, settleX, settleY } from './domain';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';
import { Nearness } from './nearness';
import { overlapFrom } from './overlapMeasure';
import { TUNING } from './tuning';

/** A tried place of one mover. */
interface Spot {
  near: Nearness;
  x: number;
  y: number;
  cost: number;
}

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

/** Overlaps of large pieces weigh more: area to the power scale/8 (square roots only: the same bits everywhere). */
function scaleOf(area: number): number {
  const root = Math.sqrt(Math.sqrt(Math.sqrt(area)));
  let out = 1;
  for (let k = 0; k < TUNING.scale; k += 1) out *= root;
  return out;
}

function growOrFade(weights: Float64Array, overlaps: Float64Array, most: number): void {
  for (let k = 0; k < weights.length; k += 1) {
    const o = overlaps[k]!;
    weights[k] =
      o > 0
        ? weights[k]! * (TUNING.growLeast + (TUNING.growMost - TUNING.growLeast) * (o / most))
        : Math.max(1, weights[k]! * TUNING.fade);
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
  /** Rounds run so far. */
  rounds = 0;
  private readonly space: LaySpace;
  private readonly random: () => number;
  private readonly n: number;
  /** Shapes that fit this length. */
  private readonly turns: readonly (readonly number[])[];
  private readonly length: number;
  private readonly weights: Float64Array;
  private readonly overlaps: Float64Array;
  /** The same for each mover and the edge of bounded cloth. */
  private readonly edgeWeights: Float64Array;
  private readonly edgeOverlaps: Float64Array;
  private readonly scales: Float64Array;
  private readonly spots: Spot[] = [];
  /** Surroundings of the mover that is being moved, in each of its shapes so far looked at. */
  private readonly around: Nearness[] = [];
  private known = 0;
  private moving = 0;

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
    const { domain, length } = this.space.shapes[state.shape[i]!]!;
    state.x[i] = settleX(domain, state.x[i]!, this.length - length);
    state.y[i] = settleY(domain, state.y[i]!);
  }

  private setOverlap(i: number, j: number): void {
    const { x, y, shape } = this.state;
    const depth = this.space.depth(shape[j]!, shape[i]!, x[i]! - x[j]!, y[i]! - y[j]!);
    const overlap = overlapFrom(depth) * this.scales[i]! * this.scales[j]!;
    this.overlaps[i * this.n + j] = overlap;
    this.overlaps[j * this.n + i] = overlap;
  }

  private setEdgeOverlap(i: number): void {
    const { x, y, shape } = this.state;
    const depth = this.space.depthOffCloth(shape[i]!, x[i]!, y[i]!);
    this.edgeOverlaps[i] = overlapFrom(depth) * this.scales[i]! * this.scales[i]!;
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

  /** The surroundings of the moving mover in a shape. */
  private aroundAs(shape: number): Nearness {
    for (let k = 0; k < this.known; k += 1) if (this.around[k]!.shape === shape) return this.around[k]!;
    const near = (this.around[this.known] ??= new Nearness(this.space));
    this.known += 1;
    const i = this.moving;
    const edgeWeight = this.edgeWeights[i]! * this.scales[i]!;
    near.gather(i, shape, this.state, this.weights, i * this.n, this.scales, edgeWeight, this.length);
    return near;
  }

  private offer(near: Nearness, x: number, y: number, cost: number): void {
    const { spots } = this;
    const spot = spots.length < TUNING.refined ? { near, x, y, cost } : spots.pop()!;
    spot.near = near;
    spot.x = x;
    spot.y = y;
    spot.cost = cost;
    let k = spots.length;
    for (; k > 0 && spots[k - 1]!.cost > cost; k -= 1) spots[k] = spots[k - 1]!;
    spots[k] = spot;
  }

  private trySpot(near: Nearness, x: number, y: number): void {
    const limit = this.spots.length < TUNING.refined ? Infinity : this.spots[TUNING.refined - 1]!.cost;
    const [atX, atY] = [near.allowedX(x), near.allowedY(y)];
    const cost = near.cost(atX, atY, limit);
    if (cost < Infinity) this.offer(near, atX, atY, cost);
  }

  private sample(i: number): void {
    const { state, random, space } = this;
    const turns = this.turns[i]!;
    const pick = (): number => turns[(random() * turns.length) | 0]!;
    for (let k = 0; k < TUNING.wide; k += 1) {
      const near = this.aroundAs(pick());
      this.trySpot(near, near.lowX + random() * near.roomX, near.lowY + random() * near.roomY);
    }
    for (let k = 0; k < TUNING.near; k += 1) {
      const shape = random() < TUNING.sameTurn ? state.shape[i]! : pick();
      const s = space.shapes[shape]!;
      const x = state.x[i]! + (2 * random() - 1) * s.length * TUNING.reach;
      const y = state.y[i]! + (2 * random() - 1) * s.width * TUNING.reach;
      this.trySpot(this.aroundAs(shape), x, y);
    }
  }

  /** Try a spot moved by dx, dy (kept on the cloth); takes it if it is cheaper. */
  private tryStep(spot: Spot, dx: number, dy: number): boolean {
    const { near } = spot;
    const x = near.allowedX(spot.x + dx);
    const y = near.allowedY(spot.y + dy);
    const cost = near.costNear(x, y, spot.cost);
    if (cost >= spot.cost) return false;
    spot.x = x;
    spot.y = y;
    spot.cost = cost;
    return true;
  }

  /** On cloth with a repeat: from one lattice place to the next while that is cheaper. */
  private hop(spot: Spot): void {
    const { stepX, stepY } = this.space.shapes[spot.near.shape]!.domain;
    const hops = [
      [stepX, 0],
      [-stepX, 0],
      [0, stepY],
      [0, -stepY],
    ].filter(([dx, dy]) => dx !== 0 || dy !== 0);
    let isBetter = true;
    while (isBetter && spot.cost > 0) isBetter = hops.some(([dx, dy]) => this.tryStep(spot, dx!, dy!));
  }

  /** Walk a spot the way its overlap falls fastest, in steps that grow on success and shrink on failure. */
  private slide(spot: Spot, first: number, last: number): void {
    const { near } = spot;
    spot.cost = near.focus(spot.x, spot.y, 2.5 * first);
    let gx = near.downX;
    let gy = near.downY;
    for (let step = first; spot.cost > 0 && step > last;) {
      const l = Math.sqrt(gx * gx + gy * gy);
      if (l === 0) return;
      if (this.tryStep(spot, (gx / l) * step, (gy / l) * step)) {
        gx = near.downX;
        gy = near.downY;
        step *= 1.5;
      } else step *= 0.4;
    }
  }

  /** Walk a spot downhill by axis and slanting steps that grow on success and shrink on failure. */
  private feel(spot: Spot, first: number, last: number): void {
    spot.near.focus(spot.x, spot.y, 3 * first);
    let stepX = first;
    let stepY = first;
    while (spot.cost > 0 && Math.max(stepX, stepY) > last) {
      const way = (this.random() * 4) | 0;
      const ux = way === 1 ? 0 : stepX;
      const uy = way === 0 ? 0 : way === 3 ? -stepY : stepY;
      const better = this.tryStep(spot, ux, uy) || this.tryStep(spot, -ux, -uy);
      const factor = better ? 1.1 : way > 1 ? 0.7 : 0.5;
      if (way !== 1) stepX *= factor;
      if (way !== 0) stepY *= factor;
    }
  }

  /** Move mover i to the cheapest place found, if that is cheaper than where it is. */
  private movePiece(i: number): void {
    const { state, spots } = this;
    const { length, width, domain } = this.space.shapes[state.shape[i]!]!;
    const size = Math.min(length, width);
    this.moving = i;
    this.known = 0;
    const here: Spot = { near: this.aroundAs(state.shape[i]!), x: state.x[i]!, y: state.y[i]!, cost: 0 };
    here.cost = here.near.cost(here.x, here.y, Infinity);
    const before = here.cost;
    spots.length = 0;
    this.sample(i);
    if (hasLattice(domain)) spots.push({ ...here });
    for (const spot of spots) {
      this.slide(spot, size * TUNING.slideFirst, size * TUNING.slideLast);
      if (hasLattice(this.space.shapes[spot.near.shape]!.domain)) this.hop(spot);
    }
    this.slide(here, 0.5 * size * TUNING.slideFirst, 0.5 * size * TUNING.slideLast);
    let best = here;
    for (const spot of spots) if (spot.cost < best.cost) best = spot;
    this.slide(best, size * TUNING.slideLast, size * TUNING.feelFirst);
    this.feel(best, size * TUNING.feelFirst, size * TUNING.feelLast);
    if (best.cost >= before) return;
    state.shape[i] = best.near.shape;
    state.x[i] = best.x;
    state.y[i] = best.y;
    this.setEdgeOverlap(i);
    for (let j = 0; j < this.n; j += 1) if (j !== i) this.setOverlap(i, j);
    this.space.meter.work += 2 * this.n;
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

  /** One round: every overlapping mover is moved once, then the weights change. Yields after each. */
  *round(): Generator<void, void> {
    for (const i of this.overlapping()) {
      this.movePiece(i);
      yield;
    }
    this.rounds += 1;
    this.sum();
    this.growWeights();
    this.space.meter.work += 2 * this.n * this.n;
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
