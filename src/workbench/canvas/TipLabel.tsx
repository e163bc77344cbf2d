import type { ReactElement } from 'react';
import { useBench } from '../store/benchStore';
import { Floating } from './Floating';

/** What the tip has caught, and how far it lies from the nearest level or edge. */
export function TipLabel(): ReactElement | null {
  const tip = useBench((s) => s.tip);
  const units = useBench((s) => s.doc.units);
  if (!tip || (!tip.caught.word && !tip.reading)) return null;
  return (
    <Floating piece={tip.piece} at={tip.caught.at} className="tip" key={units}>
      {tip.caught.word && <strong>{tip.caught.word}</strong>}
      {tip.reading && <span>{tip.reading}</span>}
    </Floating>
  );
}
