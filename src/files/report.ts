import { flattenForArea, type Polyline, type Pt } from '../geometry';
import type { CutPiece } from '../allowance';
import type { LayPlan } from '../fabric';
import { howToCut, type Garment } from '../garment';
import { layerHints, tellStep, tellingText } from '../garment/telling';
import type { Panel, PanelId, PanelledPiece } from '../panels';
import { reportedDarts, type ReportedDart } from './reportedDarts';
import { type ReportedSeam, reportedSeams } from './reportedSeams';
import { sayProblem, severityOf, type ColourId, type Design, type Problem } from '../pattern';

/** A point as it stands in the report, mm. */
type Point = [number, number];

/** report.json: mm, mm², degrees; points in the piece's own coordinates as traced. */
export interface Report {
  readonly units: 'mm';
  readonly pieces: readonly {
    name: string;
    area: number;
    unfolded: boolean;
    outline: Point[];
    edges: { name: string; length: number }[];
  }[];
  readonly panels: readonly {
    number: number;
    piece: string;
    /** Fill of the cloth it is cut from, #rrggbb. */
    colour: string;
    area: number;
    stitchLine: Point[];
    cutLine: Point[];
    /** Only where there are insets, or double-pointed darts inside. */
    stitchHoles?: Point[][];
    cutHoles?: Point[][];
    cutArea: number;
    /** `twin`: the panel that shares this one's printed piece, mirrored; the one of them that is not printed has count 0. */
    cut: { count: number; mirrored: boolean; onFold: boolean; twin?: number };
    grainAngle: number;
    /**
     * `marks`: strokes drawn. `along`: from the seam's start on this side, darts shut. `depth`: how deep it is snipped, 0: in chalk only.
     * `ease`: how much is eased in between the two notches of this seam.
     */
    notches: {
      at: Point;
      seam: string | null;
      marks: number;
      along?: number;
      depth: number;
      ease?: number;
    }[];
  }[];
  readonly seams: readonly {
    id: string;
    line: string;
    a: number;
    b: number;
    lengthA: number;
    lengthB: number;
    /** lengthA − lengthB. */
    ease: number;
    step: number | null;
  }[];
  readonly darts: readonly ReportedDart[];
  readonly neighbours: readonly ReportedSeam[];
  readonly steps: readonly { step: number; kind: string; joins: [number[], number[]]; text: string }[];
  readonly trims: readonly { name: string; width: number; length: number; ends: string[]; step: number }[];
  readonly fabrics: readonly {
    colour: string;
    width: number;
    length: number;
    buy: number;
    density: number;
    seconds: number;
    placed: { panel: number; copy: number; x: number; y: number; rotation: number; flipped: boolean }[];
  }[];
  readonly sheets: { paper: string; pages: number; columns: number; rows: number };
  readonly ignored: readonly string[];
  readonly problems: readonly {
    code: string;
    severity: string;
    message: string;
    piece: string | null;
    at: Point | null;
  }[];
}

/** What the report needs beside the garment. */
export interface ReportSources {
  readonly layPlans: readonly LayPlan[];
  readonly sheets: Report['sheets'];
  /** Names left out when the tracings were read. */
  readonly ignored: readonly string[];
  /** Problems from reading the files; the garment's and the lay plans' own come after them. */
  readonly problems: readonly Problem[];
}

/** To a millionth: far below every tolerance, and the last digits of doubles do not reach the file. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
const pointOf = ([x, y]: Pt): Point => [rounded(x), rounded(y)];
const pointsOf = (points: Polyline): Point[] => points.map(pointOf);

/** Colours go by their fill, as traced; where two cloths have the same fill, by fill and name. */
function colourLabels({ colours }: Design): ReadonlyMap<ColourId, string> {
  const isShared = (fill: string): boolean => colours.filter((c) => c.fill === fill).length > 1;
  return new Map(colours.map((c) => [c.id, isShared(c.fill) ? `${c.fill} ${c.name}` : c.fill]));
}

const pieceEntry = ({ whole }: PanelledPiece): Report['pieces'][number] => ({
  name: whole.name,
  area: rounded(whole.area),
  unfolded: whole.unfolded,
  outline: pointsOf(flattenForArea(whole.outline)),
  edges: whole.edges.map(({ name, length }) => ({ name, length: rounded(length) })),
});

/** Numbers and names of panels and colours, looked up by id. */
interface Names {
  readonly number: (id: PanelId) => number;
  readonly colour: (id: ColourId) => string;
}

