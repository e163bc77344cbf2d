import type { ReactElement } from 'react';
import type { Path, Pt } from '../../geometry';
import { Floating } from '../canvas/Floating';
import { middleOf } from '../drawing/bendLine';
import { useBench, useBenchStore } from '../store/benchStore';
import { spotOffers } from './spotOffers';

const middle = (path: Path): Pt => middleOf(path[Math.floor(path.length / 2)]!);

/** Beside each tick at a cheap spot, on its side away from the line: how far it is, and what it saves. */
export function SpotWords(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.cost);
  useBench((s) => s.doc);
  useBench((s) => s.draft);
  return (
    <>
      {spotOffers(store.getState()).map(({ spot, line, way, words }) => {
        const at = middle(spot.path);
        const side = at[1] > middle(line.path)[1] ? 'below' : 'above';
        return (
          <Floating
            key={`${spot.offset} ${words}`}
            piece={line.piece}
            at={at}
            className={`spot-words ${side}`}
            wanted="left"
          >
            <p>
              {way}: <strong>{words}</strong>
            </p>
          </Floating>
        );
      })}
    </>
  );
}
