import { useMemo } from 'react';
import { designFile } from '../handOut/designFile';
import { giveFile } from '../handOut/giveFile';
import type { PieceId } from '../../pattern';
import type { BenchStore } from '../store/benchStore';
import { EXAMPLES } from './examples';
import type { Files } from './FilesContext';

/** The system's file windows. Loaded at the press that wants them, which is still fresh enough for the browser to allow them then. */
const windows = (): Promise<typeof import('browser-fs-access')> => import('browser-fs-access');

/** The person closed the system's window: nothing to report. */
const isCalledOff = (failure: unknown): boolean =>
  failure instanceof DOMException && failure.name === 'AbortError';

function tell(store: BenchStore, title: string, failure: unknown): void {
  if (isCalledOff(failure)) return;
  store.getState().set({
    notice: { tone: 'bad', title, lines: [failure instanceof Error ? failure.message : String(failure)] },
  });
}

const read = async (files: readonly File[]): Promise<{ name: string; data: Uint8Array }[]> =>
  Promise.all(
    files.map(async (file) => ({ name: file.name, data: new Uint8Array(await file.arrayBuffer()) })),
  );

async function takeFiles(store: BenchStore, files: readonly File[]): Promise<void> {
  try {
    const { bringIn } = await import('./bringIn');
    await bringIn(store, await read(files));
  } catch (failure) {
    tell(store, 'This file could not be read.', failure);
  }
}

async function choose(
  store: BenchStore,
  description: string,
  extensions: string[],
  multiple: boolean,
): Promise<void> {
  try {
    const chosen = await (
      await windows()
    ).fileOpen({ description, extensions, multiple: multiple as true, id: 'panelwright' });
    await takeFiles(store, Array.isArray(chosen) ? chosen : [chosen]);
  } catch (failure) {
    tell(store, 'No file could be opened.', failure);
  }
}

async function chooseSize(store: BenchStore, piece: PieceId): Promise<void> {
  try {
    const chosen = await (
      await windows()
    ).fileOpen({
      description: 'Tracing',
      extensions: ['.svg', '.svgz'],
      id: 'panelwright',
    });
    const { bringSize } = await import('./bringSize');
    await bringSize(store, piece, (await read([chosen]))[0]!);
  } catch (failure) {
    tell(store, 'No file could be opened.', failure);
  }
}

async function save(store: BenchStore): Promise<void> {
  const file = designFile(store.getState().doc);
  try {
    await (
      await windows()
    ).fileSave(new Blob([file.data as string], { type: file.type }), {
      fileName: file.name,
      extensions: ['.json'],
      description: 'Design',
      id: 'panelwright',
    });
    store.getState().set({
      spoken: `${file.name} is saved.`,
      notice: { tone: 'good', title: `${file.name} is saved.`, lines: [] },
    });
  } catch (failure) {
    if (isCalledOff(failure)) return;
    giveFile(file);
  }
}

async function openExample(store: BenchStore, example: (typeof EXAMPLES)[number]): Promise<void> {
  try {
    const { default: svg } = await example.load();
    const { readExample } = await import('./bringIn');
    const design = await readExample(example.name, example.file, svg);
    store.getState().replace(`Bring in ${example.name}`, { ...design, units: store.getState().doc.units });
    store.getState().set({
      selected: null,
      held: null,
      unclaimed: [],
      lookOver: null,
      notice: null,
      spoken: `${example.name} is on the table.`,
    });
  } catch (failure) {
    tell(store, 'This example could not be loaded.', failure);
  }
}

/** The bench's ways in and out. */
export function useFileDoors(store: BenchStore): Files {
  return useMemo(
    () => ({
      chooseTracing: () => void choose(store, 'Tracings', ['.svg', '.svgz', '.json'], true),
      openSaved: () => void choose(store, 'Saved designs', ['.json'], false),
      save: () => void save(store),
      bringSize: (piece) => void chooseSize(store, piece),
      take: (files) => takeFiles(store, files),
      examples: EXAMPLES.map((example) => ({
        name: example.name,
        open: () => void openExample(store, example),
      })),
    }),
    [store],
  );
}
