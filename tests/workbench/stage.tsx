/** A bench without its canvas, for testing sheets and lists in a page that cannot draw. */
import { cleanup, render, type RenderResult } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach } from 'vitest';
import type { Design } from '../../src/pattern';
import { FilesContext, type Files } from '../../src/workbench/bringIn/FilesContext';
import { TableContext, type TableControls } from '../../src/workbench/canvas/tableControls';
import { BenchContext, createBench, type BenchStore } from '../../src/workbench/store/benchStore';

afterEach(cleanup);

const NO_FILES: Files = {
  chooseTracing: () => undefined,
  openSaved: () => undefined,
  save: () => undefined,
  bringSize: () => undefined,
  take: () => Promise.resolve(),
  examples: [],
};

export function onStage(
  part: ReactElement,
  design: Design,
  files: Partial<Files> = {},
): RenderResult & { store: BenchStore } {
  const store = createBench(design);
  const table: TableControls = { board: null, cancelHand: () => undefined };
  const shown = render(
    <BenchContext value={store}>
      <TableContext value={table}>
        <FilesContext value={{ ...NO_FILES, ...files }}>{part}</FilesContext>
      </TableContext>
    </BenchContext>,
  );
  return { ...shown, store };
}
