import { useEffect, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import type { Step } from '../../sewing';
import { showPlace, useTable } from '../canvas/tableControls';
import { refAtLength, pointOn, pathLength } from '../../geometry';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import type { Lit } from '../store/sessionSlice';
import { Part, Sheet } from './Sheet';

export const litBy = (step: Step): Lit => ({
  seams: new Set(step.seams),
  panels: new Set(step.joins.flat()),
});

/** The heading above the steps names the piece already. */
function withoutPiece(text: string, piece: string): string {
  const rest = text.startsWith(`${piece}: `) ? text.slice(piece.length + 2) : text;
  return rest.charAt(0).toUpperCase() + rest.slice(1);
}

function StepRow({
  step,
  garment,
  chosen,
  onChoose,
}: {
  step: Step;
  garment: Garment;
  chosen: boolean;
  onChoose: () => void;
}): ReactElement {
  const store = useBenchStore();
  return (
    <li className={chosen ? 'chosen' : undefined}>
      <button
        type="button"
        className="row-button"
        aria-pressed={chosen}
        onClick={onChoose}
        onPointerEnter={(e) => e.pointerType === 'mouse' && store.getState().set({ lit: litBy(step) })}
        onFocus={() => store.getState().set({ lit: litBy(step) })}
      >
        <span className="row-number">{step.step}</span>
        <span>
          {withoutPiece(step.text, (step.piece && garment.pieceById.get(step.piece)?.whole.name) ?? '')}
        </span>
      </button>
    </li>
  );
}

/** The sewing order, step by step; a step lights up its seam and panels. */
export function OrderSheet(): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const lit = useBench((s) => s.lit);
  const garment = garmentOf(store.getState());
  useEffect(() => () => store.getState().set({ lit: null }), [store]);
  const isLit = (step: Step): boolean =>
    lit !== null && step.seams.length > 0 && step.seams.every((id) => lit.seams.has(id));
  const choose = (step: Step): void => {
    store.getState().set({ lit: litBy(step) });
    const seam = garment.seamById.get(step.seams[0]!);
    const panel = garment.panelById.get(step.joins[0][0]!);
    if (!seam) return panel && showPlace(table, store, panel.piece, panel.spot.at, 0);
    const half = pathLength(seam.path) / 2;
    showPlace(table, store, seam.piece, pointOn(seam.path, refAtLength(seam.path, half)), 0);
  };
  return (
    <Sheet
      title="Sewing order"
      lead="A line that ends on another is sewn before it. Panels are numbered in the order they are taken up."
    >
      {doc.pieces.map((piece) => {
        const steps = garment.plan.steps.filter((s) => s.piece === piece.id);
        if (steps.length === 0) return null;
        return (
          <Part key={piece.id} title={piece.name}>
            <ol className="rows" onPointerLeave={() => store.getState().set({ lit: null })}>
              {steps.map((step) => (
                <StepRow
                  key={step.step}
                  step={step}
                  garment={garment}
                  chosen={isLit(step)}
                  onChoose={() => choose(step)}
                />
              ))}
            </ol>
          </Part>
        );
      })}
      {garment.plan.steps.length === 0 && (
        <p className="note">Nothing to sew yet: draw a panel line first.</p>
      )}
      <p className="care">Sew a toile first, from cloth you can spare.</p>
    </Sheet>
  );
}
