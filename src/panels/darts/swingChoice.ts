import { distance, endOf, startOf } from '../../geometry';
import {
  type Design,
  type OutlinePlace,
  type Piece,
  type PieceId,
  type SwingPlace,
  openedPiece,
  placeNear,
  swingMap,
  swingPlaces,
} from '../../pattern';
import type { SwingChoice } from './dartChoices';
import { treatDart } from './treatDart';

/** A line's end farther than this from the traced outline ends elsewhere, mm. */
const ENDS_ON_EDGE = 1;

/** Where darts are swung to most often comes first: the shoulder, then the middles of the other edges. Common practice, no source. */
const rankOf = ({ place }: SwingPlace): number =>
  (/shoulder/.test(place.edge) ? 0 : 2) + (place.share === 0.5 ? 0 : 1);
const likelier = (a: SwingPlace, b: SwingPlace): number => rankOf(a) - rankOf(b);

/** Places a dart can be swung to, in words: along the edges, and where panel lines end on them. */
function placesFor(design: Design, piece: Piece, traced: number): { to: OutlinePlace; words: string }[] {
  const plain = swingPlaces(piece, traced);
  if (plain.length === 0) return [];
  const { back } = swingMap(piece);
  const ends = design.lines.flatMap((line, i) => {
    if (line.piece !== piece.id || line.path.length === 0) return [];
    return [startOf(line.path), endOf(line.path)].flatMap((p) => {
      const at = back(p);
      const near = placeNear(piece, at);
      return near && distance(near.at, at) <= ENDS_ON_EDGE
        ? [{ to: near.place, words: `end of line ${i + 1} on the ${near.place.edge}` }]
        : [];
    });
  });
  return [...plain.toSorted(likelier).map(({ place, words }) => ({ to: place, words })), ...ends];
}

/** Every place that a dart could be swung to, wholly or by half; the piece itself decides whether it can when it is tried. */
export function swingChoices(design: Design, piece: PieceId, traced: number): readonly SwingChoice[] {
  const own = design.pieces.find((p) => p.id === piece);
  const dart = own?.darts[traced];
  if (!own || dart?.kind !== 'single') return [];
  return placesFor(design, own, traced).flatMap(({ to, words }) =>
    [1, 0.5].map((share): SwingChoice => ({
      key: `swing ${words} ${share}`,
      kind: 'swing',
      place: words,
      share,
      apply: (now) => treatDart(now, piece, traced, { kind: 'swing', parts: [{ to, share, close: null }] }),
    })),
  );
}

/** Whether the piece could be swung as it is treated: its point sees the place. */
export const swingWorks = (design: Design, piece: PieceId): boolean => {
  const own = design.pieces.find((p) => p.id === piece);
  return !own || !openedPiece(own, design).problems.some((p) => p.code === 'dart-not-swung');
};
