import { type Polyline, boxOfPoints, signedAreaOfPoints, type Pt } from '../../geometry';
import type { ColourId, Design, Remnant, RemnantId } from '../../pattern';
import type { Edit } from './documentSlice';

/** What is given of a piece of one's own cloth. */
export type NewRemnant = Pick<Remnant, 'name' | 'outline'>;

/** Longest name that a design may have. */
const LONGEST_NAME = 200;

/** The same outline with its box from 0, 0 and signedArea > 0. */
function upright(outline: Polyline): Pt[] {
  const { minX, minY } = boxOfPoints(outline);
  const moved = outline.map(([x, y]): Pt => [x - minX, y - minY]);
  return signedAreaOfPoints(moved) < 0 ? moved.reverse() : moved;
}

/** A rectangle along the grain, mm. */
export const rectangleOf = (length: number, width: number): Pt[] => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
];

/** Length and width of an outline that is a rectangle along the grain; null of any other. */
export function asRectangle(outline: Polyline): { length: number; width: number } | null {
  const { minX, minY, maxX, maxY } = boxOfPoints(outline);
  const isCorner = ([x, y]: Pt): boolean => (x === minX || x === maxX) && (y === minY || y === maxY);
  return outline.length === 4 && outline.every(isCorner) ? { length: maxX - minX, width: maxY - minY } : null;
}

/** A name that no other piece of cloth has: `left from the skirt`, `left from the skirt 2`. */
function freshName(taken: ReadonlySet<string>, name: string): string {
  const plain = name.slice(0, LONGEST_NAME - 5);
  for (let n = 1; ; n += 1) {
    const next = n === 1 ? plain : `${plain} ${n}`;
    if (!taken.has(next)) return next;
  }
}

function freshId(taken: ReadonlySet<string>): RemnantId {
  for (let n = taken.size + 1; ; n += 1) if (!taken.has(`remnant-${n}`)) return `remnant-${n}` as RemnantId;
}

function withOne(design: Design, { name, outline }: NewRemnant, colour: ColourId): Design {
  const { remnants } = design;
  const remnant: Remnant = {
    id: freshId(new Set(remnants.map(({ id }) => id))),
    name: freshName(new Set(remnants.map((other) => other.name)), name),
    colour,
    outline: upright(outline),
    count: 1,
  };
  return { ...design, remnants: [...remnants, remnant] };
}

/** More pieces of one's own cloth, of a colour that the design has. Outlines are simple and have an area. */
export const addRemnants =
  (added: readonly NewRemnant[], colour: ColourId): Edit =>
  (design) =>
    added.reduce((now, one) => withOne(now, one, colour), design);

/** Another name, outline, colour or count. */
export const changeRemnant =
  (id: RemnantId, patch: Partial<Omit<Remnant, 'id'>>): Edit =>
  (design) => {
    const now = design.remnants.find((remnant) => remnant.id === id);
    if (!now) return design;
    const next = { ...now, ...patch, outline: patch.outline ? upright(patch.outline) : now.outline };
    if (JSON.stringify(next) === JSON.stringify(now)) return design;
    return { ...design, remnants: design.remnants.map((remnant) => (remnant === now ? next : remnant)) };
  };

/** The design without one of one's own pieces of cloth. */
export const removeRemnant =
  (id: RemnantId): Edit =>
  (design) => {
    const remnants = design.remnants.filter((remnant) => remnant.id !== id);
    return remnants.length === design.remnants.length ? design : { ...design, remnants };
  };
