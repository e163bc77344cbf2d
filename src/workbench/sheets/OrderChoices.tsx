import { useMemo, type ReactElement } from 'react';
import { deriveGarment, type Garment } from '../../garment';
import type { Design } from '../../pattern';
import { Choice, Tick } from '../parts/Choice';
import { useBench, useBenchStore } from '../store/benchStore';
import type { Edit } from '../store/documentSlice';
import { forgetWishes, numberAnew, setFewThreads, setSleeves } from '../store/orderEdits';

const hasSleeves = ({ neighbours }: Garment): boolean =>
  neighbours.seams.some(({ join }) => join.role === 'armhole');

/** Whether numbers were kept that the sewing order alone would not give. */
function wouldRenumber(doc: Design): boolean {
  if (doc.numbers.length === 0) return false;
  const { numbers } = deriveGarment({ ...doc, numbers: [] }).plan;
  return [...deriveGarment(doc).plan.numbers].some(([panel, number]) => numbers.get(panel) !== number);
}

/** The ways back once steps were dragged or panels kept their numbers; nothing before. */
export function OrderAgain(): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit, set } = store.getState();
  const isDragged = doc.sewing.order.length > 0;
  const isNumberedOtherwise = useMemo(() => wouldRenumber(doc), [doc]);
  if (!isDragged && !isNumberedOtherwise) return null;
  return (
    <div className="actions">
      {isDragged && (
        <button
          type="button"
          onClick={() => {
            commit('Take the order as proposed', forgetWishes);
            set({ spoken: 'The steps are in the proposed order.' });
          }}
        >
          As proposed
        </button>
      )}
      {isNumberedOtherwise && (
        <button
          type="button"
          onClick={() => {
            commit('Number the panels anew', numberAnew);
            set({ spoken: 'The panels are numbered in sewing order.' });
          }}
        >
          Number panels anew in sewing order
        </button>
      )}
    </div>
  );
}

/** What is wanted of the order as a whole: chosen once, so folded away; how it is now is said on the fold. */
export function OrderChoices({ garment }: { garment: Garment }): ReactElement {
  const store = useBenchStore();
  const { sewing } = useBench((s) => s.doc);
  const { commit, set } = store.getState();
  const choose = (label: string, edit: Edit): void => {
    commit(label, edit);
    set({ spoken: 'The steps are in order anew.' });
  };
  const withSleeves = hasSleeves(garment);
  const now = [
    withSleeves ? (sewing.sleeves === 'flat' ? 'sleeves sewn in flat' : 'sleeves set in') : null,
    sewing.fewThreads ? 'few changes of thread' : null,
  ].filter((w) => w !== null);
  return (
    <details className="about-cloth">
      <summary>{`How you like to sew${now.length > 0 ? `: ${now.join(', ')}` : ''}`}</summary>
      {withSleeves && (
        <>
          <Choice
            label="Sleeves"
            options={[
              ['flat', 'sewn in flat'],
              ['set in', 'set in'],
            ]}
            value={sewing.sleeves}
            onChoose={(v) => choose('Choose how sleeves are sewn in', setSleeves(v))}
          />
          <p className="note">Flat: while the sides are open. Set in: into the closed armhole.</p>
        </>
      )}
      <Tick
        label="Fewest changes of thread"
        note="Steps of one colour come together where the order allows."
        on={sewing.fewThreads}
        onChange={(on) => choose('Choose how often the thread changes', setFewThreads(on))}
      />
    </details>
  );
}
