import type { ReactElement } from 'react';
import type { Design, TracingKind } from '../../pattern';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import { allowHems, allowNewSeams, takeTracingAs } from '../store/patternEdits';
import { Part } from './Sheet';

/** Usual allowance when a tracing changes its kind: what the other kind had. */
const otherKind = (now: TracingKind, kind: TracingKind['kind']): TracingKind => {
  const width = now.kind === 'net' ? now.outer : now.included;
  return kind === 'net' ? { kind, outer: width } : { kind, included: width };
};

/** What the traced outline is, and how much is to be added to it or is inside it already. */
export function OutlineFields({ doc }: { doc: Design }): ReactElement {
  const store = useBenchStore();
  const { commit } = store.getState();
  const { tracing, hem } = doc.allowances;
  const isNet = tracing.kind === 'net';
  return (
    <>
      <Choice
        label="The traced outline is"
        options={[
          ['net', 'the stitching line'],
          ['cut', 'the cutting line'],
        ]}
        value={tracing.kind}
        onChoose={(kind) => commit('Say what the outline is', takeTracingAs(otherKind(tracing, kind)))}
      />
      <div className="fields">
        <LengthField
          label={isNet ? 'Added all round' : 'Already inside it'}
          value={isNet ? tracing.outer : tracing.included}
          units={doc.units}
          most={100}
          onChange={(mm) =>
            isNet
              ? commit('Change the outer allowance', takeTracingAs({ kind: 'net', outer: mm }))
              : commit('Change the included allowance', takeTracingAs({ kind: 'cut', included: mm }))
          }
        />
        <LengthField
          label={isNet ? 'Hems' : 'Inside it at hems'}
          value={hem}
          units={doc.units}
          most={200}
          onChange={(mm) => commit('Change the hem allowance', allowHems(mm))}
        />
      </div>
    </>
  );
}

/** All allowances of the design. */
export function AllowancePart({ doc }: { doc: Design }): ReactElement {
  const store = useBenchStore();
  const isAskedAbove = useBench((s) => s.lookOver !== null);
  return (
    <Part title="Allowances">
      {!isAskedAbove && <OutlineFields doc={doc} />}
      <div className="fields">
        <LengthField
          label="Both sides of new seams"
          value={doc.allowances.newSeam}
          units={doc.units}
          most={100}
          onChange={(mm) => store.getState().commit('Change the seam allowance', allowNewSeams(mm))}
        />
      </div>
    </Part>
  );
}
