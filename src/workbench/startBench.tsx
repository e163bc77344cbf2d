import { StrictMode, type ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import type { Design } from '../pattern';
import { Bench } from './app/Bench';
import { FIRST_EXAMPLE } from './bringIn/examples';
import { FilesContext } from './bringIn/FilesContext';
import { useFileDoors } from './bringIn/useFileDoors';
import { TableContext, type TableControls } from './canvas/tableControls';
import { designFile } from './handOut/designFile';
import { giveFile } from './handOut/giveFile';
import { firstDesign } from './keep/firstDesign';
import { keepDesign } from './keep/keeper';
import { browserShelf } from './keep/shelf';
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

/** The first example. It is a file of ours that a test holds to opening unchanged, so what checks foreign files need not be loaded. */
async function example(): Promise<Design> {
  const { default: text } = await FIRST_EXAMPLE.load();
  return JSON.parse(text) as Design;
}

/** Put the kept design, or the example, on the table and show the bench. */
export async function startBench(root: HTMLElement): Promise<BenchStore> {
  const shelf = browserShelf();
  const { design, from, trouble, unread } = await firstDesign(
    shelf,
    async (text) => (await import('./bringIn/openKept')).openKept(text),
    example,
  );
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
