import { deriveGarment, type Garment } from '../../garment';
import type { CutPiece } from '../../allowance';
import type { Design, ColourId, FoldedShut, PieceId, Problem } from '../../pattern';
import { shownDesign, type BenchState } from '../store/benchStore';
import { lineOf } from '../store/lineEdits';
import type { Overlay, Picture } from './board';
import { asShut, shutOf } from '../drawing/shutPiece';
import { layoutOf } from './layoutOf';
import type { PieceView } from './drawPiece';
import { spotItems } from './spotItems';
import { zipOverlays } from './zipItems';
import { handlesOf, pieceOfTrim } from '../drawing/trimHandles';
import { trimOf } from '../store/trimEdits';
import {
  endHandles,
  litItems,
  pointingItem,
  problemItems,
  selectedLineItems,
  strokeItems,
  tipItem,
} from './drawOverlay';

const fillsOf = new WeakMap<Design['colours'], ReadonlyMap<ColourId, string>>();

function fills(colours: Design['colours']): ReadonlyMap<ColourId, string> {
  const known = fillsOf.get(colours) ?? new Map(colours.map(({ id, fill }) => [id, fill]));
  fillsOf.set(colours, known);
  return known;
}

function pieceViews(garment: Garment, s: BenchState): PieceView[] {
  const ofPiece = new Map<PieceId, CutPiece[]>();
  garment.cutPieces.forEach((cut, i) => {
    const piece = garment.panels[i]!.piece;
    ofPiece.set(piece, [...(ofPiece.get(piece) ?? []), cut]);
  });
  const panel = s.selected?.kind === 'panel' ? s.selected.panel : null;
  return garment.pieces.map((panelled) => ({
    panelled,
    cutPieces: ofPiece.get(panelled.whole.piece.id) ?? [],
    numberText: panelled.panels.map(({ id }) => garment.plan.numbers.get(id) ?? 0).join(' '),
    numbers: garment.plan.numbers,
    fills: fills(garment.design.colours),
    showAllowances: s.showAllowances,
    selectedPanel: panelled.panels.some(({ id }) => id === panel) ? panel : null,
    litSeams: s.lit?.seams ?? null,
    litPanels: s.lit?.panels ?? null,
    trims: garment.trims.filter((t) => t.copy === 1 && t.piece === panelled.whole.piece.id),
    shut: s.place === 'lines' ? shutOf(panelled.whole, s.shutDart) : null,
  }));
}

/** A problem where its place lies on a piece with a dart folded shut. */
const shutProblem = (p: Problem, shut: FoldedShut | null): Problem =>
  shut && p.at ? { ...p, at: shut.toShut(p.at) } : p;

function problemOverlays(garment: Garment, s: BenchState): Overlay[] {
  return garment.pieces.map(({ whole }) => ({
    piece: whole.piece.id,
    flat: [],
    sized: problemItems(
      garment.problems
        .filter((p) => p.piece === whole.name)
        .map((p) => shutProblem(p, shutOf(whole, s.place === 'lines' ? s.shutDart : null))),
    ),
  }));
}

/** Handles at the ends of the trim that is laid open. */
function trimOverlays({ design }: Garment, s: BenchState): Overlay[] {
  const trim = s.place === 'colours' && s.openTrim ? trimOf(design, s.openTrim) : null;
  const piece = trim && pieceOfTrim(design, trim);
  if (!trim || !piece) return [];
  return [{ piece, flat: [], sized: endHandles(handlesOf(design, trim).map((h) => h.at)) }];
}

/** Ticks where the line in hand would have to lie for less cloth to be bought. */
function spotOverlays({ design, pieceById }: Garment, s: BenchState): Overlay[] {
  const line = s.cost?.line ? lineOf(design, s.cost.line) : null;
  const home = line ? pieceById.get(line.piece) : undefined;
  if (!s.cost || !line || !home || s.place !== 'lines' || shutOf(home.whole, s.shutDart)) return [];
  return s.cost.spots.map(({ path }) => ({ piece: line.piece, ...spotItems(path, line, home.whole) }));
}

function lineOverlays(garment: Garment, s: BenchState): Overlay[] {
  const overlays: Overlay[] = [];
  const line = s.selected?.kind === 'line' ? lineOf(garment.design, s.selected.line) : null;
  const home = line ? garment.pieceById.get(line.piece) : undefined;
  overlays.push(...spotOverlays(garment, s));
  if (line && home && s.place === 'lines') {
    const shut = shutOf(home.whole, s.shutDart);
    const seen = shut ? { ...line, once: true, path: asShut(line.path, shut) } : line;
    overlays.push({ piece: line.piece, ...selectedLineItems(seen, home.whole) });
  }
  overlays.push(...trimOverlays(garment, s), ...zipOverlays(garment.closings));
  for (const { piece, path } of s.lit?.paths ?? []) overlays.push({ piece, flat: litItems(path), sized: [] });
  if (s.underWay)
    overlays.push({
      piece: s.underWay.piece,
      ...strokeItems(s.underWay.stroke.from.at, s.underWay.stroke.to.at),
    });
  if (s.tip) overlays.push({ piece: s.tip.piece, flat: [], sized: [tipItem(s.tip.caught)] });
  if (s.pointing) overlays.push({ piece: s.pointing.piece, flat: [], sized: [pointingItem(s.pointing.at)] });
  return overlays;
}

/** Everything the table shows for a state of the bench. */
export function pictureOf(s: BenchState): Picture {
  const garment = deriveGarment(shownDesign(s));
  return {
    layout: layoutOf(garment),
    pieces: pieceViews(garment, s),
    overlays: [...(s.underWay ? [] : problemOverlays(garment, s)), ...lineOverlays(garment, s)],
  };
}
