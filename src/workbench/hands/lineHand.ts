import { distance, startOf, type Pt } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import type { FoldedShut, LineId, PlacedDart } from '../../pattern';
import { catchField, type CatchField, type CatchSpot } from '../drawing/catchField';
import { catchAnywhere, type Caught } from '../drawing/catchPoint';
import { dartAt, lineAt, seenBy } from '../drawing/find';
import { measuresAt, runOfPath } from '../drawing/measure';
import { asFlat, shutOf, shutPiece } from '../drawing/shutPiece';
import { finishStroke, SHORTEST_STROKE, strokeTo, type StrokeResult } from '../drawing/stroke';
import { sayMeasured } from '../drawing/words';
import { garmentOf, type BenchStore } from '../store/benchStore';
import { drawLine, freshLineId, lineOf, reshapeLine } from '../store/lineEdits';
import { catchReach, grabReach, NEAR_PIECE, type Hand, type HandAt } from './hand';
import { reshape, takeLine, type TakenLine } from './takenLine';

type Doing =
  | { readonly what: 'nothing' }
  /** Pressed, not yet known whether it becomes a drag. */
  | {
      readonly what: 'pressed';
      readonly piece: PanelledPiece;
      readonly from: Caught;
      readonly onLine: LineId | null;
      readonly onDart: PlacedDart | null;
    }
  /** A stroke by dragging, or between two clicks. */
  | {
      readonly what: 'stroke';
      readonly piece: PanelledPiece;
      readonly field: CatchField;
      readonly id: LineId;
      readonly byDrag: boolean;
    }
  | { readonly what: 'taken'; readonly taken: TakenLine };

/** Whether a line may well begin at what was caught, even on a dart; elsewhere in a wedge a click means the dart. */
const isStart = ({ kind }: Caught): boolean =>
  kind === 'dart' || kind === 'corner' || kind === 'notch' || kind === 'line end';

