import type { Domain } from './domain';
import { firstX, hasLattice, latticeAbove } from './domain';
import type { LaySpace, LayState } from './laySpace';
import { pushAcross, pushAlong, pushCrossing } from './crossings';

/** A place for one shape and where it would end along the cloth, mm. */
interface Spot {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  readonly end: number;
}

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

/** Boundaries of all no-fit regions of the placed shapes for one shape, on the cloth: x0, y0, x1, y1, with x0 ≤ x1. */
function touchingEdges(
  space: LaySpace,
  state: LayState,
  placed: readonly number[],
  shape: number,
): Float64Array[] {
  const out = placed.map((j) => {
    const k = space.pairOf(state.shape[j]!, shape);
    const { sign, shiftX, shiftY } = space.pairs;
    const s = sign[k]!;
    return movedEdges(
      space.pairs.region(k).edges,
      s,
      state.x[j]! - s * shiftX[k]!,
      state.y[j]! - s * shiftY[k]!,
    );
  });
  if (space.isBounded) out.push(movedEdges(space.edgeOf(shape).edges, 1, 0, 0));
  return out;
}

function movedEdges(e: Float64Array, sign: number, ox: number, oy: number): Float64Array {
  const out = new Float64Array(e.length);
  for (let k = 0; k < e.length; k += 4) {
    // a region seen from the other side is turned by 180°: its right ends become left ones
    const isRight = sign * e[k]! > sign * e[k + 2]!;
    const [first, last] = isRight ? [k + 2, k] : [k, k + 2];
    out[k] = ox + sign * e[first]!;
    out[k + 1] = oy + sign * e[first + 1]!;
    out[k + 2] = ox + sign * e[last]!;
    out[k + 3] = oy + sign * e[last + 1]!;
  }
  return out;
}

/** Finds the leftmost free place of one shape among placed ones. */
class SpotFinder {
  private readonly space: LaySpace;
  private readonly state: LayState;
  private readonly placed: readonly number[];
  private readonly shape: number;
  private readonly domain: Domain;
  /** Places to the left of this are not looked at, mm. */
  private readonly from: number;

  constructor(space: LaySpace, state: LayState, placed: readonly number[], shape: number, from: number) {
    this.space = space;
    this.state = state;
    this.placed = placed;
    this.shape = shape;
    this.domain = space.shapes[shape]!.domain;
    this.from = Math.max(from, firstX(this.domain));
  }

  isFree(x: number, y: number): boolean {
    const { space, state, shape } = this;
    space.meter.work += 2 * this.placed.length;
    if (space.depthOffCloth(shape, x, y) > 0) return false;
    for (const j of this.placed)
      if (space.doOverlap(state.shape[j]!, shape, x - state.x[j]!, y - state.y[j]!)) return false;
    return true;
  }

  /** First free one of candidates x, y, x, y … by x, then y; farther ones than `limit` are ignored. */
  private firstFree(candidates: readonly number[], limit: number): [number, number] | null {
    const { lowY, highY } = this.domain;
    const order: number[] = [];
    for (let k = 0; k < candidates.length; k += 2) {
      const [x, y] = [candidates[k]!, candidates[k + 1]!];
      if (x >= this.from - ROUNDING && x < limit && y >= lowY - ROUNDING && y <= highY + ROUNDING)
        order.push(k);
    }
    this.space.meter.work += 4 * candidates.length;
    order.sort((a, b) => candidates[a]! - candidates[b]! || candidates[a + 1]! - candidates[b + 1]!);
    for (const k of order) {
      const x = Math.max(this.from, candidates[k]!);
      const y = Math.max(lowY, Math.min(highY, candidates[k + 1]!));
      if (this.isFree(x, y)) return [x, y];
    }
    return null;
  }

  /** Corners of the cloth, corners of the regions, and where their edges cross the limits of the cloth. */
  private plainCandidates(edges: readonly Float64Array[], limit: number): number[] {
    const { lowY, highY } = this.domain;
    const out = [this.from, lowY, this.from, Math.max(lowY, highY)];
    for (const e of edges) {
      for (let k = 0; k < e.length; k += 4) {
        if (e[k]! >= limit) continue;
        out.push(e[k]!, e[k + 1]!, e[k + 2]!, e[k + 3]!);
        pushAcross(out, e, k, this.from);
        pushAlong(out, e, k, lowY);
        pushAlong(out, e, k, highY);
      }
    }
    return out;
  }

  /** Where edges of two regions cross, left of `limit`. */
  private crossings(edges: readonly Float64Array[], limit: number): number[] {
    const { lowY, highY } = this.domain;
    const rows: { at: number; set: number; e: Float64Array }[] = [];
    edges.forEach((e, set) => {
      for (let k = 0; k < e.length; k += 4) {
        const [low, high] = [Math.min(e[k + 1]!, e[k + 3]!), Math.max(e[k + 1]!, e[k + 3]!)];
        if (e[k]! < limit && e[k + 2]! >= this.from && high >= lowY && low <= highY)
          rows.push({ at: k, set, e });
      }
    });
    rows.sort((a, b) => a.e[a.at]! - b.e[b.at]!);
    const out: number[] = [];
    this.space.meter.work += 10 * rows.length;
    rows.forEach((a, i) => {
      const end = a.e[a.at + 2]!;
      let j = i + 1;
      for (; j < rows.length && rows[j]!.e[rows[j]!.at]! <= end; j += 1) {
        if (rows[j]!.set !== a.set) pushCrossing(out, a.e, a.at, rows[j]!.e, rows[j]!.at, limit);
      }
      this.space.meter.work += j - i;
    });
    return out;
  }

