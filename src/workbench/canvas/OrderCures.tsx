import { useEffect, useState, type ReactElement } from 'react';
import { deriveGarment } from '../../garment';
import { JOIN_GAP, type Pt, distance, endOf } from '../../geometry';
import type { Design, LineId, PieceId } from '../../pattern';
import { type OrderCure, orderCures } from '../../sewing';
import { type BenchStore, useBench, useBenchStore } from '../store/benchStore';
import { drawLine, freshLineId, lineOf, reshapeLine } from '../store/lineEdits';
import { Floating } from './Floating';

/** A spot at which a seam cannot be sewn whole and straight. */
interface HardSpot {
  readonly piece: PieceId;
  readonly at: Pt;
  readonly kind: 'partial' | 'corner';
}

/** Spots with an offer at one time: more would cover the drawing. */
const MOST_SPOTS = 3;

/** Offers wait this long after a change, so that drawing on is never held up, ms. */
const PAUSE = 120;

/** Whether a drawn line ends or turns at a spot. */
function touches(design: Design, id: LineId, at: Pt): boolean {
  const path = lineOf(design, id)?.path ?? [];
  return [...path.map((c) => c[0]), ...path.slice(-1).map(() => endOf(path))].some(
    (p) => distance(p, at) <= JOIN_GAP,
  );
}

/** Seams left partly open, wherever they are; one corner set in, if the chosen line makes it. */
function hardSpots(design: Design, chosen: LineId | null): readonly HardSpot[] {
  const { problems, pieces } = deriveGarment(design);
  const spots = problems.flatMap((p): HardSpot[] => {
    if (p.code !== 'partial-seam' && p.code !== 'corner-set-in') return [];
    const home = pieces.find(({ whole }) => whole.name === p.piece);
    if (!home || !p.at) return [];
    if (p.code === 'corner-set-in' && (chosen === null || !touches(design, chosen, p.at))) return [];
    return [
      {
        piece: home.whole.piece.id,
        at: p.at,
        kind: p.code === 'partial-seam' ? 'partial' : 'corner',
      },
    ];
  });
  const corner = spots.find((s) => s.kind === 'corner');
  return [...spots.filter((s) => s.kind === 'partial'), ...(corner ? [corner] : [])].slice(0, MOST_SPOTS);
}

const SAID: Readonly<Record<HardSpot['kind'], string>> = {
  partial: 'A seam has to be left partly open here and finished later',
  corner: 'The seam turns here: it is sewn in two passes',
};

function labelOf({ how, what, both }: OrderCure): string {
  if (both) return 'Extend this line at both ends';
  const to = what === 'edge' ? 'the edge' : 'the next line';
  return how === 'extend' ? `Extend this line to ${to}` : `Draw a line from the corner to ${to}`;
}

/** Draw on what the cure says: the line itself, or a new one from its corner. */
function takeCure(store: BenchStore, piece: PieceId, cure: OrderCure): void {
  const { doc, commit, set } = store.getState();
  const drawn = lineOf(doc, cure.line);
  if (!drawn) return;
  const id = cure.how === 'extend' ? cure.line : freshLineId(doc);
  commit(
    labelOf(cure),
    cure.how === 'extend' ? reshapeLine(id, cure.path) : drawLine(id, piece, cure.path, drawn.once),
  );
  set({
    selected: { kind: 'line', line: id },
    spoken: cure.both
      ? 'There are fewer corners to set in now.'
      : 'The seams here can now be sewn whole and straight.',
  });
}

/** The best way out, and the best with another line or to another aim. */
function offered(cures: readonly OrderCure[]): readonly OrderCure[] {
  const [best] = cures;
  const other = cures.find((c) => c.line !== best?.line || labelOf(c) !== (best && labelOf(best)));
  return [best, other].filter((c) => c !== undefined);
}

/** What a spot says, with its ways out once they are found. The line it was is the chosen one afterwards. */
function Spot({ spot, busy }: { spot: HardSpot; busy: boolean }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const [found, setFound] = useState<{ doc: Design; cures: readonly OrderCure[] } | null>(null);
  const { piece, kind } = spot;
  const [x, y] = spot.at;
  useEffect(() => {
    if (busy) return undefined;
    const wait = setTimeout(() => setFound({ doc, cures: offered(orderCures(doc, piece, [x, y])) }), PAUSE);
    return () => clearTimeout(wait);
  }, [busy, doc, piece, x, y]);
  const isSearched = !busy && found?.doc === doc;
  const cures = isSearched ? found.cures : [];
  return (
    <Floating piece={piece} at={spot.at} className="cure">
      <div className="cure-slip">
        <p>{SAID[kind]}</p>
        {cures.map((cure, i) => (
          <button
            type="button"
            key={`${cure.line} ${cure.to.join()}`}
            className={i === 0 ? 'strong' : undefined}
            onClick={() => takeCure(store, piece, cure)}
          >
            {i > 0 && labelOf(cure) === labelOf(cures[0]!) ? 'Extend another line instead' : labelOf(cure)}
          </button>
        ))}
        {isSearched && cures.length === 0 && (
          <p className="note">No one line avoids it. The sewing order says how it is done.</p>
        )}
      </div>
    </Floating>
  );
}

/** At every spot where a seam must be left partly open, or the chosen line turns a corner: what that means, and a line drawn on that avoids it. */
export default function OrderCures(): ReactElement | null {
  const shown = useBench((s) => s.draft ?? s.doc);
  const busy = useBench((s) => s.draft !== null || s.underWay !== null);
  const chosen = useBench((s) => (s.selected?.kind === 'line' ? s.selected.line : null));
  return (
    <>
      {hardSpots(shown, chosen).map((spot) => (
        <Spot key={`${spot.piece} ${spot.kind} ${spot.at.join()}`} spot={spot} busy={busy} />
      ))}
    </>
  );
}
