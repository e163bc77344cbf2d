import type { Pt } from '../../geometry';
import type { ClothPiece, LayJob } from '../layPlan';
import { turnedPoints } from '../placement';
import { isRoomy } from './domain';
import type { Domain } from './domain';
import { askew, fitsOnFold, middleAcross } from './folded';
import { layForms } from './layShape';
import type { LayForm, LayShape } from './layShape';
import type { Mover, Stance } from './movers';

/** Where forms and shapes are kept; `known` finds them again for pieces alike. */
export interface ShapeStore {
  readonly forms: readonly LayForm[];
  readonly shapes: LayShape[];
  addForms(forms: readonly LayForm[]): number;
}

/** Kept free along each selvedge, mm; one's own pieces of cloth have none: their outline is that of the usable part. */
export const marginOf = (job: LayJob): number => (job.within ? 0 : job.margin);

/** The upper end of what single pieces may use across the cloth: the other selvedge, or the fold less half the gap. */
const farSide = (job: LayJob): number =>
  job.layering === 'folded' ? job.width / 2 - job.gap / 2 : job.width - marginOf(job);

/** Where an anchor lies when the form's box corner is at 0, 0. */
function anchorOf(piece: ClothPiece, form: LayForm): Pt | null {
  if (!piece.anchor) return null;
  const [x, y] = turnedPoints([piece.anchor], piece.flipped, form.rotation)[0]!;
  return [x + form.shiftX, y + form.shiftY];
}

/** mm off the repeat that a piece held by the fold may be: rounding. */
const ON_REPEAT = 1e-6;

function domainOf(
  job: LayJob,
  piece: ClothPiece,
  form: LayForm,
  onFold: boolean,
  mostLength: number,
): Domain | null {
  const anchor = anchorOf(piece, form);
  const along = {
    lowX: 0,
    highX: mostLength - form.length,
    fromX: anchor ? -anchor[0] : 0,
    stepX: anchor ? job.repeat.along : 0,
  };
  const fromY = anchor ? job.width / 2 - anchor[1] : 0;
  const stepY = anchor ? job.repeat.across : 0;
  if (!onFold) return { ...along, lowY: marginOf(job), highY: farSide(job) - form.width, fromY, stepY };
  const middle = middleAcross(piece, form.rotation);
  if (middle === null || !fitsOnFold(job, piece, form.rotation)) return null;
  const y = job.width / 2 - middle - form.shiftY;
  const off = stepY > 0 ? Math.abs(y - fromY - Math.round((y - fromY) / stepY) * stepY) : 0;
  return off > ON_REPEAT ? null : { ...along, lowY: y, highY: y, fromY: 0, stepY: 0 };
}

/** Forms once per outline, turn and growth; remembered per store. */
const remembered = new WeakMap<ShapeStore, Map<string, number>>();

function formsFor(
  job: LayJob,
  piece: ClothPiece,
  rotations: readonly number[],
  growth: number,
  store: ShapeStore,
): number {
  const known = remembered.get(store) ?? new Map<string, number>();
  remembered.set(store, known);
  const key = JSON.stringify([piece.cutting, piece.flipped, rotations, growth]);
  const found = known.get(key);
  if (found !== undefined) return found;
  const first = store.addForms(layForms(piece.cutting, piece.flipped, rotations, job.gap / 2 + growth));
  known.set(key, first);
  return first;
}

const sameDomain = (a: Domain, b: Domain): boolean =>
  (Object.keys(a) as (keyof Domain)[]).every((key) => a[key] === b[key]);

/** Shape of a form and domain, shared by pieces alike. */
function shapeFor(store: ShapeStore, form: number, domain: Domain, onFold: boolean): number {
  const known = store.shapes.findIndex((s) => s.form === form && sameDomain(s.domain, domain));
  if (known >= 0) return known;
  const { length, width, area } = store.forms[form]!;
  return store.shapes.push({ form, length, width, area: onFold ? area / 2 : area, domain }) - 1;
}

/** Shapes for all stances of a mover that fit the cloth; empty if there are none. */
export function shapesOf(job: LayJob, mover: Mover, mostLength: number, store: ShapeStore): number[] {
  const piece = job.pieces[mover.pieces[0]!]!;
  const rotations = [...new Set(mover.stances.map((s) => s.rotation))];
  return mover.stances.flatMap(({ rotation, onFold }: Stance): number[] => {
    const growth = onFold ? askew(piece, rotation) : 0;
    const form = formsFor(job, piece, rotations, growth, store) + rotations.indexOf(rotation);
    const domain = domainOf(job, piece, store.forms[form]!, onFold, mostLength);
    return domain && isRoomy(domain) ? [shapeFor(store, form, domain, onFold)] : [];
  });
}