/** Drawing: a drag or two clicks draw a line; a click on a line selects it, one in a dart opens its ways; a selected line is dragged by its ends, middle or length. */
export function lineHand(store: BenchStore): Hand {
  let doing: Doing = { what: 'nothing' };
  const state = store.getState;

  const reading = (piece: PanelledPiece, p: Pt, run: Parameters<typeof measuresAt>[2]): string | null => {
    const { whole } = met(piece);
    const measured = measuresAt(whole, p, run)[0];
    return measured ? sayMeasured(measured, whole, state().doc.units) : null;
  };

  const shutOn = (piece: PanelledPiece): FoldedShut | null => shutOf(piece.whole, state().shutDart);
  /** The piece as the hand meets it: with a dart folded shut where it is shown so. */
  const met = (piece: PanelledPiece): PanelledPiece => {
    const shut = shutOn(piece);
    return shut ? shutPiece(piece, shut) : piece;
  };
  /** What a stroke on the piece as met leaves behind on the flat piece. */
  const drawn = (piece: PanelledPiece, from: Pt, to: Pt): StrokeResult => {
    const result = finishStroke(met(piece).whole, from, to, state().mirroring);
    const shut = shutOn(piece);
    return shut ? { ...result, path: asFlat(result.path, shut) } : result;
  };

  const showTip = (piece: PanelledPiece, caught: Caught, text: string | null): void =>
    state().set({ tip: { piece: piece.whole.piece.id, caught, reading: text } });

  const rest = (): void => {
    doing = { what: 'nothing' };
    state().cancel();
    state().set({ underWay: null, tip: null });
  };

  const begin = (piece: PanelledPiece, from: Caught, byDrag: boolean): void => {
    doing = { what: 'stroke', piece, field: catchField(met(piece)), id: freshLineId(state().doc), byDrag };
    state().set({
      selected: null,
      underWay: { piece: piece.whole.piece.id, from, stroke: { from, to: from, run: 'across the grain' } },
    });
  };

  const follow = (at: HandAt): void => {
    const under = state().underWay;
    if (doing.what !== 'stroke' || !under) return;
    const { piece, field, id } = doing;
    const manner = { anyAngle: state().anyAngle || at.alt, reach: catchReach(at, state().catching) };
    const stroke = strokeTo(met(piece).whole, field, under.from, at.inside(piece), manner);
    const long = distance(stroke.from.at, stroke.to.at) >= SHORTEST_STROKE;
    if (long) {
      const { path, once } = drawn(piece, stroke.from.at, stroke.to.at);
      state().preview(drawLine(id, piece.whole.piece.id, path, once));
    } else state().cancel();
    state().set({ underWay: { ...under, stroke } });
    showTip(
      piece,
      stroke.to,
      long
        ? (reading(piece, stroke.run === 'at an angle' ? stroke.to.at : stroke.from.at, stroke.run) ??
            stroke.run)
        : null,
    );
  };

  const finish = (): void => {
    const under = state().underWay;
    if (doing.what !== 'stroke' || !under) return;
    const { piece, id } = doing;
    const { from, to } = under.stroke;
    if (distance(from.at, to.at) >= SHORTEST_STROKE) {
      const { path, once } = drawn(piece, from.at, to.at);
      state().commit(`Draw a line on ${piece.whole.name}`, drawLine(id, piece.whole.piece.id, path, once));
      const place = reading(piece, startOf(path), runOfPath(piece.whole, path));
      state().set({
        selected: { kind: 'line', line: id },
        spoken: `Line drawn on ${piece.whole.name}${place ? `, ${place}` : ''}.`,
      });
    }
    doing = { what: 'nothing' };
    state().set({ underWay: null, tip: null });
  };

  const selectedLine = (): ReturnType<typeof lineOf> => {
    const { selected, doc } = state();
    return selected?.kind === 'line' ? lineOf(doc, selected.line) : null;
  };

  const take = (at: HandAt): TakenLine | null => {
    const line = selectedLine();
    const piece = line ? garmentOf(state()).pieceById.get(line.piece) : undefined;
    // on a piece shown folded shut lines are drawn, not moved
    return line && piece && !at.shift && !shutOn(piece) ? takeLine(line, piece, at) : null;
  };

  /** Where the line in hand would save cloth, as far as that is known. */
  const cheapSpots = (): readonly CatchSpot[] =>
    state().cost?.spots.map(({ path, word }) => ({ at: startOf(path), kind: 'cheap', word })) ?? [];

  const openDart = ({ whole }: PanelledPiece, { traced }: PlacedDart): void =>
    state().set({
      openDart: { piece: whole.piece.id, dart: traced },
      sheetOpen: true,
      selected: null,
      tip: null,
      spoken: 'The ways with this dart are open in the list.',
    });

  const isNear = (at: HandAt): boolean =>
    at.away <= (at.touch ? NEAR_PIECE.touch : NEAR_PIECE.mouse) * at.perPixel;

  return {
    hover: (at) => {
      if (doing.what === 'stroke') return follow(at);
      const { piece } = at;
      if (!piece || !isNear(at) || take(at)) return void (state().tip && state().set({ tip: null }));
      const caught = catchAnywhere(catchField(met(piece)), at.p, catchReach(at, state().catching));
      showTip(piece, caught, caught.kind || at.away === 0 ? reading(piece, caught.at, 'at an angle') : null);
    },
    press: (at) => {
      if (doing.what === 'stroke') return true;
      const taken = take(at);
      if (taken) {
        doing = { what: 'taken', taken };
        return true;
      }
      const { piece } = at;
      if (!piece || !isNear(at)) return false;
      const from = catchAnywhere(catchField(met(piece)), at.p, catchReach(at, state().catching));
      const flat = shutOn(piece)?.toFlat(at.p) ?? at.p;
      const onLine = lineAt(piece.whole, state().doc.lines, flat, grabReach(at))?.line ?? null;
      const onDart = isStart(from) ? null : dartAt(met(piece).whole, at.p);
      doing = { what: 'pressed', piece, from, onLine, onDart };
      return true;
    },
    drag: (at) => {
      if (doing.what === 'pressed') begin(doing.piece, doing.from, true);
      if (doing.what === 'stroke') return follow(at);
      if (doing.what !== 'taken') return;
      const { taken } = doing;
      const { path, tip } = reshape(taken, at, state(), cheapSpots());
      state().preview(reshapeLine(taken.line.id, path));
      const p = taken.hold.by === 'whole' ? startOf(path) : tip.at;
      const shownTip = { ...tip, at: seenBy(taken.piece.whole, taken.reflect, tip.at) };
      showTip(
        taken.piece,
        shownTip,
        taken.hold.by === 'middle' ? null : reading(taken.piece, p, runOfPath(taken.piece.whole, path)),
      );
    },
    release: (at, dragged) => {
      const was = doing;
      if (was.what === 'stroke') {
        follow(at);
        return finish();
      }
      if (was.what === 'pressed') {
        if (was.onLine === null && was.onDart === null) return begin(was.piece, was.from, false);
        doing = { what: 'nothing' };
        if (was.onLine === null) return openDart(was.piece, was.onDart!);
        return state().set({ selected: { kind: 'line', line: was.onLine }, tip: null });
      }
      if (was.what === 'taken' && dragged) {
        const { path, label } = reshape(was.taken, at, state(), cheapSpots());
        state().commit(label, reshapeLine(was.taken.line.id, path));
      }
      if (was.what === 'nothing' && !dragged) state().set({ selected: null });
      doing = { what: 'nothing' };
      state().set({ tip: null });
    },
    cancel: rest,
    leave: () => {
      if (doing.what === 'nothing' && state().tip) state().set({ tip: null });
    },
    cursor: (at) => {
      if (doing.what === 'taken') return 'grabbing';
      const taken = take(at);
      if (taken) return taken.hold.by === 'whole' ? 'move' : 'grab';
      return at.piece && isNear(at) ? 'crosshair' : 'grab';
    },
  };
}
