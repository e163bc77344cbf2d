import { useEffect } from 'react';
import type { Pt } from '../../geometry';
import { useFiles, type Files } from '../bringIn/FilesContext';
import { isTyping } from '../canvas/gestures';
import { useTable, viewOf, type TableControls } from '../canvas/tableControls';
import { cureOpenEnd } from '../canvas/OpenEnds';
import { catchField } from '../drawing/catchField';
import { movePath } from '../drawing/moveLine';
import { curableEnds } from '../drawing/openEnd';
import { garmentOf, useBenchStore, type BenchStore } from '../store/benchStore';
import { keepToOneSide, lineOf, reshapeLine } from '../store/lineEdits';
import { takeLineAway } from '../store/takeLineAway';

/** One key and what it does, also the list shown to people. */
export const KEYS: readonly (readonly [string, string])[] = [
  ['Ctrl+Z, Ctrl+Shift+Z', 'undo, redo'],
  ['Ctrl+S, Ctrl+O', 'save, open'],
  ['L', 'draw a line by measure'],
  ['Arrow keys', 'move the chosen line by 1 mm; with Shift by 1 cm. Without one: move the table'],
  ['Arrow keys on a lay plan', 'from piece to piece; Enter chooses one'],
  ['Digits', 'type the distance of the line in hand'],
  ['M', 'mirror the chosen line, or keep it to one side'],
  ['E', 'extend open ends to the next line or edge'],
  ['Delete', 'delete the chosen line'],
  ['Esc', 'leave off, choose nothing'],
  ['+ − 0', 'nearer, farther, everything'],
  ['Alt, Ctrl, Shift while drawing', 'any angle; catch nothing; draw on a chosen line'],
  ['Space and drag', 'move the table'],
];

const ARROWS: Readonly<Record<string, Pt>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** How far an arrow key moves the table, pixels. */
const TABLE_STEP = 60;

function nudge(store: BenchStore, by: Pt): boolean {
  const { selected, doc, commit } = store.getState();
  const line = selected?.kind === 'line' ? lineOf(doc, selected.line) : null;
  const piece = line ? garmentOf(store.getState()).pieceById.get(line.piece) : undefined;
  if (!line || !piece) return false;
  commit('Nudge a line', reshapeLine(line.id, movePath(line.path, catchField(piece, line.id), by)));
  return true;
}

function cureAll(store: BenchStore): void {
  const garment = garmentOf(store.getState());
  for (const { whole } of garment.pieces) {
    for (const open of curableEnds(garment.problems, whole, store.getState().doc.lines))
      cureOpenEnd(store, open);
  }
}

function openNewLine(store: BenchStore): void {
  store.getState().set({ place: 'lines', sheetOpen: true });
  requestAnimationFrame(() => {
    const card = document.getElementById('new-line');
    if (!(card instanceof HTMLDetailsElement)) return;
    card.open = true;
    card.scrollIntoView({ block: 'nearest' });
    card.querySelector<HTMLElement>('select')?.focus();
  });
}

function withCtrl(e: KeyboardEvent, store: BenchStore, files: Files): boolean {
  const { undo, redo } = store.getState();
  const key = e.key.toLowerCase();
  if (key === 'z') (e.shiftKey ? redo : undo)();
  else if (key === 'y') redo();
  else if (key === 's') files.save();
  else if (key === 'o') files.openSaved();
  else return false;
  return true;
}

function plainKey(e: KeyboardEvent, store: BenchStore, table: TableControls): boolean {
  const { selected, doc, commit, set, place } = store.getState();
  const line = selected?.kind === 'line' && place === 'lines' ? lineOf(doc, selected.line) : null;
  const arrow = ARROWS[e.key];
  if (arrow) {
    const step = e.shiftKey ? 10 : 1;
    if (!line || !nudge(store, [arrow[0] * step, arrow[1] * step]))
      viewOf(table, store).panBy(-arrow[0] * TABLE_STEP, -arrow[1] * TABLE_STEP);
    return true;
  }
  const doThis: Readonly<Record<string, () => void>> = {
    Escape: () => {
      table.cancelHand();
      set({ selected: null, held: null, lit: null, notice: null });
    },
    '+': () => viewOf(table, store).zoomBy(1.25),
    '=': () => viewOf(table, store).zoomBy(1.25),
    '-': () => viewOf(table, store).zoomBy(0.8),
    l: () => openNewLine(store),
    e: () => cureAll(store),
  };
  const forLine: Readonly<Record<string, () => void>> = line
    ? {
        Delete: () => takeLineAway(store, line.id),
        m: () =>
          commit(line.once ? 'Mirror a line' : 'Keep a line to one side', keepToOneSide(line.id, !line.once)),
      }
    : { '0': () => viewOf(table, store).fitAll() };
  const key = e.key === 'Backspace' ? 'Delete' : e.key.length === 1 ? e.key.toLowerCase() : e.key;
  const action = forLine[key] ?? doThis[key];
  action?.();
  return action !== undefined;
}

/** Keys for all that the pointer can do. Fields keep their own keys; lists keep their arrows. */
export function useKeys(): void {
  const store = useBenchStore();
  const table = useTable();
  const files = useFiles();
  useEffect(() => {
    const pressed = (e: KeyboardEvent): void => {
      if (e.defaultPrevented || document.querySelector('dialog[open]')) return;
      if (e.ctrlKey || e.metaKey) {
        if (isTyping(e.target) && e.key.toLowerCase() === 'z') return;
        if (withCtrl(e, store, files)) e.preventDefault();
        return;
      }
      const inRadio =
        e.target instanceof HTMLInputElement && e.target.type === 'radio' && e.key.startsWith('Arrow');
      if (e.altKey || isTyping(e.target) || inRadio) return;
      if (plainKey(e, store, table)) e.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [store, table, files]);
}
