import { useId, useState, type ReactElement } from 'react';
import {
  sayNeatening,
  sayTotal,
  shoppingList,
  shoppingRows,
  shoppingText,
  type ClothPlan,
  type ShoppingPart as ListPart,
  type ShoppingRow,
} from '../../fabric';
import type { ColourId } from '../../pattern';
import type { LayState } from '../handOut/layRoom';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { Part } from './Sheet';

const plansOf = (lays: readonly LayState[]): ReadonlyMap<ColourId, ClothPlan> =>
  new Map(lays.flatMap(({ colour, plan }) => (plan ? [[colour, plan] as const] : [])));

function Row({ row }: { row: ShoppingRow }): ReactElement {
  return (
    <tr>
      <th scope="row">
        {row.fill && <span className="chip" style={{ background: row.fill }} />} {row.what}
        {row.how.length > 0 && <em>{row.how.join(' ')}</em>}
      </th>
      {/* what has no price has its room too */}
      <td className={row.isKnown ? 'ask' : 'ask open'} colSpan={row.cost === '' ? 2 : 1}>
        {row.ask}
      </td>
      {row.cost !== '' && <td className="cost">{row.cost}</td>}
    </tr>
  );
}

/** Puts the list on the clipboard; where that is not allowed, shows it to be copied by hand. */
function CopyList({ text }: { text: string }): ReactElement {
  const store = useBenchStore();
  const id = useId();
  const [said, setSaid] = useState<'copied' | 'by hand' | null>(null);
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text);
      setSaid('copied');
      store.getState().set({ spoken: 'The shopping list is copied.' });
    } catch {
      // browsers refuse where a page is not served safely, or when the user says so
      setSaid('by hand');
    }
  };
  return (
    <div className="copy-list">
      <button type="button" onClick={() => void copy()}>
        {said === 'copied' ? 'Copied' : 'Copy as text'}
      </button>
      {said === 'by hand' && (
        <>
          <label htmlFor={id}>The browser does not let it be copied. Mark it here and copy it:</label>
          <textarea id={id} readOnly rows={8} value={text} onFocus={(e) => e.target.select()} />
        </>
      )}
    </div>
  );
}

/** Everything to buy: cloth by its lay plans, trims, zips, thread, with the sum behind each amount and a total. */
export function ShoppingPart({ lays }: { lays: readonly LayState[] }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const list = shoppingList(garmentOf(store.getState()), plansOf(lays));
  const rows = shoppingRows(list);
  const parts = [...new Set(rows.map((r) => r.part))];
  const total = sayTotal(list);
  const neatening = sayNeatening(list);
  return (
    <Part title="Shopping list">
      <table className="shopping">
        <thead className="unseen">
          <tr>
            <th scope="col">What</th>
            <th scope="col">Ask for</th>
            <th scope="col">Costs</th>
          </tr>
        </thead>
        {parts.map((part: ListPart) => (
          <tbody key={part}>
            <tr>
              <th scope="rowgroup" colSpan={3} className="group">
                {part}
              </th>
            </tr>
            {rows
              .filter((r) => r.part === part)
              .map((row) => (
                <Row key={row.key} row={row} />
              ))}
          </tbody>
        ))}
      </table>
      {total && <p className="total">{total}</p>}
      {neatening && <p className="note">{neatening}</p>}
      <CopyList text={shoppingText(list, doc.name)} />
    </Part>
  );
}

export default ShoppingPart;
