import { Fragment, lazy, Suspense, useEffect, useState, type KeyboardEvent, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import { beforeYouSew, tellStep } from '../../garment/telling';
import type { Step, StepKey } from '../../sewing';
import { showPlace, useTable } from '../canvas/tableControls';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { type HandleProps, useRowDrag } from './dragRow';
import { litBy, placeOfStep } from './litStep';
import { OrderAgain, OrderChoices } from './OrderChoices';
import { Part, Sheet } from './Sheet';
import { ThickPlaces } from './ThickPlaces';
import { useMoves } from './useMoves';

/** Loaded when a step is first chosen: it draws with the paper's own hand. */
const StepCard = lazy(() => import('./StepCard').then((m) => ({ default: m.StepCard })));
const TellingList = lazy(() => import('./StepCard').then((m) => ({ default: m.TellingList })));

const ExtraSteps = lazy(() => import('./ExtraSteps'));

/** Steps that follow each other on one piece, or between pieces. */
interface Stage {
  readonly title: string;
  readonly steps: readonly Step[];
}

/** Steps in their order, those of one piece that follow each other under its name. */
function stagesOf({ plan, pieceById }: Garment): readonly Stage[] {
  const stages: { piece: Step['piece']; title: string; steps: Step[] }[] = [];
  for (const step of plan.steps) {
    const piece = step.kind === 'join' || step.kind === 'edge' || step.kind === 'hem' ? null : step.piece;
    const last = stages.at(-1);
    if (last && last.piece === piece) last.steps.push(step);
    else {
      const name = piece === null ? 'putting together' : (pieceById.get(piece)?.whole.name ?? '');
      const isAgain = stages.some((s) => s.piece === piece);
      stages.push({ piece, title: isAgain ? `${name}, again` : name, steps: [step] });
    }
  }
  return stages;
}

/** The heading above a step names its piece already. */
function withoutPiece(title: string, stage: Stage): string {
  const start = `${stage.title.replace(/, again$/, '')}: `;
  const rest = title.toLowerCase().startsWith(start.toLowerCase()) ? title.slice(start.length) : title;
  return rest.charAt(0).toUpperCase() + rest.slice(1);
}

function StepRow({
  step,
  title,
  garment,
  chosen,
  dropped,
  handle,
  onChoose,
  onMove,
}: {
  step: Step;
  title: string;
  garment: Garment;
  chosen: boolean;
  /** `before`: a step being dragged would come to lie before this one; `self`: it is this one. */
  dropped: 'before' | 'self' | null;
  handle: HandleProps;
  onChoose: () => void;
  onMove: (by: -1 | 1) => void;
}): ReactElement {
  const store = useBenchStore();
  const light = (): void => store.getState().set({ lit: litBy(garment, step) });
  const onKeyDown = (e: KeyboardEvent<HTMLElement>): void => {
    handle.onKeyDown(e);
    if (!e.altKey || (e.key !== 'ArrowUp' && e.key !== 'ArrowDown')) return;
    e.preventDefault();
    onMove(e.key === 'ArrowUp' ? -1 : 1);
  };
  const classes = [chosen ? 'chosen' : '', dropped ? `dropped-${dropped}` : '']
    .filter((c) => c !== '')
    .join(' ');
  return (
    <li className={classes || undefined} data-step-key={step.key}>
      <div className="step-head">
        <button
          type="button"
          className="row-button"
          aria-pressed={chosen}
          aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
          onClick={onChoose}
          onKeyDown={onKeyDown}
          onPointerEnter={(e) => e.pointerType === 'mouse' && light()}
          onFocus={light}
        >
          <span className="row-number">{step.step}</span>
          <span>{title}</span>
        </button>
        <button
          type="button"
          className="plain step-handle"
          aria-label={`Move step ${step.step}`}
          aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
          title="Drag to another place, or press Alt and an arrow key"
          {...handle}
          onKeyDown={onKeyDown}
        >
          <span aria-hidden="true" />
        </button>
      </div>
      {chosen && (
        <Suspense fallback={<p className="note">…</p>}>
          <StepCard garment={garment} step={step} onMove={onMove} />
        </Suspense>
      )}
    </li>
  );
}

function BeforeYouSew({ garment }: { garment: Garment }): ReactElement {
  const { title, parts } = beforeYouSew(garment);
  const [open, setOpen] = useState(false);
  return (
    <details className="about-cloth" onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{title}</summary>
      {open && (
        <Suspense fallback={<p className="note">…</p>}>
          <TellingList parts={parts} />
        </Suspense>
      )}
    </details>
  );
}

/** What is said where a step was dropped has to be seen. */
const intoView = (row: HTMLElement | null): void => row?.scrollIntoView?.({ block: 'nearest' });

/** The sewing order, step by step: a step lights up what it sews, says how, and can be dragged to another place. */
export function OrderSheet(): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  useBench((s) => s.doc);
  const garment = garmentOf(store.getState());
  const [chosen, setChosen] = useState<StepKey | null>(null);
  const { refusal, forgive, move, moveBy } = useMoves(garment);
  const { drag, handle } = useRowDrag((d) => move(d.key, d.before));
  useEffect(() => () => store.getState().set({ lit: null }), [store]);
  const { steps } = garment.plan;
  const lightChosen = (): void => {
    const own = steps.find((s) => s.key === chosen);
    store.getState().set({ lit: own ? litBy(garment, own) : null });
  };
  const choose = (step: Step): void => {
    forgive();
    if (chosen === step.key) return setChosen(null);
    setChosen(step.key);
    store.getState().set({ lit: litBy(garment, step) });
    const place = placeOfStep(garment, step);
    if (place) showPlace(table, store, place.piece, place.at, 0);
  };
  const said = (before: StepKey | null): ReactElement | null =>
    refusal && refusal.before === before ? (
      <li className="step-refused" ref={intoView}>
        <p className="note">{refusal.text}</p>
        <button type="button" className="plain" onClick={forgive}>
          Understood
        </button>
      </li>
    ) : null;
  const last = steps.at(-1)?.key;
  return (
    <Sheet
      title="Sewing order"
      lead="A line that ends on another is sewn before it. Choose a step to see how it is sewn; drag it by its handle to sew it earlier or later."
    >
      {steps.length > 0 && (
        <div className="order-ways">
          <OrderAgain />
          <OrderChoices garment={garment} />
          <BeforeYouSew garment={garment} />
        </div>
      )}
      <div className="stages" data-step-list onPointerLeave={lightChosen}>
        {stagesOf(garment).map((stage) => (
          <Part key={stage.steps[0]!.key} title={stage.title}>
            <ol className="rows step-rows">
              {stage.steps.map((step) => (
                <Fragment key={step.key}>
                  {said(step.key)}
                  <StepRow
                    step={step}
                    title={withoutPiece(tellStep(garment, step).title, stage)}
                    garment={garment}
                    chosen={chosen === step.key}
                    dropped={drag?.key === step.key ? 'self' : drag?.before === step.key ? 'before' : null}
                    handle={handle(step.key)}
                    onChoose={() => choose(step)}
                    onMove={(by) => moveBy(step.key, by)}
                  />
                </Fragment>
              ))}
              {stage.steps.at(-1)?.key === last && said(null)}
              {stage.steps.at(-1)?.key === last && drag && drag.before === null && (
                <li className="dropped-last" aria-hidden="true" />
              )}
            </ol>
          </Part>
        ))}
      </div>
      <ThickPlaces garment={garment} />
      {garment.extras && (
        <Suspense fallback={null}>
          <ExtraSteps garment={garment} />
        </Suspense>
      )}
      {steps.length === 0 && <p className="note">Nothing to sew yet: draw a panel line first.</p>}
      <p className="care">Sew a toile first, from cloth you can spare.</p>
    </Sheet>
  );
}
