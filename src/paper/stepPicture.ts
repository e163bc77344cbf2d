import {
  curveCuts,
  pressingsOf,
  runsOfStep,
  sewnRuns,
  sideOfRun,
  widthOfSeam,
  zipIn,
} from '../garment/telling';
import type { SewnRun } from '../garment/telling';
import type { Garment } from '../garment';
import {
  add,
  endOf,
  flattenPath,
  flattenRing,
  joinBoxes,
  labelSpot,
  pathBox,
  perpendicular,
  scale,
  startOf,
  subtract,
  transformPath,
  unit,
} from '../geometry';
import type { Box, Matrix, Path, Pt } from '../geometry';
import type { Panel, PanelId } from '../panels';
import { dartLegs, pressed, remember } from '../pattern';
import type { PlacedDart } from '../pattern';
import type { Step } from '../sewing';
import type { Block } from './block';
import { panelNumbers } from './garmentDrawing';
import { ACCENT, INK, SOFT, tint } from './ink';
import { joinPicture } from './joinPicture';
import { boxOf, circle, filled, movedMarks, stroked } from './marks';
import type { Lettering, Mark } from './marks';
import { colourOf } from './panelOnPaper';
import { allowanceEdge, arrow, cutMarks, notchMarks, pressArrows, sewnMarks, zipStroke } from './seamMarks';

/** The largest a picture may be, mm. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** Between the two units of a seam, mm on the page. */
const APART = 4.5;
/** Room round the picture for notches, clips and numbers that stand beside, mm. */
const AROUND = 3;
const PALE = 0.35;
/** How finely darts are looked at for a number's place, mm on the cloth. */
const DART_SAGITTA = 0.5;

/** A unit as it lies in the picture: its panels, and by how much it was moved off the other, mm on the page. */
interface Unit {
  readonly panels: readonly Panel[];
  readonly shift: Pt;
}

interface Scene {
  readonly garment: Garment;
  readonly step: Step;
  readonly units: readonly Unit[];
  /** From cloth to page, before a unit's shift. */
  readonly matrix: Matrix;
}

const panelsOf = (garment: Garment, ids: readonly PanelId[]): readonly Panel[] =>
  ids.flatMap((id) => garment.panelById.get(id) ?? []);

const boxOfPanels = (panels: readonly Panel[]): Box =>
  panels.map((p) => pathBox(p.ring)).reduce((a, b) => joinBoxes(a, b));

const moved = (m: Matrix, [dx, dy]: Pt): Matrix => [m[0], m[1], m[2], m[3], m[4] + dx, m[5] + dy];

/** Which way the units are drawn apart: square to the seam, the unit on its right to the right of it. */
function apart(run: SewnRun | undefined): Pt {
  if (!run || run.isClosed) return [0, 0];
  const along = unit(subtract(endOf(run.path), startOf(run.path)));
  return scale(perpendicular(along), APART / 2);
}

/** The runs of a step, the very objects that pressings know. */
function runsFor(garment: Garment, step: Step): readonly SewnRun[] {
  const known = sewnRuns(garment).filter((r) => r.step === step);
  return known.length > 0 ? known : runsOfStep(garment, step);
}

function sceneOf(garment: Garment, step: Step, size: PictureSize): Scene {
  const [left, right] = step.joins;
  const [run] = runsFor(garment, step);
  const isOne =
    step.kind === 'dart' ||
    step.kind === 'trim' ||
    right.length === 0 ||
    left.some((id) => right.includes(id));
  const first = run && sideOfRun(garment, run, 1)[0]?.panel.id;
  const [onRight, onLeft] = first !== undefined && left.includes(first) ? [left, right] : [right, left];
  const way = apart(isOne ? undefined : run);
  const units: Unit[] = isOne
    ? [{ panels: panelsOf(garment, [...new Set([...left, ...right])]), shift: [0, 0] }]
    : [
        { panels: panelsOf(garment, onRight), shift: way },
        { panels: panelsOf(garment, onLeft), shift: scale(way, -1) },
      ];
  const box = boxOfPanels(units.flatMap((u) => u.panels));
  const [spanX, spanY] = [Math.abs(way[0]) * 2, Math.abs(way[1]) * 2];
  const k = Math.min(
    (size.width - 2 * AROUND - 10 - spanX) / Math.max(1, box.maxX - box.minX),
    (size.height - 2 * AROUND - spanY) / Math.max(1, box.maxY - box.minY),
  );
  return { garment, step, units, matrix: [k, 0, 0, k, -box.minX * k, -box.minY * k] };
}

