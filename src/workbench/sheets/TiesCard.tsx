import { useState, type ReactElement } from 'react';
import { endOf, startOf, type Pt } from '../../geometry';
import {
  groundFor,
  keepingOf,
  measuredAlong,
  measuredOnLine,
  reachesOf,
  settle,
  turnTies,
  withNode,
  withTies,
  type Keeping,
  type TieGround,
} from '../../lines';
import type { Design, LineTies, PanelLine, Run, Tie, WholePiece } from '../../pattern';
import { isStraight } from '../drawing/moveLine';
import { sayLine, sayTie, sayTies, type Saying } from '../drawing/tieWords';
import { capital } from '../drawing/words';
import { ShareField } from '../parts/ShareField';
import { useBench, useBenchStore } from '../store/benchStore';
import { holdLine, tieLinesHere } from '../store/lineEdits';
import { ReachRow } from './ReachRow';

type EdgeTie = Tie & { kind: 'edge' };

interface TieFieldsProps {
  readonly saying: Saying;
  readonly ground: TieGround;
  readonly tie: Tie;
  readonly at: Pt;
  readonly label: string;
  readonly onTie: (tie: Tie) => boolean;
}

type LineTie = Tie & { kind: 'line' };

interface MeasuredFieldProps<K extends string> {
  readonly label: string;
  readonly value: K;
  readonly ways: readonly (readonly [K, string])[];
  readonly onWay: (way: K) => void;
}

