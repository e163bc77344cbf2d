import { type Path, distance, startOf } from '../../geometry';
import type { PanelLine, WholePiece } from '../../pattern';
import { type BenchState, type BenchStore, shownDesign, shownGarment } from '../store/benchStore';
import { reshapeLine } from '../store/lineEdits';
import type { FoundSpot } from './contract';
import { sayAtSpot, saySaving, sayWay } from './costWords';

/** A cheap spot as it is offered for the line as it lies now. */
export interface SpotOffer {
  readonly spot: FoundSpot;
  readonly line: PanelLine;
  readonly whole: WholePiece;
  /** `1.2 cm lower`. */
  readonly way: string;
  /** `10 cm less navy`; while the line is on its way, what is bought there: `navy 1.3 m`. */
  readonly words: string;
  /** Whether the line lies where the saving was reckoned from. */
  readonly isFresh: boolean;
}

/** A line nearer to a spot than this, mm, is there. */
const THERE = 0.5;

const isThere = (line: Path, spot: Path): boolean =>
  line.length > 0 && distance(startOf(line), startOf(spot)) < THERE;

/** The cheap spots for the line in hand, those it lies on already left out. */
export function spotOffers(s: BenchState): readonly SpotOffer[] {
  const { cost } = s;
  if (!cost || cost.line === null || cost.spots.length === 0) return [];
  const design = shownDesign(s);
  const line = design.lines.find(({ id }) => id === cost.line);
  const whole = line && shownGarment(s).pieceById.get(line.piece)?.whole;
  if (!line || !whole) return [];
  const isFresh = cost.spotsOf === design;
  return cost.spots
    .filter((spot) => !isThere(line.path, spot.path))
    .map((spot) => ({
      spot,
      line,
      whole,
      way: sayWay(line.path, spot.path, whole, design.units),
      words: (isFresh ? saySaving : sayAtSpot)(spot.changes, design.units),
      isFresh,
    }));
}

/** Move the line to a cheap spot: one step. */
export function moveThere(bench: BenchStore, { spot, line, way, words }: SpotOffer): void {
  bench.getState().commit('Move a line to a cheap spot', reshapeLine(line.id, spot.path));
  bench.getState().set({ spoken: `The line now lies ${way}: ${words}.` });
}
