import { StrictMode, type ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import { Bench } from './app/Bench';
import { FilesContext } from './bringIn/FilesContext';
import { useFileDoors } from './bringIn/useFileDoors';
import { TableContext, type TableControls } from './canvas/tableControls';
import { designFile } from './handOut/designFile';
import { giveFile } from './handOut/giveFile';
import type { FirstDesign } from './keep/firstDesign';
import { keepDesign } from './keep/keeper';
import type { Shelf } from './keep/shelf';
import { ErrorBoundary } from './parts/ErrorBoundary';
import { BenchContext, createBench, type BenchStore } from './store/benchStore';

function App({ store, table }: { store: BenchStore; table: TableControls }): ReactElement {
  const files = useFileDoors(store);
  const onScale = (scale: number): void => {
    const { question } = store.getState();
    if (question)
      void import('./bringIn/bringIn').then(({ bringIn }) => bringIn(store, question.files, scale));
  };
  return (
    <BenchContext value={store}>
      <TableContext value={table}>
        <FilesContext value={files}>
          <ErrorBoundary onRescue={() => giveFile(designFile(store.getState().doc))}>
            <Bench onScale={onScale} />
          </ErrorBoundary>
        </FilesContext>
      </TableContext>
    </BenchContext>
  );
}

/** Put the design to begin with on the table and show the bench, which keeps it on the shelf from now on. */
export function startBench(
  root: HTMLElement,
  shelf: Shelf,
  { design, from, trouble, unread }: FirstDesign,
): BenchStore {
  const store = createBench(design);
  if (from === 'shelf') store.getState().set({ keeping: { state: 'kept' } });
  // one lasting notice is enough where nothing can be kept
  if (trouble && unread) store.getState().set({ keeping: { state: 'failed', why: trouble } });
  else if (trouble)
    store
      .getState()
      .set({ notice: { tone: 'bad', title: 'Last time’s work is not on the table.', lines: [trouble] } });
  keepDesign(store, shelf, unread);
  window.addEventListener('beforeunload', (e) => {
    // ask before leaving only where leaving would lose something
    const { keeping, doc } = store.getState();
    if (keeping.state === 'failed' && doc !== design) e.preventDefault();
  });
  const table: TableControls = { board: null, cancelHand: () => undefined };
  createRoot(root).render(
    <StrictMode>
      <App store={store} table={table} />
    </StrictMode>,
  );
  return store;
}
