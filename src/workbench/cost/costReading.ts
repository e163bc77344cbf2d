import type { Care, ClothChange } from '../../garment/spots';
import type { ColourId, Design } from '../../pattern';
import type { FoundSpot, FromCost } from './contract';
import type { Sight } from './costClient';
import { sayAtSpot, saySaving } from './costWords';

/** What one touched cloth comes to, as far as it is known. */
export interface ClothReading {
  readonly colour: ColourId;
  /** Null until the first plans are there. Both sides laid with `care`. */
  readonly change: ClothChange | null;
  readonly care: Care;
}

/** A cheap spot, with what is said when the line catches on it: `10 cm less navy`. */
export interface ReadSpot extends FoundSpot {
  readonly word: string;
}

/** What is read off at the bench while a line is chosen, drawn or moved. */
export interface CostReading extends Omit<Sight, 'now'> {
  /** Every cloth touched since the movement began, in the design's order: none leaves, so that nothing jumps. */
  readonly cloths: readonly ClothReading[];
  /** Cheap spots for the line where it lay when they were looked for. */
  readonly spots: readonly ReadSpot[];
  /** The design they were found for: while another is shown, what they save is known for another place only. */
  readonly spotsOf: Design | null;
  /** The design for which the search for them is over. */
  readonly searchedOf: Design | null;
}

/** The same reading as the hand moves on; a new one for another movement, or where one was taken back. */
export function movedOn(reading: CostReading | null, { before, now, line }: Sight): CostReading {
  if (reading?.before === before && now !== before)
    return reading.line === line ? reading : { ...reading, line, spots: [], spotsOf: null };
  // spots found while the line rested go on into the drag that begins there
  const isBegun = reading?.line === line && reading.spotsOf === before;
  return {
    before,
    line,
    cloths: [],
    spots: isBegun ? reading.spots : [],
    spotsOf: isBegun ? reading.spotsOf : null,
    searchedOf: isBegun ? reading.searchedOf : null,
  };
}

/** A cloth that is no longer touched comes to what it came to before. */
const untouched = ({ colour, change, care }: ClothReading): ClothReading => ({
  colour,
  change: change && { ...change, after: change.before },
  care,
});

function touched(reading: CostReading, colours: readonly ColourId[]): CostReading {
  const isKnown = (colour: ColourId): boolean => reading.cloths.some((c) => c.colour === colour);
  if (colours.length === reading.cloths.length && colours.every(isKnown)) return reading;
  const order = reading.before.colours.map(({ id }) => id);
  const known = reading.cloths.map((c) => (colours.includes(c.colour) ? c : untouched(c)));
  const fresh = colours
    .filter((colour) => !isKnown(colour))
    .map((colour): ClothReading => ({ colour, change: null, care: 'quick' }));
  const cloths = [...known, ...fresh].sort((a, b) => order.indexOf(a.colour) - order.indexOf(b.colour));
  return { ...reading, cloths };
}

/** The saving, where it is against the same design as all that is read; else what is bought there. */
const wordFor = ({ changes }: FoundSpot, { before, now }: Sight): string =>
  (before === now ? saySaving : sayAtSpot)(changes, before.units);

/**
 * The reading with an answer taken in.
 * @param asked what it is an answer to
 */
export function heard(reading: CostReading, message: FromCost, asked: Sight): CostReading {
  if (reading.before !== asked.before) return reading;
  switch (message.kind) {
    case 'touched':
      return touched(reading, message.colours);
    case 'cloth': {
      const { change, care } = message;
      const { colour } = change;
      const cloths = reading.cloths.map((c) => (c.colour === colour ? { colour, change, care } : c));
      return { ...reading, cloths };
    }
    case 'spots':
      // while they are looked for anew, the ones from the last place stay
      if (!message.isAll && message.spots.length === 0) return reading;
      return {
        ...reading,
        spots: message.spots.map((spot) => ({ ...spot, word: wordFor(spot, asked) })),
        spotsOf: asked.now,
        searchedOf: message.isAll ? asked.now : reading.searchedOf,
      };
    case 'failed':
      return { ...reading, cloths: reading.cloths.filter((c) => c.change !== null) };
    case 'open':
    case 'ended':
    case 'wrong-contract':
      return reading;
  }
}
