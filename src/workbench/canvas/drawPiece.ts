import paper from 'paper/dist/paper-core';
import { add, pathBox, scale, subtract, unit, type Line, type Pt } from '../../geometry';
import { type CutPiece, markLines } from '../../allowance';
import type { Panel, PanelId, PanelledPiece, SeamId } from '../../panels';
import { dartLegs, type ColourId, type FoldedShut, type PlacedDart, type WholePiece } from '../../pattern';
import { levelWord } from '../drawing/catchField';
import type { TrimRun } from '../../trim';
import { drawShut } from './drawShut';
import { trimItems } from './drawTrims';
import { INK, inkOn, SERIF } from './ink';
import { dotItem, pathItem, pointsItem, ringItem, sizedItem, textItem } from './shapes';

/** One piece as it is to be drawn: everything its picture depends on. */
export interface PieceView {
  readonly panelled: PanelledPiece;
  readonly cutPieces: readonly CutPiece[];
  readonly numbers: ReadonlyMap<PanelId, number>;
  /** The numbers of this piece's panels as text: what tells whether they changed. */
  readonly numberText: string;
  readonly fills: ReadonlyMap<ColourId, string>;
  readonly showAllowances: boolean;
  readonly selectedPanel: PanelId | null;
  readonly litSeams: ReadonlySet<SeamId> | null;
  readonly litPanels: ReadonlySet<PanelId> | null;
  /** What is laid on it, in the order of laying. */
  readonly trims: readonly TrimRun[];
  /** A dart of it is shown folded shut. */
  readonly shut: FoldedShut | null;
}

/** A drawn piece; `sized` must be brought in step with the zoom. */
export interface PieceDrawing {
  readonly group: paper.Group;
  readonly sized: readonly paper.Item[];
}

const FALLBACK_FILL = '#e9dfce';
/**
 * A colour that lets through what is under it. Never an item's own opacity: a translucent group is first drawn on a canvas of its own
 * as large as itself on screen, which is very slow near by.
 */
const faint = (hex: string, alpha: number): paper.Color => {
  const colour = new paper.Color(hex);
  colour.alpha = alpha;
  return colour;
};

const isUnlit = (view: PieceView, panel: Panel): boolean =>
  view.litPanels !== null && !view.litPanels.has(panel.id);

function ground({ cutPieces, panelled, showAllowances }: PieceView): paper.Item[] {
  const sheets =
    showAllowances && cutPieces.length > 0
      ? cutPieces.map(({ cutting, holes }) => ({ ring: cutting, holes }))
      : [{ ring: panelled.whole.outline, holes: [] }];
  const shadow = sheets.map(({ ring, holes }) =>
    ringItem(ring, holes, { fillColor: new paper.Color(INK.shadow) }),
  );
  const under = new paper.Group({ children: shadow, insert: false });
  under.translate(new paper.Point(2.5, 4));
  return [
    under,
    ...sheets.map(({ ring, holes }) => ringItem(ring, holes, { fillColor: new paper.Color(INK.chalk) })),
  ];
}

function panelItems(view: PieceView): paper.Item[] {
  return view.panelled.panels.map((panel) => {
    const fill = view.fills.get(panel.colour) ?? FALLBACK_FILL;
    return ringItem(panel.ring, panel.holeRings, { fillColor: faint(fill, isUnlit(view, panel) ? 0.22 : 1) });
  });
}

/** Whether a line in graphite would be lost on one of the piece's cloths. */
const hasDarkCloth = ({ panelled, fills }: PieceView): boolean =>
  panelled.panels.some((panel) => inkOn(fills.get(panel.colour) ?? FALLBACK_FILL) === INK.chalk);

/** Fine lines laid over the cloths; on dark cloth a breath of chalk under them keeps them readable. */
function fineLines(view: PieceView, lines: readonly paper.Path[]): paper.Path[] {
  if (!hasDarkCloth(view)) return [...lines];
  const under = lines.map((line) => {
    const chalk = line.clone({ insert: false });
    chalk.strokeColor = faint(INK.chalk, 0.4);
    chalk.strokeWidth = line.strokeWidth + 1.2;
    chalk.dashArray = [];
    return chalk;
  });
  return [...under, ...lines];
}

/** A line round the chosen panel. */
function chosenItems({ panelled, selectedPanel }: PieceView): paper.Item[] {
  const panel = panelled.panels.find(({ id }) => id === selectedPanel);
  if (!panel) return [];
  return [
    pathItem(panel.ring, { strokeColor: new paper.Color(INK.chalk), strokeWidth: 6 }, true),
    pathItem(panel.ring, { strokeColor: new paper.Color(INK.indigo), strokeWidth: 3 }, true),
  ];
}

