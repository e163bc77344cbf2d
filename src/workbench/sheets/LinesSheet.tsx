import { lazy, Suspense, useEffect, useRef, type ReactElement } from 'react';
import type { PanelledPiece } from '../../panels';
import type { Design, PanelLine } from '../../pattern';
import { showPlace, useTable } from '../canvas/tableControls';
import { middleOf } from '../drawing/bendLine';
import { describeLine } from '../drawing/words';
import { Choice, Tick } from '../parts/Choice';
import { WhenSeen } from '../parts/WhenSeen';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { LineCard } from './LineCard';
import { NewLineCard } from './NewLineCard';
import { Part, Sheet } from './Sheet';

const DartsPart = lazy(() => import('./DartsPart'));
const BandWord = lazy(() => import('./BandWord'));
const MeetPart = lazy(() => import('./MeetPart'));

function LineRow({
  line,
  index,
  piece,
}: {
  line: PanelLine;
  index: number;
  piece: PanelledPiece;
}): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const chosen = useBench((s) => s.selected?.kind === 'line' && s.selected.line === line.id);
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (chosen) row.current?.scrollIntoView?.({ block: 'nearest' });
  }, [chosen]);
  const choose = (): void => {
    store.getState().set({ selected: chosen ? null : { kind: 'line', line: line.id } });
    const middle = line.path[Math.floor(line.path.length / 2)];
    if (!chosen && middle) showPlaceGently(table, store, piece, line);
  };
  return (
    <li ref={row} className={chosen ? 'chosen' : undefined}>
      <button type="button" className="row-button" aria-pressed={chosen} onClick={choose}>
        <span className="row-number">{index + 1}</span>
        <span>
          {describeLine(line, piece.whole, doc.units)}
          {line.ties?.nodes[0]?.kind === 'edge' && (
            <Suspense fallback={null}>
              <BandWord line={line} />
            </Suspense>
          )}
          <em>{manner(doc, line, piece)}</em>
        </span>
      </button>
      {chosen && <LineCard line={line} piece={piece} />}
    </li>
  );
}

/** Which sides a line is on, whether it follows its piece, and what it is besides a seam. */
const manner = (doc: Design, line: PanelLine, { whole }: PanelledPiece): string =>
  [
    whole.unfolded ? (line.once ? 'this side only' : 'both sides') : null,
    line.ties ? 'tied' : null,
    doc.closings.some(({ on }) => on.kind === 'line' && on.line === line.id) ? 'zip' : null,
    ...doc.trims.filter(({ on }) => on.kind === 'line' && on.line === line.id).map(({ name }) => name),
  ]
    .filter((word) => word !== null)
    .join(', ');

function showPlaceGently(
  table: ReturnType<typeof useTable>,
  store: ReturnType<typeof useBenchStore>,
  piece: PanelledPiece,
  line: PanelLine,
): void {
  const middle = line.path[Math.floor(line.path.length / 2)];
  if (middle && table.board && table.board.zoom() > 1.4)
    showPlace(table, store, piece.whole.piece.id, middleOf(middle));
}

/** Drawing: how to, the manner of drawing, and every line in words. */
export function LinesSheet(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const anyAngle = useBench((s) => s.anyAngle);
  const catching = useBench((s) => s.catching);
  const mirroring = useBench((s) => s.mirroring);
  const showAllowances = useBench((s) => s.showAllowances);
  const dartWanted = useBench((s) => s.openDart !== null);
  const garment = garmentOf(store.getState());
  const set = store.getState().set;
  const hasHalf = garment.pieces.some(({ whole }) => whole.unfolded);
  return (
    <Sheet
      title="Draw the lines"
      lead="Drag over a piece, or click where a line begins and where it ends. Click a line to choose it; then drag its ends, its middle to bend it, or all of it."
    >
      <Part title="Manner">
        <Choice
          label="Direction of new lines"
          quiet
          options={[
            ['square', 'True to the grain'],
            ['any', 'Any angle'],
          ]}
          value={anyAngle ? 'any' : 'square'}
          onChoose={(v) => set({ anyAngle: v === 'any' })}
        />
        {hasHalf && (
          <Tick
            label="Mirror new lines"
            note="On pieces traced by the half, the other side follows."
            on={mirroring}
            onChange={(on) => set({ mirroring: on })}
          />
        )}
        <Tick label="Catch edges, levels, corners" on={catching} onChange={(on) => set({ catching: on })} />
        <Tick label="Show allowances" on={showAllowances} onChange={(on) => set({ showAllowances: on })} />
      </Part>
      {garment.pieces.map((piece) => {
        const own = doc.lines
          .map((line, index) => ({ line, index }))
          .filter(({ line }) => line.piece === piece.whole.piece.id);
        return (
          <Part key={piece.whole.piece.id} title={piece.whole.name}>
            {own.length === 0 ? (
              <p className="note">No lines yet: it stays in one panel.</p>
            ) : (
              <ol className="rows">
                {own.map(({ line, index }) => (
                  <LineRow key={line.id} line={line} index={index} piece={piece} />
                ))}
              </ol>
            )}
          </Part>
        );
      })}
      <NewLineCard />
      <Suspense fallback={null}>
        {garment.pieces.some(({ whole }) => whole.darts.length > 0) && (
          <WhenSeen title="Darts" ask="Show the darts" at="darts" wanted={dartWanted}>
            <DartsPart />
          </WhenSeen>
        )}
        {doc.pieces.length > 0 && (
          <WhenSeen title="Where pieces meet" ask="Show the seams">
            <MeetPart />
          </WhenSeen>
        )}
      </Suspense>
    </Sheet>
  );
}
