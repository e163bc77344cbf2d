/** A garment put together by hand from corner points: every panel its own shape, allowance 15 all round. For exact numbers. */
import { type CutPiece, notchAt } from '../../src/allowance';
import type { Garment } from '../../src/garment';
import {
  type Line,
  type Polyline,
  type Pt,
  flattenRing,
  offsetRing,
  pathBox,
  signedArea,
} from '../../src/geometry';
import { neighboursOf } from '../../src/neighbours';
import type { Panel, PanelId, PanelledPiece } from '../../src/panels';
import type { Design, PieceId, WholePiece } from '../../src/pattern';
import { colour, design, piece, ringThrough } from '../making/designs';

const ALLOWANCE = 15;

interface HandPanel {
  readonly points: Polyline;
  /** Index into the design's colours. */
  readonly colour?: number;
}

const middleOf = (points: Polyline): Pt => {
  const b = pathBox(ringThrough(points));
  return [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
};

function radiusOf(points: Polyline): number {
  const b = pathBox(ringThrough(points));
  return Math.min(b.maxX - b.minX, b.maxY - b.minY) / 2;
}

function cutPiece(id: PanelId, points: Polyline, mate: PanelId | null): CutPiece {
  const stitching = ringThrough(points);
  const cutting = offsetRing(
    stitching,
    stitching.map(() => ALLOWANCE),
  )[0]!.ring;
  const at = middleOf(points);
  const [a, b] = [stitching[0]![0], stitching[0]![1]];
  const grain: Line = [
    [at[0], at[1] - radiusOf(points) * 0.6],
    [at[0], at[1] + radiusOf(points) * 0.6],
  ];
  const along: Pt = [
    (b[0] - a[0]) / Math.hypot(b[0] - a[0], b[1] - a[1]),
    (b[1] - a[1]) / Math.hypot(b[0] - a[0], b[1] - a[1]),
  ];
  const middle: Pt = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return {
    panel: id,
    stitching,
    cutting,
    holes: [],
    cutArea: signedArea(cutting),
    cuttingPoints: flattenRing(cutting),
    notches: [
      notchAt({
        at: middle,
        outward: [along[1], -along[0]],
        allowance: ALLOWANCE,
        marks: 1,
        seam: null,
        along: null,
        ease: null,
      }),
    ],
    clips: [],
    grain,
    grainAngle: 90,
    label: { at, radius: radiusOf(points) },
    edgeLabels: [
      {
        edge: 0,
        at: middle,
        inward: [-along[1], along[0]],
        length: Math.hypot(b[0] - a[0], b[1] - a[1]),
        allowance: ALLOWANCE,
        mate,
        ease: 0,
        mateEase: 0,
        edgeName: null,
      },
    ],
  };
}

function panelOf(id: PanelId, d: Design, { points, colour: index = 0 }: HandPanel): Panel {
  const ring = ringThrough(points);
  return {
    id,
    piece: 'front' as PieceId,
    colour: d.colours[index]!.id,
    boundary: [],
    holes: [],
    ring,
    holeRings: [],
    netRing: ring,
    netHoles: [],
    area: signedArea(ring),
    darts: [],
    closings: [],
    flat: { points, holeRings: [], at: middleOf(points) },
    spot: { at: middleOf(points), radius: radiusOf(points) },
  };
}

/** Panels numbered from 1 in the order given; each one's first side is sewn to the next panel. */
export function handGarment(panels: readonly HandPanel[], over: Partial<Design> = {}): Garment {
  const outline = ringThrough(
    panels[0]?.points ?? [
      [0, 0],
      [10, 0],
      [0, 10],
    ],
  );
  const traced = piece(outline);
  const d = design([traced], [], { colours: [colour('rust', '#b5532f'), colour('oat', '#e6dcc4')], ...over });
  const ids = panels.map((_, i) => `front-${i + 1}` as PanelId);
  const made = panels.map((p, i) => panelOf(ids[i]!, d, p));
  const whole: WholePiece = {
    piece: traced,
    name: 'front',
    unfolded: false,
    outline,
    stitching: outline,
    edgeOf: outline.map(() => 0),
    edges: [],
    foldLine: null,
    darts: [],
    notches: [],
    levels: [],
    grain: [
      [0, 0],
      [0, 100],
    ],
    area: signedArea(outline),
  };
  const panelled: PanelledPiece = {
    whole,
    lines: [],
    panels: made,
    seams: [],
    runs: [],
    outlineNodes: new Set(),
    nodePoints: [],
    looseEnds: [],
    idleLines: [],
  };
  return {
    design: d,
    pieces: [panelled],
    panels: made,
    panelById: new Map(made.map((p) => [p.id, p])),
    pieceById: new Map([[traced.id, panelled]]),
    seams: [],
    seamById: new Map(),
    cutPieces: panels.map((p, i) => cutPiece(ids[i]!, p.points, ids[i + 1] ?? null)),
    plan: {
      steps: [],
      numbers: new Map(ids.map((id, i) => [id, i + 1])),
      stepOfSeam: new Map(),
      stepOfEdge: new Map(),
    },
    trims: [],
    closings: [],
    extras: null,
    neighbours: neighboursOf([whole], d.edgeJobs, []),
    problems: [],
  };
}

/** A rectangle's corners. */
export const box = (width: number, height: number): Polyline => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
