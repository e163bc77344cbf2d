import { useContext, useEffect, useMemo, useState, type ReactElement } from 'react';
import { sayAtCounter, withoutOwn, type LayJob, type LayPlan, type WidthRow } from '../../fabric';
import { formatLength, type Colour, type Units } from '../../pattern';
import type { LayState } from '../handOut/layRoom';
import { LayContext } from '../handOut/RoomsContext';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeColour } from '../store/colourEdits';
import { Part } from './Sheet';

/** How far a table has come. */
interface Filled {
  readonly rows: readonly WidthRow[];
  readonly progress: number;
  readonly failed: string | null;
}

/** Finished tables by the plan they stand beside: whoever leaves the place and comes back finds it as it was. */
const known = new WeakMap<LayPlan, Filled>();

/** The table beside a plan; null until its worker has said anything. It is begun when the plan is at rest. */
function useTableOf(job: LayJob, shown: LayPlan | null, width: number): Filled | null {
  const room = useContext(LayContext);
  const [filled, setFilled] = useState<{ readonly of: LayPlan; readonly table: Filled } | null>(null);
  useEffect(() => {
    if (!shown || known.has(shown)) return undefined;
    let running: { cancel(): void } | null = null;
    let isOver = false;
    let table: Filled = { rows: [], progress: 0, failed: null };
    let better: LayPlan | null = null;
    const put = (patch: Partial<Filled>): void => {
      table = { ...table, ...patch };
      if (!isOver) setFilled({ of: shown, table });
    };
    void import('../../fabric/worker').then(({ startTable }) => {
      if (isOver) return;
      running = startTable(
        { job, shown, width },
        {
          onRows: (rows, progress) => put({ rows, progress }),
          onBetter: (plan) => (better = plan),
          onEnded: (end) => {
            if (end.because === 'finished') {
              known.set(shown, table);
              // the table's own entry is always the plan that is shown
              if (better) known.set(better, table);
              if (better) room.offer(job.colour, shown, better);
            }
            if (end.because === 'failed') put({ failed: end.message });
          },
        },
      );
    });
    return () => {
      isOver = true;
      running?.cancel();
    };
  }, [job, shown, width, room]);
  if (!shown) return null;
  return known.get(shown) ?? (filled?.of === shown ? filled.table : null);
}

function Entry({ plan, units }: { plan: LayPlan | null | undefined; units: Units }): ReactElement {
  if (!plan)
    return (
      <td className="waiting">
        <span aria-hidden="true">…</span>
        <span className="unseen">not found yet</span>
      </td>
    );
  if (plan.placed.length === 0) return <td className="too-wide">too narrow</td>;
  return <td>{sayAtCounter(plan.buy, units)}</td>;
}

function Table({ colour, rows }: { colour: Colour; rows: readonly WidthRow[] }): ReactElement {
  const store = useBenchStore();
  const units = useBench((s) => s.doc.units);
  const [oneWay, bothWays] = [rows.find((r) => r.oneWay), rows.find((r) => !r.oneWay)];
  const take = (width: number): void => {
    store.getState().commit('Change a cloth’s width', changeColour(colour.id, { width }));
    store
      .getState()
      .set({ spoken: `${colour.name} is ${formatLength(width, units)} wide now and is laid anew.` });
  };
  return (
    <table className="width-table">
      <thead>
        <tr>
          <th scope="col">Cloth</th>
          <th scope="col" className={colour.nap ? 'own' : undefined}>
            One way
          </th>
          <th scope="col" className={colour.nap ? undefined : 'own'}>
            Both ways
          </th>
        </tr>
      </thead>
      <tbody>
        {oneWay?.entries.map(({ width, plan }, i) => {
          const other = bothWays?.entries[i];
          const isOwn = width === colour.width;
          return (
            <tr key={width} className={isOwn ? 'own' : undefined} aria-current={isOwn || undefined}>
              <th scope="row">
                {isOwn ? (
                  <span>
                    {formatLength(width, units)} <em>yours</em>
                  </span>
                ) : (
                  <button
                    type="button"
                    className="plain"
                    aria-label={`Take ${colour.name} ${formatLength(width, units)} wide`}
                    onClick={() => take(width)}
                  >
                    {formatLength(width, units)}
                  </button>
                )}
              </th>
              <Entry plan={plan} units={units} />
              <Entry plan={other?.plan} units={units} />
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/**
 * What the cloth of a lay takes in the usual widths, one way and both ways: the table on a pattern envelope's back, filled entry by entry
 * once the plan above is at rest. A width is a button that takes it.
 */
export function WidthTablePart({ lay }: { lay: LayState }): ReactElement | null {
  const colour = useBench((s) => s.doc.colours.find(({ id }) => id === lay.colour));
  const { job, plan, done } = lay;
  const own = plan?.own;
  const wanted = useMemo(() => (own ? withoutOwn(job, own) : job), [job, own]);
  const shown = done && plan && wanted.pieces.length > 0 ? plan.bought : null;
  const table = useTableOf(wanted, shown, colour?.width ?? job.width);
  if (!colour || !plan || wanted.pieces.length === 0) return null;
  const isUnderWay = done && (table?.progress ?? 0) < 1 && !table?.failed;
  return (
    <Part title={`${colour.name} in other widths`}>
      {!done && <p className="note">The table follows when the search for your width is over.</p>}
      {table && table.rows.length > 0 && <Table colour={colour} rows={table.rows} />}
      {isUnderWay && (
        <progress max={1} value={table?.progress ?? 0} aria-label={`Laying ${colour.name} in other widths`} />
      )}
      {table?.failed && <p className="field-wrong">{table.failed}</p>}
      <p className="note">
        Each length is read from a real lay plan for that width, searched briefly; the plan for your width is
        the one that is shown. Choose a width to lay the cloth so.
        {own && own.length > 0 && ' What lies on your own cloth is left out.'}
      </p>
    </Part>
  );
}

export default WidthTablePart;
