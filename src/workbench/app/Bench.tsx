import { lazy, Suspense, useEffect, useId, useState, type ReactElement } from 'react';
import { deriveGarment } from '../../garment';
import { DropPlace } from '../bringIn/DropPlace';
import { OpenEnds } from '../canvas/OpenEnds';
import { Table } from '../canvas/Table';
import { TipLabel } from '../canvas/TipLabel';
import { useBench } from '../store/benchStore';
import { KeysDialog } from './KeysDialog';
import { Notices } from './Notices';
import { CENTRES, SHEETS } from './placeSheets';
import { ProblemSlip } from './ProblemSlip';
import { StrokeSlip } from './StrokeSlip';
import { Tape } from './Tape';
import { TitleBar } from './TitleBar';
import { UnfoldButton } from './UnfoldButton';
import { useKeys } from './useKeys';
import { ViewButtons } from './ViewButtons';

const DartCures = lazy(() => import('../canvas/DartCures'));
const OrderCures = lazy(() => import('../canvas/OrderCures'));
const LiveCost = lazy(() => import('../cost/LiveCost'));

/** Read out by screen readers as things change. */
function Spoken(): ReactElement {
  const spoken = useBench((s) => s.spoken);
  return (
    <p className="unseen" role="status" aria-live="polite">
      {spoken}
    </p>
  );
}

/** Loaded when a drawing does not say how large it is. */
const ScaleDialog = lazy(() => import('./ScaleDialog').then((m) => ({ default: m.ScaleDialog })));

function ScaleDialogWhenAsked({ onScale }: { onScale: (mmPerUnit: number) => void }): ReactElement | null {
  const isAsked = useBench((s) => s.question !== null);
  return isAsked ? (
    <Suspense>
      <ScaleDialog onScale={onScale} />
    </Suspense>
  ) : null;
}

/** What a chosen line may do with the darts beside it: loaded when a line is first chosen. */
function CuresWhenChosen(): ReactElement | null {
  const isChosen = useBench((s) => s.selected?.kind === 'line');
  return isChosen ? (
    <Suspense>
      <DartCures />
    </Suspense>
  ) : null;
}

/** What a line costs, as it is moved: loaded when one is first chosen or drawn, and there from then on. */
function CostWhenMoved(): ReactElement | null {
  const isMoved = useBench((s) => s.selected?.kind === 'line' || s.underWay !== null);
  const [isWanted, setWanted] = useState(false);
  useEffect(() => {
    if (isMoved) setWanted(true);
  }, [isMoved]);
  return isWanted ? (
    <Suspense>
      <LiveCost />
    </Suspense>
  ) : null;
}

/** What a line drawn on would save in sewing: loaded when a seam has to be left open or set in at a corner. */
function OrderCuresWhenNeeded(): ReactElement | null {
  const isNeeded = useBench(
    (s) =>
      s.place === 'lines' &&
      deriveGarment(s.draft ?? s.doc).problems.some(
        (p) => p.code === 'partial-seam' || p.code === 'corner-set-in',
      ),
  );
  return isNeeded ? (
    <Suspense>
      <OrderCures />
    </Suspense>
  ) : null;
}

/** The whole screen: the drawing with a title above it, a sheet beside it and the tape along its near edge. */
export function Bench({ onScale }: { onScale: (mmPerUnit: number) => void }): ReactElement {
  useKeys();
  const place = useBench((s) => s.place);
  const sheetOpen = useBench((s) => s.sheetOpen);
  const hint = useId();
  const PlaceSheet = SHEETS[place];
  const Centre = CENTRES[place];
  return (
    <DropPlace>
      <TitleBar />
      <Notices />
      <main className="work">
        <p className="unseen" id={hint}>
          The pattern pieces with their panels. Arrow keys move the table or the chosen line; L draws a line
          by measure. Every line, panel, step and problem is also in the lists beside the drawing.
        </p>
        <Table describedBy={hint} isAway={Centre !== undefined}>
          <TipLabel />
          <OpenEnds />
          <CuresWhenChosen />
          <OrderCuresWhenNeeded />
          <CostWhenMoved />
        </Table>
        {Centre && (
          <Suspense>
            <Centre />
          </Suspense>
        )}
        <StrokeSlip />
        <div className="corner">
          <ProblemSlip />
          <div className="corner-row">
            <KeysDialog />
            <ViewButtons />
          </div>
        </div>
      </main>
      {sheetOpen ? (
        <Suspense fallback={<section className="sheet" aria-busy="true" />}>
          <PlaceSheet />
        </Suspense>
      ) : (
        <UnfoldButton />
      )}
      <Tape />
      <ScaleDialogWhenAsked onScale={onScale} />
      <Spoken />
    </DropPlace>
  );
}
