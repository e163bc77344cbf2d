import type { Curve, Path, Pt, Ring } from '../../src/geometry';
import { layTrims } from '../../src/trim';
import type { TrimRun } from '../../src/trim';
import { neighboursOf } from '../../src/neighbours';
import { panelledPiece } from '../../src/panels';
import { type SewingPlan, planSewing } from '../../src/sewing';
import { DESIGN_FORMAT, DESIGN_VERSION, NOT_MADE_UP, PLAIN_CLOTH } from '../../src/pattern';
import type {
  ColourId,
  Design,
  LineId,
  PanelLine,
  Piece,
  PieceId,
  Problem,
  Trim,
  TrimId,
} from '../../src/pattern';

export const straight = (...points: Pt[]): Path => points.slice(1).map((b, i): Curve => [points[i]!, b]);

/** A quarter circle about a centre from angle 0 to 90°, as one cubic (kappa 0.5522847498, exact to 0.03 %). */
export function quarterCircle([cx, cy]: Pt, r: number): Path {
  const k = 0.5522847498 * r;
  return [
    [
      [cx + r, cy],
      [cx + r, cy + k],
      [cx + k, cy + r],
      [cx, cy + r],
    ],
  ];
}

const box: Ring = straight([0, 0], [400, 0], [400, 600], [0, 600], [0, 0]);

export const piece = (name: string, more: Partial<Piece> = {}): Piece => ({
  id: name as PieceId,
  name,
  outline: box,
  fold: null,
  grain: [
    [200, 100],
    [200, 500],
  ],
  darts: [],
  notches: [],
  levels: [],
  edgeNames: [],
  cutting: 'once',
  foldPanels: false,
  ...more,
});

export const line = (id: string, path: Path, on = 'front', once = false): PanelLine => ({
  id: id as LineId,
  piece: on as PieceId,
  path,
  once,
  overDarts: 'flat',
  ties: null,
});
export const trim = (name: string, on: string, width = 10): Trim => ({
  id: name as TrimId,
  name,
  on: { kind: 'line', line: on as LineId, from: 0, to: 1 },
  kind: 'straight',
  width,
  fill: '#000000',
  rows: 2,
  shrinkage: 0,
  soldIn: null,
});

export const designOf = (
  lines: readonly PanelLine[],
  trims: readonly Trim[],
  pieces: readonly Piece[] = [piece('front')],
): Design => ({
  format: DESIGN_FORMAT,
  version: DESIGN_VERSION,
  name: 'made up',
  units: 'cm',
  pieces,
  lines,
  colours: [
    {
      id: 'c1' as ColourId,
      name: 'navy',
      fill: '#112233',
      width: 1400,
      ...PLAIN_CLOTH,
    },
  ],
  marks: [],
  allowances: { tracing: { kind: 'net', outer: 15 }, newSeam: 12, hem: 40, edges: [], lines: [] },
  ...NOT_MADE_UP,
  trims,
  paper: { size: 'a4' },
});

/** The design taken through the earlier rooms, then its trims. */
export function trimsOf(design: Design): {
  trims: readonly TrimRun[];
  problems: readonly Problem[];
  plan: SewingPlan;
  stepOf: (line: string) => number;
} {
  const pieces = design.pieces.map((p) => panelledPiece(p, design));
  const neighbours = neighboursOf(
    pieces.map((p) => p.whole),
    design.edgeJobs,
    [],
  );
  const { plan } = planSewing({ design, pieces, neighbours });
  const seams = pieces.flatMap((p) => p.seams);
  const stepOf = (id: string): number =>
    Math.max(...seams.filter((s) => s.line.line === id).map((s) => plan.stepOfSeam.get(s.id)!));
  return { ...layTrims(design, pieces, plan), plan, stepOf };
}