function MeasuredField<K extends string>({ label, value, ways, onWay }: MeasuredFieldProps<K>): ReactElement {
  return (
    <label className="select-field">
      Measured
      <select aria-label={`${label}: measured`} value={value} onChange={(e) => onWay(e.target.value as K)}>
        {ways.map(([way, words]) => (
          <option key={way} value={way}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

const ON_EDGE: readonly (readonly [EdgeTie['along'], string])[] = [
  ['grain', 'by height on the grain'],
  ['edge', 'along the edge'],
  ['across', 'across the grain'],
];
const ON_LINE: readonly (readonly [LineTie['place']['kind'], string])[] = [
  ['share', 'along that line'],
  ['down', 'by height on the grain'],
  ['over', 'across the grain'],
];

/** How a place on an edge or on another line is measured. */
function WayField({ saying, ground, tie, at, label, onTie }: TieFieldsProps): ReactElement | null {
  const put = (next: Tie | null): void => void (next && onTie(next));
  if (tie.kind === 'edge')
    return (
      <MeasuredField
        label={label}
        value={tie.along}
        ways={ON_EDGE.filter(([way]) => way === tie.along || measuredAlong(saying.whole, tie, way, at))}
        onWay={(way) => put(measuredAlong(saying.whole, tie, way, at))}
      />
    );
  if (tie.kind !== 'line') return null;
  return (
    <MeasuredField
      label={label}
      value={tie.place.kind}
      ways={ON_LINE.filter(([way]) => way === tie.place.kind || measuredOnLine(ground, tie, way, at))}
      onWay={(way) => put(measuredOnLine(ground, tie, way, at))}
    />
  );
}

/** What holds one point, in fields. */
function TieFields(props: TieFieldsProps): ReactElement {
  const { saying, tie, at, label, onTie } = props;
  if (tie.kind === 'dart' || tie.kind === 'neighbour') return <p className="note">{sayTie(saying, tie)}</p>;
  return (
    <>
      {tie.kind === 'line' && tie.place.kind === 'share' && (
        <div className="tie-row">
          <ShareField
            label={`${label}: share`}
            value={tie.place.share}
            onChange={(share) =>
              share >= 0 && share <= 1 && onTie({ ...tie, place: { kind: 'share', share } })
            }
          />
          <span>along {sayLine(saying.design, tie.line)}</span>
        </div>
      )}
      {reachesOf(tie).map(({ part, reach }) => (
        <ReachRow
          key={part}
          whole={saying.whole}
          units={saying.units}
          tie={tie}
          part={part}
          reach={reach}
          at={at}
          label={part === 'over' ? `${label}, across` : label}
          onTie={onTie}
        />
      ))}
      <WayField {...props} />
    </>
  );
}

const KEEPINGS: readonly (readonly [Keeping, string])[] = [
  ['square', 'square to the grain'],
  ['with', 'with the grain'],
  ['angle', 'at an angle to the grain'],
  ['both ends', 'from end to end'],
];

function AngleField({
  run,
  onRun,
}: {
  run: Run & { kind: 'angle' };
  onRun: (run: Run) => boolean;
}): ReactElement {
  const [text, setText] = useState<string | null>(null);
  const take = (): void => {
    const degrees = Number((text ?? '').replace(',', '.').replace('−', '-'));
    if (text !== null && text.trim() !== '' && Number.isFinite(degrees) && Math.abs(degrees) <= 180)
      onRun({ ...run, degrees });
    setText(null);
  };
  return (
    <label className="select-field">
      Angle
      <span className="length-box" title="From the cross grain, turning down to the right">
        <input
          type="text"
          inputMode="decimal"
          aria-label="Angle"
          value={text ?? `${Math.round(run.degrees * 10) / 10}`}
          onChange={(e) => setText(e.target.value)}
          onBlur={take}
          onKeyDown={(e) => e.key === 'Enter' && take()}
        />
        <span aria-hidden="true">°</span>
      </span>
    </label>
  );
}

/** Which end a node is, as seen on the drawing. */
function endName(path: PanelLine['path'], node: number): string {
  const [a, b] = node === 0 ? [startOf(path), endOf(path)] : [endOf(path), startOf(path)];
  const [x, y] = [a[0] - b[0], a[1] - b[1]];
  if (Math.abs(x) >= Math.abs(y)) return x < 0 ? 'Left end' : 'Right end';
  return y < 0 ? 'Upper end' : 'Lower end';
}

/** Whether ties give every line of theirs a place. */
const isHeld = (doc: Design, line: PanelLine, ties: LineTies): boolean =>
  !settle({ ...doc, lines: withTies(doc, line.id, ties) }).problems.some(
    (p) => p.code === 'tie-lost' && p.facts.line === line.id,
  );

/** What holds a tied line: its definition in words, and every part of it in fields. */
function HeldBy({ line, ties, whole }: { line: PanelLine; ties: LineTies; whole: WholePiece }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const [wrong, setWrong] = useState<string | null>(null);
  const saying: Saying = { design: doc, whole, units: doc.units };
  const on = groundFor(doc, line);
  const hold = (next: LineTies, label = 'Change what holds a line'): boolean => {
    const can = isHeld(doc, line, next);
    if (can) store.getState().commit(label, holdLine(line.id, next));
    return can;
  };
  const turn = (keeping: Keeping): void => {
    const next = on && turnTies(on.ground, on.others, ties, line.path, keeping);
    setWrong(
      next && hold(next, 'Change the direction of a line')
        ? null
        : 'It would meet nothing in that direction.',
    );
  };
  const nodes = ties.nodes.flatMap((tie, node) => (tie ? [{ tie, node }] : []));
  return (
    <>
      <p className="ties-words">{capital(sayTies(saying, ties, line))}.</p>
      {isStraight(line.path) && (
        <label className="select-field">
          Direction
          <select value={keepingOf(ties)} onChange={(e) => turn(e.target.value as Keeping)}>
            {KEEPINGS.map(([keeping, words]) => (
              <option key={keeping} value={keeping}>
                {words}
              </option>
            ))}
          </select>
        </label>
      )}
      {ties.run?.kind === 'angle' && (
        <AngleField run={ties.run} onRun={(run) => hold({ ...ties, run }, 'Turn a line')} />
      )}
      {wrong && (
        <p className="field-wrong" role="alert">
          {wrong}
        </p>
      )}
      {on &&
        nodes.map(({ tie, node }) => (
          <fieldset key={node} className="tie-end">
            <legend className={ties.run ? 'unseen' : undefined}>{endName(line.path, node)}</legend>
            <TieFields
              saying={saying}
              ground={on.ground}
              tie={tie}
              at={node === 0 ? startOf(line.path) : line.path[node - 1]!.at(-1)!}
              label={ties.run ? 'Line' : endName(line.path, node)}
              onTie={(next) => hold(withNode(ties, node, next))}
            />
          </fieldset>
        ))}
    </>
  );
}

/** Whether a line is tied to its piece, and by what. */
export function TiesCard({ line, whole }: { line: PanelLine; whole: WholePiece }): ReactElement {
  const store = useBenchStore();
  const { commit } = store.getState();
  if (!line.ties)
    return (
      <div className="ties">
        <p className="note">It lies where it is drawn and follows nothing.</p>
        <button type="button" onClick={() => commit('Tie a line', tieLinesHere([line.id]))}>
          Tie to its piece
        </button>
      </div>
    );
  return (
    <div className="ties">
      <HeldBy line={line} ties={line.ties} whole={whole} />
      <button
        type="button"
        className="plain untie"
        onClick={() => commit('Untie a line', holdLine(line.id, null))}
      >
        Untie
      </button>
    </div>
  );
}
