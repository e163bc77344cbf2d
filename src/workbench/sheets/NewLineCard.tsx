import { lazy, Suspense, useState, type ReactElement } from 'react';

const NewLineForm = lazy(() => import('./NewLineForm').then((m) => ({ default: m.NewLineForm })));

/** Draw a line by saying where it lies: the way without a pointer, and the exact way. */
export function NewLineCard(): ReactElement {
  const [wasOpened, setWasOpened] = useState(false);
  return (
    <details
      className="part new-line"
      id="new-line"
      onToggle={(e) => setWasOpened((was) => was || e.currentTarget.open)}
    >
      <summary>
        <h3>Draw by measure</h3>
      </summary>
      {wasOpened && (
        <Suspense fallback={<p className="note">…</p>}>
          <NewLineForm />
        </Suspense>
      )}
    </details>
  );
}
