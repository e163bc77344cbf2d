import type { ReactElement } from 'react';
import { Floating } from '../canvas/Floating';
import { middleOf } from '../drawing/bendLine';
import { useBench, useBenchStore } from '../store/benchStore';
import { moveThere, spotOffers } from './spotOffers';

/** Beside each tick at a cheap spot: how far it is and what it saves; a button that moves the line there, unless it is being dragged. */
export function SpotWords(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.cost);
  useBench((s) => s.doc);
  useBench((s) => s.draft);
  const isDragged = useBench((s) => s.draft !== null);
  return (
    <>
      {spotOffers(store.getState()).map((offer) => {
        const { spot, line, way, words, isFresh } = offer;
        const said = (
          <>
            {way}: <strong>{words}</strong>
          </>
        );
        return (
          <Floating
            key={`${spot.offset} ${words}`}
            piece={line.piece}
            at={middleOf(spot.path[Math.floor(spot.path.length / 2)]!)}
            className="spot-words"
            wanted="left"
          >
            {isDragged || !isFresh ? (
              <p>{said}</p>
            ) : (
              <button type="button" title="Move the line there" onClick={() => moveThere(store, offer)}>
                {said}
              </button>
            )}
          </Floating>
        );
      })}
    </>
  );
}