function cuttingItems(view: PieceView): paper.Item[] {
  if (!view.showAllowances) return [];
  return fineLines(
    view,
    view.cutPieces.flatMap(({ cutting, holes, notches, clips }) => [
      ...[cutting, ...holes].map((ring) =>
        pathItem(ring, { strokeColor: faint(INK.graphite, 0.55), strokeWidth: 0.9, dashArray: [5, 4] }, true),
      ),
      ...notches
        .flatMap(markLines)
        .map((ends) => pointsItem(ends, { strokeColor: faint(INK.graphite, 0.75), strokeWidth: 1.2 })),
      ...clips.map((at) => dotItem(at, 1.4, { fillColor: faint(INK.graphite, 0.5) })),
    ]),
  );
}

function seamItems({ panelled, litSeams }: PieceView): paper.Item[] {
  const laid = panelled.lines
    .filter(({ path }) => path.length > 0)
    .map(({ path }) =>
      pathItem(path, { strokeColor: new paper.Color(INK.graphite), strokeWidth: 1.4, dashArray: [2, 4] }),
    );
  const seams = panelled.seams.flatMap((seam) => {
    const lit = litSeams?.has(seam.id) ?? false;
    return [
      pathItem(seam.path, { strokeColor: new paper.Color(INK.chalk), strokeWidth: lit ? 8 : 4 }),
      pathItem(seam.path, {
        strokeColor: new paper.Color(lit ? INK.indigo : INK.graphite),
        strokeWidth: lit ? 4 : 1.5,
      }),
    ];
  });
  return [...laid, ...seams];
}

function dartItems(dart: PlacedDart): paper.Item[] {
  const legs = {
    strokeColor: new paper.Color(INK.graphite),
    strokeWidth: 1.1,
    fillColor: new paper.Color(INK.chalk),
  };
  const wedge = pathItem(dartLegs(dart), legs, dart.kind === 'double');
  const fill = wedge.clone({ insert: false });
  fill.strokeColor = null;
  fill.fillColor = faint(INK.chalk, 0.55);
  wedge.fillColor = null;
  return [fill, wedge];
}

/** How far level lines run out beside their piece, clear of its allowances, mm. */
const BESIDE = 24;

/** Height of a level's name, px: smaller from afar, so that it stays beside its own piece. */
const levelNameSize = (letters: number, zoom: number): number =>
  Math.max(6, Math.min(14, (120 * zoom) / (Math.max(6, letters) * 0.5)));

function levelItems(whole: WholePiece): { lines: paper.Path[]; names: paper.Item[] } {
  const box = pathBox(whole.outline);
  const seen = new Set<string>();
  const lines: paper.Path[] = [];
  const names: paper.Item[] = [];
  for (const { name, line } of whole.levels) {
    const word = levelWord(name);
    if (seen.has(word)) continue;
    seen.add(word);
    const [from, to] = acrossBox(line, box.minX - BESIDE, box.maxX + BESIDE);
    lines.push(
      pointsItem([from, to], {
        strokeColor: faint(INK.levels, 0.8),
        strokeWidth: 1,
        dashArray: [9, 4, 1.5, 4],
      }),
    );
    const short = word.replace(/ level$/, '');
    const label = textItem(add(from, [-4, 4.5]), short, {
      fontFamily: SERIF,
      fontSize: 14,
      fillColor: new paper.Color(INK.levels),
      justification: 'right',
    });
    names.push(sizedItem(from, 14, (zoom) => levelNameSize(short.length, zoom), [label]));
  }
  return { lines, names };
}

/** A level drawn on to both sides of its piece; one that runs up the page is left as traced. */
function acrossBox([a, b]: Line, left: number, right: number): Line {
  if (Math.abs(b[0] - a[0]) < 1) return [a, b];
  const y = (x: number): number => a[1] + ((x - a[0]) * (b[1] - a[1])) / (b[0] - a[0]);
  return [
    [left, y(left)],
    [right, y(right)],
  ];
}

function grainItems({ cutPieces, panelled, fills }: PieceView): paper.Item[] {
  const colourOf = new Map(panelled.panels.map((p) => [p.id, fills.get(p.colour) ?? FALLBACK_FILL]));
  return cutPieces.flatMap(({ grain, panel }) => {
    const [a, b] = grain;
    const u = unit(subtract(b, a));
    const n: Pt = [-u[1], u[0]];
    const stroke = { strokeColor: faint(inkOn(colourOf.get(panel) ?? FALLBACK_FILL), 0.75), strokeWidth: 1 };
    const head = (tip: Pt, way: number): paper.Path =>
      pointsItem(
        [add(add(tip, scale(u, way * 9)), scale(n, 4)), tip, add(add(tip, scale(u, way * 9)), scale(n, -4))],
        stroke,
      );
    return [pointsItem([a, b], stroke), head(a, 1), head(b, -1)];
  });
}