const paleFill =
  (garment: Garment) =>
  (panel: Panel): string =>
    tint(colourOf(garment, panel).fill, PALE);

/** Panels in hand in their cloths, paler, with darts sewn before. */
function unitMarks({ garment, step, matrix }: Scene, { panels, shift }: Unit): Mark[] {
  const m = moved(matrix, shift);
  const fill = paleFill(garment);
  const marks: Mark[] = panels.map((p) =>
    filled(
      [p.ring, ...p.holeRings].map((r) => transformPath(r, m)),
      fill(p),
      { width: 0.2, colour: INK },
    ),
  );
  const darts = new Set(panels.flatMap((p) => p.darts).filter((d) => !step.darts.includes(d)));
  const done = [...darts].map((d) => transformPath(dartLegs(d), m));
  if (done.length > 0) marks.push(stroked(done, { width: 0.15, colour: SOFT }));
  return marks;
}

/** Their numbers, over whatever else lies there. */
function numberMarks(lettering: Lettering, { garment, matrix }: Scene, { panels, shift }: Unit): Mark[] {
  const m = moved(matrix, shift);
  const own = new Set(panels.map((p) => p.id));
  const marks: Mark[] = [];
  for (const pieceId of new Set(panels.map((p) => p.piece)))
    marks.push(
      ...panelNumbers(lettering, garment, garment.pieceById.get(pieceId)!, m, {
        fill: paleFill(garment),
        isNumbered: (p) => own.has(p.id),
        hasDetail: true,
        numberSize: 3.6,
        spotOf: clearOfDarts,
      }),
    );
  return marks;
}

/** The roomiest place of a panel beside its darts. */
const clearOfDarts = remember((panel: Panel): Panel['spot'] =>
  panel.darts.length === 0
    ? panel.spot
    : labelSpot(flattenRing(panel.ring, DART_SAGITTA), [
        ...panel.holeRings.map((r) => flattenRing(r, DART_SAGITTA)),
        ...panel.darts.map((d) => flattenPath(dartLegs(d), DART_SAGITTA).points),
      ]),
);

const unitOf = ({ units }: Scene, id: PanelId): Unit =>
  units.find((u) => u.panels.some((p) => p.id === id)) ?? units[0]!;

/** The seam on both units: its edges thick, notches, clips, and the way it is pressed. */
function runMarks(scene: Scene, run: SewnRun): Mark[] {
  const { garment, matrix } = scene;
  const k = matrix[0];
  const pressing = pressingsOf(garment).runs.get(run);
  return ([1, -1] as const).flatMap((side) =>
    sideOfRun(garment, run, side).flatMap(({ panel, edge, of }): Mark[] => {
      const m = moved(matrix, unitOf(scene, panel.id).shift);
      const path = transformPath(edge.path, m);
      const width = widthOfSeam(garment, of.seam);
      const cut = garment.cutPieces[garment.panels.indexOf(panel)]!;
      const notches = cut.notches
        .filter((n) => n.seam === of.seam.id)
        .flatMap((n) => notchMarks([k * n.at[0] + m[4], k * n.at[1] + m[5]], n.outward, n.marks));
      // a boundary in ring order has its panel on the right
      const isHere = pressing !== undefined && (pressing.towards === side || pressing.towards === 0);
      const pressedHere = isHere
        ? [allowanceEdge(path, 1, width * k), ...pressArrows(path, 1, Math.max(2.4, width * k))]
        : [];
      return [
        ...sewnMarks([path]),
        ...notches,
        ...cutMarks(path, curveCuts(edge.path, width), k),
        ...pressedHere,
      ];
    }),
  );
}

