import type { ReactElement } from 'react';
import { cutTogether } from '../../garment';
import { leaveOf } from '../../panels';
import { Tick } from '../parts/Choice';
import { NumberField } from '../parts/NumberField';
import { Part } from '../sheets/Sheet';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { LEAVE, giveLeave } from '../store/clothEdits';

/** What is proposed first, degrees: little enough to hang nearly as it should. */
const USUAL_DEGREES = 5;

/** Leave for the chosen panel to lie off its grain. */
export function OffGrainCard(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const selected = useBench((s) => s.selected);
  const garment = garmentOf(store.getState());
  const panel = selected?.kind === 'panel' ? garment.panelById.get(selected.panel) : undefined;
  if (!panel || !doc.pieces.some(({ id }) => id === panel.piece))
    return (
      <Part title="One panel">
        <p className="note">
          Choose a piece on the table to see where it sits, or to let it lie off its grain.
        </p>
      </Part>
    );
  const name = `${garment.plan.numbers.get(panel.id)} ${garment.pieceById.get(panel.piece)!.whole.name}`;
  const panels = cutTogether(garment, panel);
  const leave = panels.map((p) => leaveOf(doc, p)).find((degrees) => degrees !== null) ?? null;
  const give = (degrees: number | null): void =>
    store
      .getState()
      .commit(
        degrees === null ? 'Keep a panel on its grain' : 'Give a panel leave to lie off its grain',
        giveLeave(panels, degrees),
      );
  return (
    <Part title={`Panel ${name}`}>
      <Tick
        label="May lie off its grain"
        note="Cloth off its grain stretches and hangs differently, and a print runs askew. Only for panels where that does no harm; try it on a toile."
        on={leave !== null}
        onChange={(on) => give(on ? USUAL_DEGREES : null)}
      />
      {leave !== null && (
        <NumberField
          label="Degrees to either side"
          value={leave}
          least={LEAVE.least}
          most={LEAVE.most}
          onChange={(degrees) => give(degrees)}
        />
      )}
    </Part>
  );
}