function panelEntry(garment: Garment, panel: Panel, cut: CutPiece, names: Names): Report['panels'][number] {
  const { count, mirrored, onFold, twin } = howToCut(garment, panel);
  return {
    number: names.number(panel.id),
    piece: garment.pieceById.get(panel.piece)!.whole.name,
    colour: names.colour(panel.colour),
    area: rounded(panel.area),
    stitchLine: pointsOf(flattenForArea(panel.netRing)),
    cutLine: pointsOf(cut.cuttingPoints),
    ...(panel.netHoles.length > 0
      ? { stitchHoles: panel.netHoles.map((r) => pointsOf(flattenForArea(r))) }
      : {}),
    ...(cut.holes.length > 0 ? { cutHoles: cut.holes.map((r) => pointsOf(flattenForArea(r))) } : {}),
    cutArea: rounded(cut.cutArea),
    cut: { count, mirrored, onFold, ...(twin === null ? {} : { twin }) },
    grainAngle: rounded(cut.grainAngle),
    notches: cut.notches.map(({ at, seam, marks, along, depth, ease }) => ({
      at: pointOf(at),
      seam,
      marks,
      ...(along === null ? {} : { along: rounded(along) }),
      depth: rounded(depth),
      ...(ease === null ? {} : { ease: rounded(ease) }),
    })),
  };
}

function fabricEntry(plan: LayPlan, names: Names): Report['fabrics'][number] {
  return {
    colour: names.colour(plan.colour),
    width: rounded(plan.width),
    length: rounded(plan.length),
    buy: rounded(plan.buy),
    density: rounded(plan.density),
    seconds: plan.seconds,
    placed: plan.placed.map(({ panel, copy, x, y, rotation, flipped }) => ({
      panel: names.number(panel),
      copy,
      // Not rounded: the plan was checked for overlaps at exactly this place.
      x,
      y,
      rotation,
      flipped,
    })),
  };
}

const problemEntry = (p: Problem): Report['problems'][number] => ({
  code: p.code,
  severity: severityOf(p),
  message: sayProblem(p, 'mm'),
  piece: p.piece,
  at: p.at && pointOf(p.at),
});

function seamEntries({ seams, plan }: Garment, names: Names): Report['seams'] {
  return seams.map(({ id, line, a, b, lengthA, lengthB }) => ({
    id,
    line: line.label,
    a: names.number(a),
    b: names.number(b),
    lengthA: rounded(lengthA),
    lengthB: rounded(lengthB),
    ease: rounded(lengthA - lengthB),
    step: plan.stepOfSeam.get(id) ?? null,
  }));
}

/**
 * The report of a headless run. Every field is filled from the garment; lists of what the tool does not work out yet
 * are empty, never invented. The same garment and sources give the same report.
 */
export function reportOf(garment: Garment, { layPlans, sheets, ignored, problems }: ReportSources): Report {
  const labels = colourLabels(garment.design);
  const names: Names = { number: (id) => garment.plan.numbers.get(id)!, colour: (id) => labels.get(id)! };
  const numbers = (ids: readonly PanelId[]): number[] => ids.map(names.number);
  const all = [garment, ...(garment.extras ? [garment.extras] : [])];
  const stepsOfAll = all.flatMap((home) => home.plan.steps.map((own) => ({ garment: home, own })));
  return {
    units: 'mm',
    pieces: all.flatMap((g) => g.pieces.map(pieceEntry)),
    panels: garment.panels.map((panel, i) => panelEntry(garment, panel, garment.cutPieces[i]!, names)),
    seams: seamEntries(garment, names),
    darts: all.flatMap((g) => g.pieces.flatMap(reportedDarts)),
    neighbours: all.flatMap(reportedSeams),
    steps: stepsOfAll.map(({ garment: home, own }, i) => ({
      step: i + 1,
      kind: own.kind,
      joins: [numbers(own.joins[0]), numbers(own.joins[1])],
      text: tellingText(tellStep(home, own)),
    })),
    trims: garment.trims.map(({ trim, length, ends, step, afterStep }) => ({
      name: trim.name,
      width: rounded(trim.width),
      length: rounded(length),
      ends: [...ends],
      step: step ?? afterStep,
    })),
    fabrics: layPlans.map((plan) => fabricEntry(plan, names)),
    sheets,
    ignored,
    problems: [
      ...problems,
      ...garment.problems,
      ...layerHints(garment),
      ...layPlans.flatMap((p) => p.problems),
    ].map(problemEntry),
  };
}

/** The report as text, one list entry to a line. The same report gives the same bytes. */
export function reportText(report: Report): string {
  const section = ([key, value]: [string, unknown]): string =>
    Array.isArray(value) && value.length > 0
      ? `${JSON.stringify(key)}: [\n${value.map((entry) => JSON.stringify(entry)).join(',\n')}\n]`
      : `${JSON.stringify(key)}: ${JSON.stringify(value)}`;
  return `{\n${Object.entries(report).map(section).join(',\n')}\n}\n`;
}
