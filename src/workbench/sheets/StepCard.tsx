import { useEffect, useMemo, useRef, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import { TOPIC_WORDS, tellStep, type StepTelling } from '../../garment/telling';
import { stepPicture } from '../../paper';
import type { Step } from '../../sewing';
import { MarksDrawing, SCREEN_LETTERING } from './MarksDrawing';

const PICTURE = { width: 76, height: 66 } as const;

/** What is said of a step, topic by topic. */
export function TellingList({ parts }: Pick<StepTelling, 'parts'>): ReactElement {
  return (
    <dl className="telling">
      {parts.map(({ topic, text }, i) => (
        <div key={`${topic} ${text}`}>
          <dt className={parts[i - 1]?.topic === topic ? 'unseen' : undefined}>{TOPIC_WORDS[topic]}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}

/** A chosen step: its picture, and what to do, in words. */
export function StepCard({
  garment,
  step,
  onMove,
  told,
}: {
  garment: Garment;
  step: Step;
  /** What is said of it, where the garment it belongs to does not know enough: lining and facings. */
  told?: StepTelling;
  /** Null for steps that are not moved: those of lining and facings. */
  onMove: ((by: -1 | 1) => void) | null;
}): ReactElement {
  const telling = told ?? tellStep(garment, step);
  const picture = useMemo(() => stepPicture(SCREEN_LETTERING, garment, step, PICTURE), [garment, step]);
  const last = garment.plan.steps.length;
  const card = useRef<HTMLDivElement>(null);
  useEffect(() => {
    card.current?.closest('li')?.scrollIntoView?.({ block: 'nearest' });
  }, []);
  return (
    <div className="card step-card" ref={card}>
      {picture.height > 0 && (
        <MarksDrawing {...picture} label={`Picture of step ${step.step}: ${telling.title}`} />
      )}
      <TellingList parts={telling.parts} />
      {onMove && (
        <div className="actions">
          <button type="button" disabled={step.step <= 1} onClick={() => onMove(-1)}>
            Earlier
          </button>
          <button type="button" disabled={step.step >= last} onClick={() => onMove(1)}>
            Later
          </button>
        </div>
      )}
    </div>
  );
}
