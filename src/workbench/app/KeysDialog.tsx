import { useRef, type ReactElement } from 'react';
import { KEYS } from './useKeys';

/** What the keys do. */
export function KeysDialog(): ReactElement {
  const dialog = useRef<HTMLDialogElement>(null);
  return (
    <>
      <button type="button" className="plain keys-button" onClick={() => dialog.current?.showModal()}>
        Keys
      </button>
      <dialog ref={dialog} aria-label="Keys" className="leaf">
        <h2>Keys</h2>
        <dl>
          {KEYS.map(([keys, words]) => (
            <div key={keys}>
              <dt>{keys}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
        <form method="dialog">
          <button type="submit">Close</button>
        </form>
      </dialog>
    </>
  );
}
