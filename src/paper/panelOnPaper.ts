import { movedNotch } from '../allowance';
import type { CutNotch, CutPiece } from '../allowance';
import { edgeSayings, howToCut, printedPiece } from '../garment';
import type { EdgeSaying, Garment } from '../garment';
import {
  add,
  applyMatrix,
  distance,
  distanceToSegment,
  flattenRing,
  mix,
  multiply,
  perpendicular,
  scale,
  subtract,
  transformPath,
  unit,
  boxOfPoints,
  flattenPath,
} from '../geometry';
import type { Box, Line, Matrix, Polyline, Pt, Ring } from '../geometry';
import type { Panel } from '../panels';
import { dartLegs, dartPoints, type Colour } from '../pattern';
import { holdsPoint, partsInside } from './inside';
import type { Rings } from './inside';
import { type TrimOnPaper, trimsOnPaper } from './trimsOnPaper';
import { type ZipOnPaper, zipsOnPaper } from './zipsOnPaper';

/** Stretch of an edge that gets a label. */
export interface EdgeOnPaper extends EdgeSaying {
  /** Middle of the stretch on the stitching line. */
  readonly at: Pt;
  readonly inward: Pt;
  readonly length: number;
  readonly allowance: number;
  /** Eased in along it, and against it along its mate, mm; 0 where nothing is. */
  readonly ease: number;
  readonly mateEase: number;
}

/** One panel as it is printed: true scale, turned or not, its cutting line touching x = 0 and y = 0 from the positive side. */
export interface PanelOnPaper {
  readonly number: number;
  /** Number of the panel that is cut from this piece mirrored; null where there is none. */
  readonly mirroredNumber: number | null;
  readonly piece: string;
  readonly colour: Colour;
  readonly cut: string;
  readonly cutting: Ring;
  readonly stitching: Ring;
  readonly holes: readonly Ring[];
  /** The stretch of the cutting line that is laid on the fold of the cloth; null where none is. */
  readonly foldEdge: Line | null;
  /** Cutting line and holes as corner points; what is inside them is paper to keep. */
  readonly inside: Rings;
  /** The same for the stitching line: lettering stays in here. */
  readonly stitched: Rings;
  readonly box: Box;
  readonly notches: readonly CutNotch[];
  readonly clips: readonly Pt[];
  readonly grain: Line;
  readonly label: { readonly at: Pt; readonly radius: number };
  readonly edges: readonly EdgeOnPaper[];
  readonly zips: readonly ZipOnPaper[];
  readonly trims: readonly TrimOnPaper[];
  readonly dartLegs: readonly Line[];
  readonly dartPoints: readonly Pt[];
  readonly levels: readonly { readonly name: string; readonly lines: readonly Line[] }[];
}

/** A quarter turn: +x becomes +y. */
const QUARTER: Matrix = [0, 1, -1, 0, 0, 0];
const UPRIGHT: Matrix = [1, 0, 0, 1, 0, 0];

/** Panel number `index + 1`'s cut piece brought to paper. @throws RangeError if the garment has no such panel */
export function panelOnPaper(garment: Garment, index: number, turned: boolean): PanelOnPaper {
  const panel = garment.panels[index];
  const cutPiece = panel && (printedPiece(garment, panel) ?? garment.cutPieces[index]);
  if (!panel || !cutPiece) throw new RangeError(`no panel at ${index}`);
  const turn = turned ? QUARTER : UPRIGHT;
  const start = boxOfPoints(flattenRing(transformPath(cutPiece.cutting, turn)));
  const m = multiply([1, 0, 0, 1, -start.minX, -start.minY], turn);
  const cutting = transformPath(cutPiece.cutting, m);
  const stitching = transformPath(cutPiece.stitching, m);
  const holes = cutPiece.holes.map((hole) => transformPath(hole, m));
  const points: Polyline = flattenRing(cutting);
  const stitched = [
    flattenRing(stitching),
    ...panel.holeRings.map((ring) => flattenRing(transformPath(ring, m))),
  ];
  return {
    ...naming(garment, panel),
    cutting,
    stitching,
    holes,
    foldEdge: cutPiece.foldEdge ? onPaper(cutPiece.foldEdge, m) : null,
    inside: [points, ...holes.map((hole) => flattenRing(hole))],
    stitched,
    box: boxOfPoints(points),
    ...marksOf(garment, panel, cutPiece, m),
    zips: zipsOnPaper(garment, panel, m),
    trims: trimsOnPaper(garment, panel, m, stitched),
    ...dartsOf(panel, m, stitched),
    levels: levelsOf(garment, panel, m, stitched),
  };
}

const onPaper = ([a, b]: Line, m: Matrix): Line => [applyMatrix(m, a), applyMatrix(m, b)];

