import { useState, type ReactElement } from 'react';
import { severityOf, type PaperSize } from '../../pattern';
import { useHandOut, type HandOutKind } from '../handOut/useHandOut';
import { counted } from '../drawing/words';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore, garmentOf } from '../store/benchStore';
import { choosePaper } from '../store/patternEdits';
import { Part, Sheet } from './Sheet';

const PAPERS: readonly (readonly [PaperSize | 'roll', string])[] = [
  ['a4', 'A4'],
  ['letter', 'Letter'],
  ['a3', 'A3'],
  ['tabloid', 'Tabloid'],
  ['a0', 'A0, one large sheet'],
  ['roll', 'A roll'],
];

const THINGS: readonly { kind: HandOutKind; title: string; note: string }[] = [
  { kind: 'pieces', title: 'Cutting pieces', note: 'PDF at true scale, numbered, with allowances' },
  { kind: 'handout', title: 'Handout', note: 'PDF: overview, what to buy, lay plans, sewing order' },
  { kind: 'lays', title: 'Lay plans', note: 'PDF to scale, to take to the cutting table' },
  { kind: 'svg', title: 'Pieces as a drawing', note: 'SVG in mm' },
  { kind: 'design', title: 'This design', note: 'to open again here' },
];

function PaperField(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { size } = doc.paper;
  const isRoll = size.startsWith('roll:');
  const choose = (value: PaperSize | 'roll'): void =>
    store.getState().commit('Choose the paper', choosePaper(value === 'roll' ? 'roll:914' : value));
  return (
    <div className="fields">
      <label className="select-field">
        Paper
        <select value={isRoll ? 'roll' : size} onChange={(e) => choose(e.target.value as PaperSize)}>
          {PAPERS.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </label>
      {isRoll && (
        <LengthField
          label="Width of the roll"
          value={Number(size.slice(5))}
          units={doc.units}
          least={210}
          most={3000}
          onChange={(mm) =>
            store.getState().commit('Choose the paper', choosePaper(`roll:${Math.round(mm)}`))
          }
        />
      )}
    </div>
  );
}

/** What goes out on paper and as files. */
export function PaperSheet(): ReactElement {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const { make, busy } = useHandOut();
  const [made, setMade] = useState<{ kind: HandOutKind; note: string } | null>(null);
  const { panels: all, problems } = garmentOf(store.getState());
  const panels = all.length;
  const errors = problems.filter((p) => severityOf(p) === 'error').length;
  return (
    <Sheet title="Put it on paper" lead={`${counted(panels, 'panel')} to print, cut and sew.`}>
      {errors > 0 && (
        <p className="field-wrong">
          {counted(errors, 'thing')} to mend first: what is made now may not be sewable. The red slip lists
          them.
        </p>
      )}
      <PaperField />
      <ul className="things">
        {THINGS.map(({ kind, title, note }) => (
          <li key={kind}>
            <button
              type="button"
              className={kind === 'pieces' ? 'strong' : undefined}
              disabled={busy !== null}
              onClick={() => void make(kind).then((note) => note !== null && setMade({ kind, note }))}
            >
              {title}
            </button>
            <span className="note" role={busy === kind || made?.kind === kind ? 'status' : undefined}>
              {busy === kind ? 'being made …' : made?.kind === kind ? made.note : note}
            </span>
          </li>
        ))}
      </ul>
      <Part title="Before you cut">
        <p className="care">
          Print at 100 %, not “fit to page”. Measure the test square on the first page with a ruler: it must
          be exact. Then sew a toile from cloth you can spare. Blades and irons: follow the rules of your
          room.
        </p>
      </Part>
    </Sheet>
  );
}
