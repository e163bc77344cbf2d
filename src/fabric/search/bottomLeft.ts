import type { LaySpace, LayState } from './laySpace';

/** A place for one shape and where it would end along the cloth, mm. */
interface Spot {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  readonly end: number;
}

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

/** Boundaries of all no-fit regions of the placed pieces for one shape, on the cloth: x0, y0, x1, y1, with x0 ≤ x1. */
function touchingEdges(
  space: LaySpace,
  state: LayState,
  placed: readonly number[],
  shape: number,
): Float64Array[] {
  return placed.map((j) => {
    const { noFit, sign, shiftX, shiftY } = space.pairing(state.shape[j]!, shape);
    const e = noFit.edges;
    const out = new Float64Array(e.length);
    const [ox, oy] = [state.x[j]!, state.y[j]!];
    for (let k = 0; k < e.length; k += 4) {
      const [x0, y0] = [ox + sign * (e[k]! - shiftX), oy + sign * (e[k + 1]! - shiftY)];
      const [x1, y1] = [ox + sign * (e[k + 2]! - shiftX), oy + sign * (e[k + 3]! - shiftY)];
      out.set(x0 <= x1 ? [x0, y0, x1, y1] : [x1, y1, x0, y0], k);
    }
    return out;
  });
}

/** Finds the leftmost free place of one shape among placed ones. */
class SpotFinder {
  private readonly space: LaySpace;
  private readonly state: LayState;
  private readonly placed: readonly number[];
  private readonly shape: number;
  private readonly room: number;
  /** Places to the left of this are not looked at, mm. */
  private readonly from: number;

  constructor(space: LaySpace, state: LayState, placed: readonly number[], shape: number, from: number) {
    this.from = from;
    this.space = space;
    this.state = state;
    this.placed = placed;
    this.shape = shape;
    this.room = space.roomAcross(shape);
  }

  isFree(x: number, y: number): boolean {
    const { space, state, shape } = this;
    space.meter.work += 2 * this.placed.length;
    return this.placed.every(
      (j) => space.depth(state.shape[j]!, shape, x - state.x[j]!, y - state.y[j]!) === 0,
    );
  }

  /** First free one of candidates x, y, x, y … by x, then y; farther ones than `limit` are ignored. */
  private firstFree(candidates: readonly number[], limit: number): [number, number] | null {
    const order: number[] = [];
    for (let k = 0; k < candidates.length; k += 2) {
      const [x, y] = [candidates[k]!, candidates[k + 1]!];
      if (x >= this.from - ROUNDING && x < limit && y >= -ROUNDING && y <= this.room + ROUNDING)
        order.push(k);
    }
    this.space.meter.work += 4 * candidates.length;
    order.sort((a, b) => candidates[a]! - candidates[b]! || candidates[a + 1]! - candidates[b + 1]!);
    for (const k of order) {
      const x = Math.max(this.from, candidates[k]!);
      const y = Math.min(this.room, Math.max(0, candidates[k + 1]!));
      if (this.isFree(x, y)) return [x, y];
    }
    return null;
  }

  /** Corners of the cloth, corners of the regions, and where their edges cross the limits of the cloth. */
  private plainCandidates(edges: readonly Float64Array[], limit: number): number[] {
    const { from } = this;
    const out = [from, 0, from, this.room];
    for (const e of edges) {
      for (let k = 0; k < e.length; k += 4) {
        const [x0, y0, x1, y1] = [e[k]!, e[k + 1]!, e[k + 2]!, e[k + 3]!];
        if (x0 >= limit) continue;
        out.push(x0, y0, x1, y1);
        if (x0 < from && x1 > from) out.push(from, y0 + ((y1 - y0) * (from - x0)) / (x1 - x0));
        for (const y of [0, this.room]) {
          if (y0 < y !== y1 < y) out.push(x0 + ((x1 - x0) * (y - y0)) / (y1 - y0), y);
        }
      }
    }
    return out;
  }

  /** Where edges of two regions cross, left of `limit`. */
  private crossings(edges: readonly Float64Array[], limit: number): number[] {
    const rows: { at: number; set: number; e: Float64Array }[] = [];
    edges.forEach((e, set) => {
      for (let k = 0; k < e.length; k += 4) {
        const [low, high] = [Math.min(e[k + 1]!, e[k + 3]!), Math.max(e[k + 1]!, e[k + 3]!)];
        if (e[k]! < limit && e[k + 2]! >= this.from && high >= 0 && low <= this.room)
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

  /** Leftmost free place left of `limit`; null if there is none. */
  find(limit: number): [number, number] | null {
    const edges = touchingEdges(this.space, this.state, this.placed, this.shape);
    const plain = this.firstFree(this.plainCandidates(edges, limit), limit);
    const least = plain ? plain[0] : limit;
    return this.firstFree(this.crossings(edges, least), least) ?? plain;
  }
}

function pushCrossing(
  out: number[],
  a: Float64Array,
  i: number,
  b: Float64Array,
  j: number,
  limit: number,
): void {
  const [ax, ay, bx, by] = [a[i]!, a[i + 1]!, b[j]!, b[j + 1]!];
  const [ux, uy, vx, vy] = [a[i + 2]! - ax, a[i + 3]! - ay, b[j + 2]! - bx, b[j + 3]! - by];
  if (Math.max(ay, ay + uy) < Math.min(by, by + vy) || Math.min(ay, ay + uy) > Math.max(by, by + vy)) return;
  const turn = ux * vy - uy * vx;
  if (turn === 0) return;
  const t = ((bx - ax) * vy - (by - ay) * vx) / turn;
  const s = ((bx - ax) * uy - (by - ay) * ux) / turn;
  if (t < -ROUNDING || t > 1 + ROUNDING || s < -ROUNDING || s > 1 + ROUNDING) return;
  const x = ax + t * ux;
  if (x < limit) out.push(x, ay + t * uy);
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

/**
 * Lay pieces one after another, each in the free place (and turn) where it ends farthest left; ties go to the smaller y.
 * Candidates are the corners and crossings of the no-fit regions with each other and with the cloth: the leftmost free
 * place is always one of them.
 * @param order piece indices, each once
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
      const spot = new SpotFinder(space, state, near, shape, from).find(limit);
      if (spot) best = { shape, x: spot[0], y: spot[1], end: spot[0] + length };
    }
    // behind everything there is always room
    const spot = best ?? { shape: space.turns[i]![0]!, x: used + FREE_END + 2 * space.job.gap, y: 0, end: 0 };
    state.x[i] = spot.x;
    state.y[i] = spot.y;
    state.shape[i] = spot.shape;
    used = Math.max(used, spot.x + space.shapes[spot.shape]!.length);
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
