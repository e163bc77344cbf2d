import type { ReactElement } from 'react';
import { JOIN_GAP } from '../../geometry';
import { dartChoices, type LineChoice } from '../../panels';
import { dartPoints, formatLength, type LineId, type PlacedDart, type WholePiece } from '../../pattern';
import { titleOf } from '../drawing/dartWords';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { Floating } from './Floating';

interface Offer {
  readonly whole: WholePiece;
  readonly dart: PlacedDart;
  readonly choice: LineChoice;
}

/** Codes of problems that a dart's own choices cure. */
const CURED = new Set([
  'line-ends-in-the-open',
  'panel-line-near-dart',
  'line-crosses-dart',
  'line-ends-in-dart',
  'allowance-over-dart',
]);

/** The chosen line beside a dart: at the dart's point, an offer to lead the line through it, and a way to the other choices. */
export default function DartCures(): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const line = useBench((s) => (s.selected?.kind === 'line' ? s.selected.line : null));
  const busy = useBench((s) => s.draft !== null || s.underWay !== null || s.openDart !== null);
  const place = useBench((s) => s.place);
  if (busy || place !== 'lines' || line === null) return null;
  const garment = garmentOf(store.getState());
  const isOffered = garment.problems.some(
    (p) => CURED.has(p.code) && 'line' in p.facts && p.facts.line === line,
  );
  if (!isOffered) return null;
  const offers = garment.pieces.flatMap(({ whole }) => offersOn(whole, line, store.getState().doc));
  return (
    <>
      {offers.map(({ whole, dart, choice }) => (
        <Floating
          key={`${whole.piece.id} ${dart.traced} ${choice.key}`}
          piece={whole.piece.id}
          at={dartPoints(dart)[0]!}
          className="cure dart-cure"
          wanted={besideOf(dart)}
        >
          <div className="cure-slip">
            <p>
              {choice.aside <= JOIN_GAP
                ? 'It stops at the point of a dart'
                : `${formatLength(choice.aside, doc.units)} from the point of a dart`}
            </p>
            <button
              type="button"
              className="strong"
              onClick={() => {
                store.getState().commit(`Dart: ${titleOf(choice, doc).toLowerCase()}`, choice.apply);
                store.getState().set({ spoken: 'The line runs through the point; the dart is in the seam.' });
              }}
            >
              Take the dart into the line
            </button>
            <button
              type="button"
              onClick={() =>
                store
                  .getState()
                  .set({ sheetOpen: true, openDart: { piece: whole.piece.id, dart: dart.traced } })
              }
            >
              Other ways
            </button>
          </div>
        </Floating>
      ))}
    </>
  );
}

/** The side of its point on which a dart does not lie, so that the offer leaves it in view. */
const besideOf = (dart: PlacedDart): 'left' | 'right' =>
  dart.kind === 'single' && dart.mouth[0][0] + dart.mouth[1][0] > 2 * dart.point[0] ? 'left' : 'right';

function offersOn(whole: WholePiece, line: LineId, doc: Parameters<typeof dartChoices>[0]): Offer[] {
  return whole.darts.flatMap((dart): Offer[] => {
    if (dart.mirrored || dart.close !== null) return [];
    const choice = dartChoices(doc, whole.piece.id, dart.traced).find(
      (c): c is LineChoice => c.kind === 'through' && c.line === line,
    );
    return choice ? [{ whole, dart, choice }] : [];
  });
}
