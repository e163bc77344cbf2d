import type { LayJob, Placement } from './layPlan';
import { layShapes } from './layShape';
import type { LayShape } from './layShape';
import { noFitOf } from './noFit';
import type { NoFit } from './noFit';
import { allowedRotations } from './placement';

/** Where every piece lies: its shape (piece and turn) and the place of that shape's box corner, mm. */
export interface LayState {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shape: Int32Array;
}

export const copyState = (s: LayState): LayState => ({ x: s.x.slice(), y: s.y.slice(), shape: s.shape.slice() });

/** Rounding of doubles at cloth size: a shape this much (mm) wider than the cloth still fits. */
const WIDTH_ROUNDING = 1e-9;

/** How the offset of a moving shape from a fixed one is looked up: at shift + sign · offset in a no-fit region. */
export interface Pairing {
  readonly noFit: NoFit;
  readonly sign: number;
  readonly shiftX: number;
  readonly shiftY: number;
  /** Outside this box of offsets the shapes are apart. */
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function pairingOf(noFit: NoFit, sign: 1 | -1, shiftX: number, shiftY: number): Pairing {
  const b = noFit.box;
  const [x0, x1] = [sign * (b.minX - shiftX), sign * (b.maxX - shiftX)];
  const [y0, y1] = [sign * (b.minY - shiftY), sign * (b.maxY - shiftY)];
  const [minX, minY, maxX, maxY] = [Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)];
  return { noFit, sign, shiftX, shiftY, minX, minY, maxX, maxY };
}

/**
 * A lay job made ready for searching: shapes in every allowed turn, and no-fit regions worked out when first asked for.
 * Pieces with the same cutting line, grain and turns share shapes. Two regions do for four pairs: turning both shapes by
 * 180°, or looking from the other shape, negates the offset.
 */
export class LaySpace {
  readonly job: LayJob;
  readonly shapes: LayShape[] = [];
  /** Shapes each piece of the job may take; those too wide for the cloth are left out, so it may be empty. */
  readonly turns: readonly (readonly number[])[];
  /** Width of cloth that each piece needs at least, mm. */
  readonly widthNeeded: readonly number[];
  readonly count: number;
  /** Sum of the pieces' areas, mm². */
  readonly area: number;
  /** Work done so far in no-fit regions, in the search's units. */
  work = 0;
  private readonly pairings: (Pairing | undefined)[] = [];
  /** Shape turned by 180°, −1 if there is none. */
  private readonly opposite: number[] = [];

  constructor(job: LayJob) {
    this.job = job;
    this.count = job.pieces.length;
    const known = new Map<string, readonly LayShape[]>();
    const numbers = new Map<readonly LayShape[], readonly number[]>();
    const shapes = job.pieces.map((piece) => {
      const rotations = allowedRotations(piece, job.nap);
      const key = JSON.stringify([piece.cutting, piece.flipped, rotations]);
      const own = known.get(key) ?? layShapes(piece.cutting, piece.flipped, rotations, job.gap / 2);
      known.set(key, own);
      return own;
    });
    for (const own of known.values()) numbers.set(own, this.addShapes(own));
    this.turns = shapes.map((own) => numbers.get(own)!);
    this.widthNeeded = shapes.map((own) => Math.min(...own.map((s) => s.width)));
    this.area = this.turns.reduce((sum, turns) => sum + (turns.length > 0 ? this.shapes[turns[0]!]!.area : 0), 0);
  }

  private addShapes(shapes: readonly LayShape[]): number[] {
    const fitting = shapes.filter((s) => s.width <= this.job.width + WIDTH_ROUNDING);
    const first = this.shapes.length;
    this.shapes.push(...fitting);
    fitting.forEach((s, i) => {
      const j = fitting.findIndex((o) => (((o.rotation - s.rotation) % 360) + 360) % 360 === 180);
      this.opposite[first + i] = j < 0 ? -1 : first + j;
    });
    return fitting.map((_, i) => first + i);
  }

  /** Room for the place of a shape across the cloth, mm. */
  roomAcross(shape: number): number {
    return Math.max(0, this.job.width - this.shapes[shape]!.width);
  }

  pairing(fixed: number, moving: number): Pairing {
    return this.pairings[fixed * this.shapes.length + moving] ?? this.makePairing(fixed, moving);
  }

  private makePairing(fixed: number, moving: number): Pairing {
    const [a, b] = [this.shapes[fixed]!, this.shapes[moving]!];
    const noFit = noFitOf(a, b);
    this.work += noFit.size * WORK_PER_PART;
    const set = (f: number, m: number, sign: 1 | -1, x: number, y: number): void => {
      this.pairings[f * this.shapes.length + m] ??= pairingOf(noFit, sign, x, y);
    };
    set(fixed, moving, 1, 0, 0);
    set(moving, fixed, -1, 0, 0);
    const [c, d] = [this.opposite[fixed]!, this.opposite[moving]!];
    if (c >= 0 && d >= 0) {
      set(c, d, -1, a.length - b.length, a.width - b.width);
      set(d, c, 1, a.length - b.length, a.width - b.width);
    }
    return this.pairings[fixed * this.shapes.length + moving]!;
  }

  /** How far shape m at offset x, y from shape f must be pushed to come free of it, mm; 0 if it is free. */
  depth(f: number, m: number, x: number, y: number): number {
    const p = this.pairing(f, m);
    if (x <= p.minX || x >= p.maxX || y <= p.minY || y >= p.maxY) return 0;
    return p.noFit.depth(p.shiftX + p.sign * x, p.shiftY + p.sign * y);
  }

  /** The plan's placements, in the order of the job's pieces. */
  placements(state: LayState): Placement[] {
    return this.job.pieces.map((piece, i) => {
      const s = this.shapes[state.shape[i]!]!;
      return {
        panel: piece.panel,
        copy: piece.copy,
        x: state.x[i]! + s.shiftX,
        y: state.y[i]! + s.shiftY,
        rotation: s.rotation,
        flipped: piece.flipped,
      };
    });
  }

  /** Length used by a state, mm. */
  lengthOf(state: LayState): number {
    let most = 0;
    for (let i = 0; i < this.count; i += 1) most = Math.max(most, state.x[i]! + this.shapes[state.shape[i]!]!.length);
    return most;
  }

  /** No plan can be shorter than this, mm. */
  get leastLength(): number {
    const longest = this.turns.map((turns) => Math.min(...turns.map((t) => this.shapes[t]!.length)));
    return Math.max(0, this.area / this.job.width, ...longest);
  }
}

/** Units of search work that one convex part of a new no-fit region costs. */
const WORK_PER_PART = 200;
