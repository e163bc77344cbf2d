import type { ReactElement } from 'react';
import { PRESETS, type PresetName, presetOf } from '../../allowance';
import type { Design, TracingKind } from '../../pattern';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import {
  allowAll,
  allowHems,
  allowNewSeams,
  allowNoneOfTheirOwn,
  takeTracingAs,
} from '../store/patternEdits';
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

const PRESET_WORDS: Record<PresetName, string> = {
  'home cm': '1.5 cm',
  'home inch': '5/8 in',
  workroom: '1 cm',
};

/** One width for all seams at once; 'own' once one of the general widths is typed. */
function PresetChoice({ doc }: { doc: Design }): ReactElement {
  const store = useBenchStore();
  const chosen = presetOf(doc.allowances);
  const presets = PRESETS.map(({ name }) => [name, PRESET_WORDS[name]] as const);
  const choose = (name: PresetName | 'own'): void => {
    const preset = PRESETS.find((p) => p.name === name);
    if (preset) store.getState().commit('Change all seam allowances', allowAll(preset.width));
  };
  return (
    <>
      <Choice<PresetName | 'own'>
        label="All seams"
        options={chosen === 'own' ? [...presets, ['own', 'own']] : presets}
        value={chosen}
        onChoose={choose}
      />
      <p className="note">At home 1.5 cm or 5/8 in is usual, in workrooms 1 cm.</p>
    </>
  );
}

/** How many edges and lines have a width of their own, and the way back. */
function OwnWidths({ doc }: { doc: Design }): ReactElement | null {
  const store = useBenchStore();
  const { edges, lines } = doc.allowances;
  if (edges.length + lines.length === 0) return null;
  const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
  const own = [
    ...(edges.length > 0 ? [count(edges.length, 'edge')] : []),
    ...(lines.length > 0 ? [count(lines.length, 'panel line')] : []),
  ];
  return (
    <div className="actions">
      <p className="note">
        {own.join(' and ')}{' '}
        {edges.length + lines.length === 1 ? 'has a width of its' : 'have widths of their'} own.
      </p>
      <button
        type="button"
        onClick={() => {
          store.getState().commit('Forget single allowances', allowNoneOfTheirOwn);
          store.getState().set({ spoken: 'All edges and lines have the general allowances.' });
        }}
      >
        General widths for all
      </button>
    </div>
  );
}

/** All allowances of the design. */
export function AllowancePart({ doc }: { doc: Design }): ReactElement {
  const store = useBenchStore();
  const isAskedAbove = useBench((s) => s.lookOver !== null);
  return (
    <Part title="Allowances">
      <PresetChoice doc={doc} />
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
      <OwnWidths doc={doc} />
    </Part>
  );
}
