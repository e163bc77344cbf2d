import type { Polyline } from '../../geometry';
import { boxOfPoints, CLOTH_ROUNDING, signedAreaOfPoints } from '../../geometry';
import type { ClothPiece, ClothShape, LayJob, Placement } from '../layPlan';
import { noFitOf } from '../noFit/noFit';
import type { NoFit, PartedShape } from '../noFit/noFit';
import { allowedRotations } from '../placement';
import { layForms } from '../search/layShape';
import type { LayForm } from '../search/layShape';
import { pocketsOf } from './ownCloth';

/** Work that one convex part of a new no-fit region costs: as LaySpace counts it. */
const WORK_PER_PART = 400;

/** A piece of one's own cloth, ready to be laid on. */
export interface OwnCloth {
  readonly cloth: ClothShape;
  readonly length: number;
  readonly width: number;
  /** mm² */
  readonly area: number;
  /** What its box lacks, as fixed shapes in the box's frame. */
  readonly pockets: readonly PartedShape[];
}

/** Where a piece lies on one cloth: index of the piece, its turn, the place of the box corner of that turn, mm. */
export interface LaidPiece {
  readonly piece: number;
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/** A polygon as a fixed shape that contains it: exact where it has few corners. */
const upright = (points: Polyline): PartedShape[] =>
  layForms(points, false, [0], 0).map(({ outlines, parts, shiftX, shiftY }) => {
    const moved = (ring: Float64Array): Float64Array =>
      ring.map((v, i) => v - (i % 2 === 0 ? shiftX : shiftY));
    return { outlines: outlines.map(moved), parts: parts.map(moved) };
  });

function ownCloth(cloth: ClothShape): OwnCloth {
  const { maxX, maxY } = boxOfPoints(cloth.outline);
  return {
    cloth,
    length: maxX,
    width: maxY,
    area: Math.abs(signedAreaOfPoints(cloth.outline)),
    pockets: pocketsOf(cloth.outline).flatMap(upright),
  };
}

/**
 * The pieces of one colour and one's own cloths made ready for laying: turned shapes, and regions where a piece may not lie because
 * of another one or of the cloth's edge, worked out when first asked for. Pieces alike share them.
 */
export class FillSpace {
  readonly job: LayJob;
  readonly cloths: readonly OwnCloth[];
  /** Per piece: what it looks like in each legal turn. */
  readonly turns: readonly (readonly LayForm[])[];
  /** Work done so far, counted as LaySpace counts it. */
  readonly meter = { work: 0 };
  private readonly kinds = new Map<LayForm, number>();
  private readonly pairs = new Map<number, NoFit>();
  private readonly edges = new Map<string, readonly NoFit[]>();

  constructor(job: LayJob, cloths: readonly ClothShape[]) {
    this.job = job;
    const alike = new Map<string, OwnCloth>();
    this.cloths = cloths.map((cloth) => {
      const key = JSON.stringify(cloth.outline);
      const known = alike.get(key) ?? ownCloth(cloth);
      alike.set(key, known);
      return { ...known, cloth };
    });
    const known = new Map<string, readonly LayForm[]>();
    this.turns = job.pieces.map((piece) => {
      const rotations = allowedRotations(piece, job.nap);
      const key = JSON.stringify([piece.cutting, piece.flipped, rotations]);
      const own = known.get(key) ?? this.turned(piece, rotations);
      known.set(key, own);
      return own;
    });
  }

  private turned({ cutting, flipped }: ClothPiece, rotations: readonly number[]): LayForm[] {
    const forms = layForms(cutting, flipped, rotations, this.job.gap / 2);
    for (const form of forms) this.kinds.set(form, this.kinds.size);
    return forms;
  }

  /** Area of a piece, mm². */
  areaOf(piece: number): number {
    return this.turns[piece]![0]!.area;
  }

  /** Offsets of a moving piece from a fixed one at which they are too close. */
  between(fixed: LayForm, moving: LayForm): NoFit {
    const key = this.kinds.get(fixed)! * this.kinds.size + this.kinds.get(moving)!;
    const known = this.pairs.get(key);
    if (known) return known;
    const made = noFitOf(fixed, moving);
    this.meter.work += made.size * WORK_PER_PART;
    this.pairs.set(key, made);
    return made;
  }

  /** Places of a piece in the box of a cloth at which it reaches over the cloth's edge. */
  overEdge({ cloth, pockets }: OwnCloth, moving: LayForm): readonly NoFit[] {
    const key = `${cloth.remnant} ${this.kinds.get(moving)}`;
    const known = this.edges.get(key);
    if (known) return known;
    const made = pockets.map((pocket) => noFitOf(pocket, moving.bare));
    for (const { size } of made) this.meter.work += size * WORK_PER_PART;
    this.edges.set(key, made);
    return made;
  }

  /** Whether the piece fits the cloth's box in a turn. */
  fitsBox({ length, width }: OwnCloth, form: LayForm): boolean {
    return form.length <= length + CLOTH_ROUNDING && form.width <= width + CLOTH_ROUNDING;
  }

  /** As the plan says it. */
  placement({ piece, turn, x, y }: LaidPiece): Placement {
    const { panel, copy, flipped } = this.job.pieces[piece]!;
    const { rotation, shiftX, shiftY } = this.turns[piece]![turn]!;
    return { panel, copy, x: x + shiftX, y: y + shiftY, rotation, flipped };
  }
}
