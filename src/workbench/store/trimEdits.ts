import type { Path } from '../../geometry';
import {
  type Design,
  type LineId,
  type Trim,
  type TrimId,
  type TrimPlace,
  withoutSteps,
} from '../../pattern';
import type { Edit } from './documentSlice';
import { addLine, deleteLine, freshLineId, lineOf } from './lineEdits';

/** The least share of a line a trim may cover: less cannot be taken hold of. */
const LEAST_SHARE = 0.01;

function freshTrimId({ trims }: Design): TrimId {
  const taken = new Set<string>(trims.map(({ id }) => id));
  let n = trims.length + 1;
  while (taken.has(`trim-${n}`)) n += 1;
  return `trim-${n}` as TrimId;
}

/** A new trim in a place: more of the ribbon laid last, else a plain one of 1 cm. */
export function freshTrim(design: Design, on: TrimPlace): Trim {
  const like: Omit<Trim, 'id' | 'on'> = design.trims.at(-1) ?? {
    name: 'ribbon',
    kind: 'straight',
    width: 10,
    fill: '#3a3835',
    rows: 2,
    shrinkage: 0,
    soldIn: null,
  };
  return { ...like, id: freshTrimId(design), on };
}

/** All of a panel line. */
export const onLine = (line: LineId): TrimPlace => ({ kind: 'line', line, from: 0, to: 1 });

export const addTrim =
  (trim: Trim): Edit =>
  (design) => ({ ...design, trims: [...design.trims, trim] });

export const trimOf = ({ trims }: Pick<Design, 'trims'>, id: TrimId): Trim | null =>
  trims.find((t) => t.id === id) ?? null;

export const changeTrim =
  (id: TrimId, patch: Partial<Omit<Trim, 'id'>>): Edit =>
  (design) => {
    const now = trimOf(design, id);
    if (!now) return design;
    const next = { ...now, ...patch };
    if (JSON.stringify(next) === JSON.stringify(now)) return design;
    return { ...design, trims: design.trims.map((t) => (t === now ? next : t)) };
  };

/** Move one end of a trim along its line to a share of it; the other end stays. */
export const moveTrimEnd =
  (id: TrimId, end: 'from' | 'to', share: number): Edit =>
  (design) => {
    const on = trimOf(design, id)?.on;
    if (on?.kind !== 'line') return design;
    const within =
      end === 'from'
        ? Math.min(Math.max(0, share), on.to - LEAST_SHARE)
        : Math.max(Math.min(1, share), on.from + LEAST_SHARE);
    return changeTrim(id, { on: { ...on, [end]: within } })(design);
  };

/** Give a trim's own path another course. */
export const reshapeTrim =
  (id: TrimId, path: Path): Edit =>
  (design) => {
    const on = trimOf(design, id)?.on;
    return on?.kind === 'path' ? changeTrim(id, { on: { ...on, path } })(design) : design;
  };

/** What is wanted of the order of a step that is gone is forgotten. */
export const removeTrim =
  (id: TrimId): Edit =>
  (design) => {
    if (!trimOf(design, id)) return design;
    return {
      ...design,
      trims: design.trims.filter((t) => t.id !== id),
      sewing: withoutSteps(design.sewing, id),
    };
  };

/** A panel line becomes the path of a trim: nothing is sliced there any more, the trim is sewn on the whole cloth. */
export const lineToTrim =
  (id: LineId): Edit =>
  (design) => {
    const line = lineOf(design, id);
    if (!line) return design;
    const on: TrimPlace = { kind: 'path', piece: line.piece, path: line.path, once: line.once };
    const onIt = design.trims.find((t) => t.on.kind === 'line' && t.on.line === id);
    const trim = onIt ? { ...onIt, on } : freshTrim(design, on);
    return addTrim(trim)(deleteLine(id)(design));
  };

/** A trim's own path becomes a panel line with the trim on it. */
export const trimToLine =
  (id: TrimId): Edit =>
  (design) => {
    const on = trimOf(design, id)?.on;
    if (on?.kind !== 'path') return design;
    const line = freshLineId(design);
    return changeTrim(id, { on: onLine(line) })(addLine(line, on.piece, on.path, on.once)(design));
  };