/** Across a number's disc, px: as much as there is room for, up to 40; at least 19, unless that would hide the panel from afar. */
const discSize = (radius: number, zoom: number): number =>
  Math.max(1, Math.min(40, Math.max(radius * zoom * 0.9, Math.min(19, radius * zoom * 2.4))));

/** Numbers stand on chalk discs, so that they read on any cloth. */
function numberItems(view: PieceView): paper.Item[] {
  const places = new Map(view.cutPieces.map((cut) => [cut.panel, cut.label]));
  return view.panelled.panels.map((panel) => {
    const { at, radius } = places.get(panel.id) ?? { at: panel.spot.at, radius: panel.spot.radius };
    const selected = view.selectedPanel === panel.id;
    const dim = isUnlit(view, panel) ? 0.35 : 1;
    const disc = dotItem(at, 15, {
      fillColor: faint(selected ? INK.indigo : INK.chalk, dim),
      strokeColor: faint(INK.graphite, dim),
      strokeWidth: 0.8,
    });
    const text = textItem(add(at, [0, 6.2]), `${view.numbers.get(panel.id) ?? '–'}`, {
      fontFamily: SERIF,
      fontSize: 18,
      justification: 'center',
      fillColor: faint(selected ? INK.chalk : INK.graphite, dim),
    });
    return sizedItem(at, 30, (zoom) => discSize(radius, zoom), [disc, text]);
  });
}

/** Height of a piece's name, px: smaller from afar, so that it stays over its own piece. A letter is about half as wide as high. */
const nameSize = (letters: number, width: number, zoom: number): number =>
  Math.min(21, Math.max(5, ((width + 90) * zoom) / (letters * 0.5)));

function nameItem(whole: WholePiece): paper.Item {
  const box = pathBox(whole.outline);
  const at: Pt = [(box.minX + box.maxX) / 2, box.minY - 34];
  const name = whole.name.charAt(0).toUpperCase() + whole.name.slice(1);
  const text = textItem(at, name, {
    fontFamily: SERIF,
    fontSize: 21,
    justification: 'center',
    fillColor: new paper.Color(INK.graphite),
  });
  return sizedItem(at, 21, (zoom) => nameSize(name.length, box.maxX - box.minX, zoom), [text]);
}

function foldItem(line: Line): paper.Item {
  return pointsItem(line, {
    strokeColor: faint(INK.graphite, 0.45),
    strokeWidth: 1,
    dashArray: [14, 4, 2, 4],
  });
}

/** The stitching outline; round each panel where a dart was closed in some, since they no longer lie side by side. */
function outlineItems({ panelled: { whole, panels } }: PieceView): paper.Item[] {
  const stroke = { strokeColor: new paper.Color(INK.graphite), strokeWidth: 1.6 };
  if (panels.every((p) => p.closings.length === 0)) return [pathItem(whole.stitching, stroke, true)];
  return panels.flatMap((p) =>
    p.boundary.flatMap(({ origin, path }) =>
      origin.kind === 'outline' || p.closings.length > 0 ? [pathItem(path, stroke)] : [],
    ),
  );
}

/** Darts that are sewn as darts, where they lie on their panels. */
const sewnDarts = ({ panels }: PanelledPiece): readonly PlacedDart[] => [
  ...new Set(panels.flatMap((p) => p.darts)),
];

/** Draw one piece in traced coordinates; the caller moves it to its place on the table. */
export function drawPiece(view: PieceView): PieceDrawing {
  if (view.shut) return drawShut(view, view.shut, drawPiece);
  const { whole } = view.panelled;
  const levels = levelItems(whole);
  const numbers = numberItems(view);
  const name = nameItem(whole);
  const flat = [
    ...ground(view),
    ...panelItems(view),
    ...fineLines(view, levels.lines),
    ...(whole.foldLine ? [foldItem(whole.foldLine)] : []),
    ...cuttingItems(view),
    ...outlineItems(view),
    ...grainItems(view),
    ...seamItems(view),
    ...trimItems(view.trims, view.litPanels !== null),
    ...sewnDarts(view.panelled).flatMap(dartItems),
    ...chosenItems(view),
  ];
  const sized = [...levels.names, name, ...numbers];
  return { group: new paper.Group({ children: [...flat, ...sized], insert: false }), sized };
}
