import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import type { ClothPiece, LayJob, Placement } from '../layPlan';
import { noFitOf } from '../noFit/noFit';
import type { NoFit, PartedShape } from '../noFit/noFit';
import { aroundCloth } from './clothEdge';
import { firstX } from './domain';
import { mirroredPlacement } from './folded';
import type { LayForm, LayShape } from './layShape';
import { moversOf } from './movers';
import type { Mover } from './movers';
import { PairTable, WORK_PER_PART } from './pairTable';
import { marginOf, shapesOf } from './stances';

/** Where every mover lies: its shape (mover and stance) and the place of that shape's box corner, mm. */
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

/**
 * A lay job made ready for searching: forms in every allowed turn, and no-fit regions worked out when first asked for.
 * Pieces with the same cutting line, grain and turns share forms.
 */
export class LaySpace {
  readonly job: LayJob;
  readonly movers: readonly Mover[];
  readonly forms: LayForm[] = [];
  readonly shapes: LayShape[] = [];
  /** Shapes each mover may take; those that fit nowhere on the cloth are left out, so it may be empty. */
  readonly turns: readonly (readonly number[])[];
  /** Of movers. */
  readonly count: number;
  /** Sum of the pieces' areas, mm². */
  readonly area: number;
  /** Length there is, mm; Infinity from the roll. */
  readonly mostLength: number;
  /** No plan can be shorter than this, mm. */
  readonly leastLength: number;
  /** Work done so far, counted in simple look-ups: what a search's budget is measured in. */
  readonly meter = { work: 0 };
  /** Whether the cloth has other edges than straight ones along and across. */
  readonly isBounded: boolean;
  readonly pairs: PairTable;
  /** Form turned by 180°, −1 if there is none. */
  private readonly opposite: number[] = [];
  private readonly around: PartedShape | null;
  private readonly edges: (NoFit | undefined)[];

  constructor(job: LayJob) {
    this.job = job;
    this.movers = moversOf(job);
    this.count = this.movers.length;
    const box = job.within && boxOfPoints(job.within.outline);
    this.mostLength = box ? box.maxX : Infinity;
    this.around = box && aroundCloth(job, job.within.outline, box.maxX);
    this.isBounded = (this.around?.outlines.length ?? 0) > 0;
    this.turns = this.movers.map((mover) => shapesOf(job, mover, this.mostLength, this));
    this.pairs = new PairTable(this.forms, this.opposite, this.meter);
    this.edges = new Array<NoFit | undefined>(this.forms.length).fill(undefined);
    this.area = job.pieces.reduce((sum, p) => sum + Math.abs(signedAreaOfPoints(p.cutting)), 0);
    this.leastLength = this.boundOnLength();
  }

  /** Take in forms that a mover's stances need, rotations in step. @returns the first one's place */
  addForms(forms: readonly LayForm[]): number {
    const first = this.forms.length;
    this.forms.push(...forms);
    forms.forEach((s, i) => {
      const j = forms.findIndex((o) => (((o.rotation - s.rotation) % 360) + 360) % 360 === 180);
      this.opposite[first + i] = j < 0 ? -1 : first + j;
    });
    return first;
  }

  private boundOnLength(): number {
    const { width, layering } = this.job;
    const margin = marginOf(this.job);
    const least = (turns: readonly number[], of: (s: LayShape) => number): number =>
      turns.length === 0 ? 0 : Math.min(...turns.map((t) => of(this.shapes[t]!)));
    const longest = this.turns.map((turns) => least(turns, (s) => firstX(s.domain) + s.length));
    const area = this.turns.reduce((sum, turns) => sum + least(turns, (s) => s.area), 0);
    const across = layering === 'folded' ? width / 2 - margin : width - 2 * margin;
    return Math.max(0, across > 0 ? area / across : 0, ...longest);
  }

  /** Place in `pairs` of two shapes' forms. */
  pairOf(fixed: number, moving: number): number {
    return this.shapes[fixed]!.form * this.pairs.count + this.shapes[moving]!.form;
  }

  /** About how far shape m at offset x, y from shape f must be pushed to come free of it, mm; 0 exactly where it is free. */
  depth(f: number, m: number, x: number, y: number): number {
    const { boxes, sign, shiftX, shiftY } = this.pairs;
    const k = this.pairOf(f, m);
    const b = 4 * k;
    if (x <= boxes[b]! || x >= boxes[b + 1]! || y <= boxes[b + 2]! || y >= boxes[b + 3]!) return 0;
    return this.pairs.region(k).depth(shiftX[k]! + sign[k]! * x, shiftY[k]! + sign[k]! * y);
  }

  /** Whether shape m at offset x, y from shape f overlaps it. */
  doOverlap(f: number, m: number, x: number, y: number): boolean {
    const { boxes, sign, shiftX, shiftY } = this.pairs;
    const k = this.pairOf(f, m);
    const b = 4 * k;
    if (x <= boxes[b]! || x >= boxes[b + 1]! || y <= boxes[b + 2]! || y >= boxes[b + 3]!) return false;
    return this.pairs.region(k).isInside(shiftX[k]! + sign[k]! * x, shiftY[k]! + sign[k]! * y);
  }

  /** Where a shape may not be placed because of the cloth's edge; only asked where the cloth is bounded. */
  edgeOf(shape: number): NoFit {
    const { form } = this.shapes[shape]!;
    let found = this.edges[form];
    if (!found) {
      found = noFitOf(this.around!, this.forms[form]!.bare, this.meter);
      this.meter.work += found.size * WORK_PER_PART;
      this.edges[form] = found;
    }
    return found;
  }

  /** How far a shape placed at x, y must be pushed to lie on the cloth, mm. */
  depthOffCloth(shape: number, x: number, y: number): number {
    return this.isBounded ? this.edgeOf(shape).depth(x, y) : 0;
  }

  /** The plan's placements, in the order of the job's pieces. */
  placements(state: LayState): Placement[] {
    const out: Placement[] = [];
    this.movers.forEach(({ pieces: [first, second] }, i) => {
      const piece: ClothPiece = this.job.pieces[first!]!;
      const form = this.forms[this.shapes[state.shape[i]!]!.form]!;
      const at = {
        panel: piece.panel,
        copy: piece.copy,
        x: state.x[i]! + form.shiftX,
        y: state.y[i]! + form.shiftY,
        rotation: form.rotation,
        flipped: piece.flipped,
      };
      out[first!] = at;
      if (second !== undefined) out[second] = mirroredPlacement(this.job, this.job.pieces[second]!, at);
    });
    return out;
  }

  /** Length used by a state, mm. */
  lengthOf(state: LayState): number {
    let most = 0;
    for (let i = 0; i < this.count; i += 1)
      most = Math.max(most, state.x[i]! + this.shapes[state.shape[i]!]!.length);
    return most;
  }
}