  /** On cloth with a repeat: one column or row of the lattice after the other. */
  private findOnLattice(
    edges: readonly Float64Array[],
    limit: number,
    farthest: number,
  ): [number, number] | null {
    const { stepX, fromX, stepY, fromY, lowY, highY } = this.domain;
    const rows: number[] = [];
    if (stepY > 0)
      for (let y = latticeAbove(lowY, fromY, stepY); y <= highY + ROUNDING; y += stepY) rows.push(y);
    if (stepX === 0) {
      const candidates = rows.flatMap((y) => [this.from, y]);
      for (const e of edges)
        for (let k = 0; k < e.length; k += 4) for (const y of rows) pushAlong(candidates, e, k, y);
      return this.firstFree(candidates, limit);
    }
    for (let x = latticeAbove(this.from, fromX, stepX); x < Math.min(limit, farthest); x += stepX) {
      const candidates = stepY > 0 ? rows.flatMap((y) => [x, y]) : [x, lowY, x, highY];
      if (stepY === 0)
        for (const e of edges) for (let k = 0; k < e.length; k += 4) pushAcross(candidates, e, k, x);
      const found = this.firstFree(candidates, limit);
      if (found) return found;
    }
    return null;
  }

  /** Leftmost free place left of `limit`; null if there is none. @param used length that is laid already */
  find(limit: number, used: number): [number, number] | null {
    const edges = touchingEdges(this.space, this.state, this.placed, this.shape);
    if (hasLattice(this.domain)) {
      const { stepX } = this.domain;
      return this.findOnLattice(edges, limit, used + FREE_END + 2 * this.space.job.gap + 2 * stepX);
    }
    const plain = this.firstFree(this.plainCandidates(edges, limit), limit);
    const least = plain ? plain[0] : limit;
    return this.firstFree(this.crossings(edges, least), least) ?? plain;
  }
}

/** Pieces looked at per piece laid: all of them in a garment's usual cloth; only the rightmost where there are very many. */
const mostPlaced = (count: number): number => Math.max(8, Math.floor(1600 / count));

/** The placed pieces that reach farthest right, and where the others end for certain. */
function frontier(
  space: LaySpace,
  state: LayState,
  placed: readonly number[],
): { near: readonly number[]; from: number } {
  const most = mostPlaced(space.count);
  if (placed.length <= most) return { near: placed, from: 0 };
  const end = (i: number): number => state.x[i]! + space.shapes[state.shape[i]!]!.length;
  const byEnd = [...placed].sort((i, j) => end(j) - end(i) || i - j);
  return { near: byEnd.slice(0, most), from: end(byEnd[most]!) + 2 * space.job.gap + FREE_END };
}

/** Behind everything there is always room, on cloth from the roll. */
function behindAll(space: LaySpace, shape: number, used: number): Spot {
  const d = space.shapes[shape]!.domain;
  const x = latticeAbove(Math.max(d.lowX, used + FREE_END + 2 * space.job.gap), d.fromX, d.stepX);
  return { shape, x, y: latticeAbove(d.lowY, d.fromY, d.stepY), end: 0 };
}

/**
 * Lay movers one after another, each in the free place (and turn) where it ends farthest left; ties go to the smaller y.
 * Candidates are the corners and crossings of the no-fit regions with each other and with the cloth: the leftmost free
 * place is always one of them. On a bounded piece of cloth those without room are laid behind its end.
 * @param order movers, each once
 * Yields after each piece.
 */
export function* bottomLeftSteps(space: LaySpace, order: readonly number[]): Generator<void, LayState> {
  const n = space.count;
  const state: LayState = { x: new Float64Array(n), y: new Float64Array(n), shape: new Int32Array(n) };
  const placed: number[] = [];
  let used = 0;
  for (const i of order) {
    let best: Spot | null = null;
    const { near, from } = frontier(space, state, placed);
    for (const shape of space.turns[i]!) {
      const { length } = space.shapes[shape]!;
      const limit = best ? best.end - length - ROUNDING : Infinity;
      const spot = new SpotFinder(space, state, near, shape, from).find(limit, used);
      if (spot) best = { shape, x: spot[0], y: spot[1], end: spot[0] + length };
    }
    const { shape, x, y } = best ?? behindAll(space, space.turns[i]![0]!, used);
    state.x[i] = x;
    state.y[i] = y;
    state.shape[i] = shape;
    used = Math.max(used, x + space.shapes[shape]!.length);
    placed.push(i);
    yield;
  }
  return state;
}

/** bottomLeftSteps, run to the end. */
export function bottomLeft(space: LaySpace, order: readonly number[]): LayState {
  const steps = bottomLeftSteps(space, order);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Outlines grown and simplified for the search end no farther than this behind the true cutting line, mm. */
const FREE_END = 10;
