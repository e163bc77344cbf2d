import type { ReactElement } from 'react';
import { useBench, useBenchStore } from '../store/benchStore';
import { moveThere, spotOffers } from './spotOffers';

/** On the chosen line's card: where it would have to lie for less cloth to be bought, and a button that moves it there. */
export function SpotPart(): ReactElement | null {
  const store = useBenchStore();
  const cost = useBench((s) => s.cost);
  const doc = useBench((s) => s.doc);
  const isDragged = useBench((s) => s.draft !== null);
  if (!cost || cost.line === null || isDragged) return null;
  const offers = spotOffers(store.getState()).filter(({ isFresh }) => isFresh);
  if (offers.length === 0)
    return cost.searchedOf === doc ? null : <p className="note">Looking where less cloth is needed…</p>;
  return (
    <ul className="spot-offers" aria-label="Where less cloth is needed">
      {offers.map((offer) => (
        <li key={offer.spot.offset}>
          <p>
            {offer.way}: <strong>{offer.words}</strong>
            {offer.spot.misses && ' (it then misses the line it meets over a seam)'}
          </p>
          <button type="button" onClick={() => moveThere(store, offer)}>
            Move it there
          </button>
        </li>
      ))}
    </ul>
  );
}