/** Corners to set in, ringed on the unit whose allowance is clipped. */
const cornerMarks = (scene: Scene): Mark[] =>
  scene.step.corners.map(({ at, clip }) => {
    const m = moved(scene.matrix, unitOf(scene, clip).shift);
    const here: Pt = [m[0] * at[0] + m[4], m[3] * at[1] + m[5]];
    return stroked([circle(here, 2.2)], { width: 0.5, colour: ACCENT }, true);
  });

/** A dart's legs thick, with an arrow to the side its fold is pressed to. */
function dartMarks({ garment, step, matrix }: Scene, dart: PlacedDart): Mark[] {
  const legs = transformPath(dartLegs(dart), matrix);
  const { whole } = garment.pieceById.get(step.piece!)!;
  const [a, b] = dart.kind === 'single' ? dart.mouth : [dart.points[1], dart.points[3]];
  const { leg } = pressed(whole, dart);
  const way = unit(subtract(leg === 0 ? a : b, leg === 0 ? b : a));
  const from: Pt = dart.kind === 'single' ? midway(dart.point, leg === 0 ? a : b) : leg === 0 ? a : b;
  const foot: Pt = [matrix[0] * from[0] + matrix[4], matrix[3] * from[1] + matrix[5]];
  const start = add(foot, scale(way, 1));
  return [...sewnMarks([legs]), ...arrow(start, add(start, scale(way, 3.2)))];
}

const midway = (a: Pt, b: Pt): Pt => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/** A trim, or a zip, along the line it is laid on. */
function lineMarks({ garment, step, matrix }: Scene): Mark[] {
  const trim = garment.design.trims.find((t) => t.id === step.trim);
  const closing = garment.design.closings.find((c) => c.id === step.closing);
  const paths = pathsLaid(garment, step).map((p) => transformPath(p, matrix));
  if (paths.length === 0) return [];
  if (trim)
    return [
      stroked(paths, { width: Math.max(1.2, trim.width * matrix[0]) + 0.5, colour: INK }),
      stroked(paths, { width: Math.max(1.2, trim.width * matrix[0]), colour: trim.fill }),
    ];
  const zip = closing && zipIn(garment, step);
  return zip ? zipStroke(zip.sides.map((side) => transformPath(side.opening, matrix))) : [];
}

/** Where a trim or a zip in a panel line lies: its seams, or the trim's own path. */
function pathsLaid(garment: Garment, step: Step): readonly Path[] {
  const { design, seams } = garment;
  const on = (
    design.trims.find((t) => t.id === step.trim) ?? design.closings.find((c) => c.id === step.closing)
  )?.on;
  if (!on || on.kind === 'edge') return [];
  const laid = garment.trims.filter((t) => t.key === step.key && t.copy === 1).map((t) => t.path);
  if (laid.length > 0) return laid;
  if (on.kind === 'path') return [on.path];
  return seams.filter((s) => s.piece === step.piece && s.line.line === on.line).map((s) => s.path);
}

/**
 * What a step does, drawn: the two units as they meet, the edges sewn now thick, notches, clips and allowances where they are pressed; a
 * dart, trim or zip on its unit; or pieces side by side with the edges that are joined, finished or hemmed.
 * Marks fit into the frame; its height is what they need.
 */
export function stepPicture(lettering: Lettering, garment: Garment, step: Step, size: PictureSize): Block {
  const hasPanels = step.joins.flat().length > 0;
  if (step.edges.length > 0 || step.piece === null || !hasPanels)
    return joinPicture(lettering, garment, step, size);
  const scene = sceneOf(garment, step, size);
  const marks = [
    ...scene.units.flatMap((u) => unitMarks(scene, u)),
    ...runsFor(garment, step).flatMap((run) => runMarks(scene, run)),
    ...step.darts.flatMap((d) => dartMarks(scene, d)),
    ...lineMarks(scene),
    ...cornerMarks(scene),
    ...scene.units.flatMap((u) => numberMarks(lettering, scene, u)),
  ];
  const box = boxOf(marks);
  const left = Math.max(0, (size.width - (box.maxX - box.minX)) / 2) - box.minX;
  return { width: size.width, height: box.maxY - box.minY, marks: movedMarks(marks, [left, -box.minY]) };
}
