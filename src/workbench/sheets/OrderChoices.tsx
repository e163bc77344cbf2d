import type { ReactElement } from 'react';
import type { Garment } from '../../garment';
import { Choice, Tick } from '../parts/Choice';
import { useBench, useBenchStore } from '../store/benchStore';
import { forgetWishes, numberAnew, setFewThreads, setSleeves } from '../store/orderEdits';
import { Part } from './Sheet';

const hasSleeves = ({ neighbours }: Garment): boolean =>
  neighbours.seams.some(({ join }) => join.role === 'armhole');

/** What is wanted of the order as a whole. */
export function OrderChoices({ garment }: { garment: Garment }): ReactElement {
  const store = useBenchStore();
  const { sewing, numbers } = useBench((s) => s.doc);
  const { commit, set } = store.getState();
  const isDragged = sewing.order.length > 0;
  return (
    <Part title="How you like to sew">
      {hasSleeves(garment) && (
        <>
          <Choice
            label="Sleeves"
            options={[
              ['flat', 'sewn in flat'],
              ['set in', 'set in'],
            ]}
            value={sewing.sleeves}
            onChoose={(v) => commit('Choose how sleeves are sewn in', setSleeves(v))}
          />
          <p className="note">Flat: while the sides are open. Set in: into the closed armhole.</p>
        </>
      )}
      <Tick
        label="Fewest changes of thread"
        note="Steps of one colour come together where the order allows."
        on={sewing.fewThreads}
        onChange={(on) => commit('Choose how often the thread changes', setFewThreads(on))}
      />
      <div className="actions">
        <button
          type="button"
          disabled={!isDragged}
          onClick={() => {
            commit('Take the order as proposed', forgetWishes);
            set({ spoken: 'The steps are in the proposed order.' });
          }}
        >
          As proposed
        </button>
        <button
          type="button"
          disabled={numbers.length === 0}
          onClick={() => {
            commit('Number the panels anew', numberAnew);
            set({ spoken: 'The panels are numbered in sewing order.' });
          }}
        >
          Number panels anew in sewing order
        </button>
      </div>
    </Part>
  );
}
