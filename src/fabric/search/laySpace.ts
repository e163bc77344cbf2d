import type { LayJob, Placement } from '../layPlan';
import { layShapes } from './layShape';
import type { LayShape } from './layShape';
import { noFitOf } from '../noFit/noFit';
import type { NoFit } from '../noFit/noFit';
import { allowedRotations } from '../placement';

/** Where every piece lies: its shape (piece and turn) and the place of that shape's box corner, mm. */
export interface LayState {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shape: Int32Array;
}

export const copyState = (s: LayState): LayState => ({
  x: s.x.slice(),
  y: s.y.slice(),
  shape: s.shape.slice(),
});

/** Rounding of doubles at cloth size: a shape this much (mm) wider than the cloth still fits. */
const WIDTH_ROUNDING = 1e-9;

/** Work that one convex part of a new no-fit region costs, the cells of its grid included. */
const WORK_PER_PART = 400;

/** How the offset of a moving shape from a fixed one is looked up: at shift + sign · offset in a no-fit region. */
export interface Pairing {
  readonly noFit: NoFit;
  readonly sign: number;
  readonly shiftX: number;
  readonly shiftY: number;
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
  /** Work done so far, counted in simple look-ups: what a search's budget is measured in. */
  readonly meter = { work: 0 };
  /** Per pair of shapes (fixed · shapes + moving): outside this box of offsets minX, maxX, minY, maxY they are apart. */
  readonly boxes: Float64Array;
  private readonly pairings: (Pairing | undefined)[];
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
    const pairs = this.shapes.length ** 2;
    this.pairings = new Array<Pairing | undefined>(pairs).fill(undefined);
    this.boxes = new Float64Array(4 * pairs).map((_, k) => (k % 2 === 0 ? -Infinity : Infinity));
    this.widthNeeded = shapes.map((own) => Math.min(...own.map((s) => s.width)));
    this.area = this.turns.reduce(
      (sum, turns) => sum + (turns.length > 0 ? this.shapes[turns[0]!]!.area : 0),
      0,
    );
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
    this.meter.work += noFit.size * WORK_PER_PART;
    this.setPairing(fixed, moving, { noFit, sign: 1, shiftX: 0, shiftY: 0 });
    this.setPairing(moving, fixed, { noFit, sign: -1, shiftX: 0, shiftY: 0 });
    const c = this.opposite[fixed]!;
    const d = this.opposite[moving]!;
    if (c >= 0 && d >= 0) {
      const shift = { shiftX: a.length - b.length, shiftY: a.width - b.width };
      this.setPairing(c, d, { noFit, sign: -1, ...shift });
      this.setPairing(d, c, { noFit, sign: 1, ...shift });
    }
    return this.pairings[fixed * this.shapes.length + moving]!;
  }

  private setPairing(fixed: number, moving: number, pairing: Pairing): void {
    const k = fixed * this.shapes.length + moving;
    if (this.pairings[k]) return;
    this.pairings[k] = pairing;
    const { noFit, sign, shiftX, shiftY } = pairing;
    const { minX, maxX, minY, maxY } = noFit.box;
    const x = [sign * (minX - shiftX), sign * (maxX - shiftX)].sort((p, q) => p - q);
    const y = [sign * (minY - shiftY), sign * (maxY - shiftY)].sort((p, q) => p - q);
    this.boxes.set([...x, ...y], 4 * k);
  }

  /** How far shape m at offset x, y from shape f must be pushed to come free of it, mm; 0 if it is free. */
  depth(f: number, m: number, x: number, y: number): number {
    const b = this.boxes;
    const k = 4 * (f * this.shapes.length + m);
    if (x <= b[k]! || x >= b[k + 1]! || y <= b[k + 2]! || y >= b[k + 3]!) return 0;
    const p = this.pairing(f, m);
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
    for (let i = 0; i < this.count; i += 1)
      most = Math.max(most, state.x[i]! + this.shapes[state.shape[i]!]!.length);
    return most;
  }

  /** No plan can be shorter than this, mm. */
  get leastLength(): number {
    const longest = this.turns.map((turns) => Math.min(...turns.map((t) => this.shapes[t]!.length)));
    return Math.max(0, this.area / this.job.width, ...longest);
  }
}
