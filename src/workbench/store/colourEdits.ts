import { wordForColour } from '../../files';
import { PLAIN_CLOTH, type Colour, type ColourId, type Design } from '../../pattern';
import type { Edit } from './documentSlice';

const FRESH_FILLS = [
  '#b65c42',
  '#33507a',
  '#d8b25a',
  '#5f7a5c',
  '#7c5a78',
  '#e9dfce',
  '#3a3835',
  '#a9b7c0',
] as const;

/** A word for a fill that no other cloth has: `blue`, `blue 2`. */
function freshName(design: Design, fill: string, except: ColourId | null = null): string {
  const taken = new Set(design.colours.filter(({ id }) => id !== except).map(({ name }) => name));
  const word = wordForColour(fill);
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? word : `${word} ${n}`;
    if (!taken.has(name)) return name;
  }
}

/** Whether a cloth is still called by the plain word for its colour, or by none: not by a name somebody gave it. */
const isPlainName = ({ name, fill }: Colour): boolean =>
  /^colour \d+$/.test(name) || name.replace(/ \d+$/, '') === wordForColour(fill);

/** A new cloth, like the first one but in a fill not used yet. */
export function freshColour(design: Design): Colour {
  const ids = new Set<string>(design.colours.map(({ id }) => id));
  let n = design.colours.length + 1;
  while (ids.has(`colour-${n}`)) n += 1;
  const used = new Set(design.colours.map(({ fill }) => fill));
  const fill = FRESH_FILLS.find((f) => !used.has(f)) ?? FRESH_FILLS[n % FRESH_FILLS.length]!;
  const like = design.colours[0];
  return {
    id: `colour-${n}` as ColourId,
    name: freshName(design, fill),
    fill,
    ...PLAIN_CLOTH,
    width: like?.width ?? 1400,
  };
}

export const addColour =
  (colour: Colour): Edit =>
  (design) => ({ ...design, colours: [...design.colours, colour] });

export const changeColour =
  (id: ColourId, patch: Partial<Omit<Colour, 'id'>>): Edit =>
  (design) => {
    const now = design.colours.find((colour) => colour.id === id);
    if (!now) return design;
    const next = { ...now, ...patch };
    if (JSON.stringify(next) === JSON.stringify(now)) return design;
    return { ...design, colours: design.colours.map((colour) => (colour === now ? next : colour)) };
  };

/** Give a cloth another fill. A plain word for its colour follows, a name of its own stays. */
export const recolour =
  (id: ColourId, fill: string): Edit =>
  (design) => {
    const now = design.colours.find((colour) => colour.id === id);
    if (!now || now.fill === fill) return design;
    const name = isPlainName(now) ? freshName(design, fill, id) : now.name;
    return changeColour(id, { fill, name })(design);
  };

/** Take a cloth off the list; its panels, lining, facings and one's own pieces of it fall to the first one. The last cloth stays. */
export const removeColour =
  (id: ColourId): Edit =>
  (design) => {
    const colours = design.colours.filter((colour) => colour.id !== id);
    const [first] = colours;
    if (!first || colours.length === design.colours.length) return design;
    const elsewhere = <T extends { readonly colour: ColourId }>(cut: T): T =>
      cut.colour === id ? { ...cut, colour: first.id } : cut;
    return {
      ...design,
      colours,
      marks: design.marks.filter((mark) => mark.colour !== id),
      lining: design.lining && elsewhere(design.lining),
      facings: design.facings.map((facing) => ({
        ...elsewhere(facing),
        interfacing: facing.interfacing === id ? null : facing.interfacing,
      })),
      remnants: design.remnants.map(elsewhere),
    };
  };