function naming(
  garment: Garment,
  panel: Panel,
): Pick<PanelOnPaper, 'number' | 'mirroredNumber' | 'piece' | 'colour' | 'cut'> {
  const { plan, pieceById } = garment;
  const { text, twin, count } = howToCut(garment, panel);
  return {
    number: plan.numbers.get(panel.id) ?? garment.panels.indexOf(panel) + 1,
    piece: pieceById.get(panel.piece)?.whole.name ?? '',
    colour: colourOf(garment, panel),
    mirroredNumber: count > 0 ? twin : null,
    cut: text,
  };
}

/** How far inside the fold its bracket runs, mm. */
export const BRACKET_IN = 7;

/** What is said along the fold: inside its bracket. */
const foldWords = ([a, b]: Line): EdgeOnPaper => ({
  at: add(mix(a, b, 0.5), scale(perpendicular(unit(subtract(b, a))), BRACKET_IN)),
  inward: perpendicular(unit(subtract(b, a))),
  length: distance(a, b),
  allowance: 0,
  mates: [],
  mirroredMates: null,
  isSeam: false,
  edgeName: 'place on fold',
  ease: 0,
  mateEase: 0,
});

/** What is said along the opening of a zip. */
const wordsOfZip = ({ words, at, inward, length }: ZipOnPaper): EdgeOnPaper => ({
  at,
  inward,
  length,
  allowance: 0,
  mates: [],
  mirroredMates: null,
  isSeam: false,
  edgeName: words,
  ease: 0,
  mateEase: 0,
});

/** The panel's cloth; the design's first where the panel's own is gone. */
export function colourOf(garment: Garment, panel: Panel): Colour {
  const { colours } = garment.design;
  const found = colours.find((c) => c.id === panel.colour) ?? colours[0];
  if (!found) throw new RangeError('a design needs at least one colour');
  return found;
}

function marksOf(
  garment: Garment,
  panel: Panel,
  piece: CutPiece,
  m: Matrix,
): Pick<PanelOnPaper, 'notches' | 'clips' | 'grain' | 'label' | 'edges'> {
  const at = (p: Pt): Pt => applyMatrix(m, p);
  const direction = (v: Pt): Pt => subtract(at(v), at([0, 0]));
  const sayings = edgeSayings(garment, panel, piece);
  return {
    notches: piece.notches.map((n) => movedNotch(n, at)),
    clips: piece.clips.map(at),
    grain: [at(piece.grain[0]), at(piece.grain[1])],
    label: { at: at(piece.label.at), radius: piece.label.radius },
    edges: [
      ...piece.edgeLabels.map((e, i) => ({
        at: at(e.at),
        inward: direction(e.inward),
        length: e.length,
        allowance: e.allowance,
        ...sayings[i]!,
        ease: e.ease,
        mateEase: e.mateEase,
      })),
      ...(piece.foldEdge ? [foldWords(onPaper(piece.foldEdge, m))] : []),
      ...zipsOnPaper(garment, panel, m).map(wordsOfZip),
    ],
  };
}

function dartsOf(panel: Panel, m: Matrix, stitched: Rings): Pick<PanelOnPaper, 'dartLegs' | 'dartPoints'> {
  const at = (p: Pt): Pt => applyMatrix(m, p);
  const legs: Line[] = [];
  const points: Pt[] = [];
  for (const dart of panel.darts) {
    const corners = flattenPath(dartLegs(dart)).points.map(at);
    corners.slice(1).forEach((p, i) => legs.push([corners[i]!, p]));
    points.push(...dartPoints(dart).map(at));
  }
  return {
    dartLegs: legs.flatMap((leg) => partsInside(stitched, leg)),
    dartPoints: points.filter((p) => holdsPoint(stitched, p)),
  };
}

function levelsOf(garment: Garment, panel: Panel, m: Matrix, stitched: Rings): PanelOnPaper['levels'] {
  const levels = garment.pieceById.get(panel.piece)?.whole.levels ?? [];
  return levels
    .map(({ name, line }) => ({
      name,
      lines: partsInside(stitched, [applyMatrix(m, line[0]), applyMatrix(m, line[1])]).filter(
        (l) => !runsAlong(stitched, l),
      ),
    }))
    .filter(({ lines }) => lines.length > 0);
}

/** How near a level may run to the stitching line before it is left out, mm: the two would be drawn as one muddled line. */
const SAME_LINE = 1.5;

function runsAlong(stitched: Rings, [a, b]: Line): boolean {
  return [0.25, 0.5, 0.75].every((t) => {
    const p = mix(a, b, t);
    return stitched.some((ring) =>
      ring.some((c, i) => distanceToSegment(p, c, ring[(i + 1) % ring.length]!).distance < SAME_LINE),
    );
  });
}
