import type { Garment } from '../garment';
import { boxOfPoints } from '../geometry';
import type { Box, Line } from '../geometry';
import type { Units } from '../pattern';
import { shortName } from './cleanText';
import { edgeLabelInside, edgeLabelOutside, edgeWords } from './edgeLabels';
import { grainArrow } from './grainArrow';
import { SOFT } from './ink';
import { sidesEnterBox, holdsPoint } from './inside';
import { boxOf, grown, overlaps, text, textBox } from './marks';
import type { Lettering, Mark } from './marks';
import { labelBeside, labelInside, numberInside } from './panelLabel';
import { levelNamePlace, panelLines } from './panelLines';
import { panelOnPaper } from './panelOnPaper';
import type { EdgeOnPaper, PanelOnPaper } from './panelOnPaper';
import { Room } from './room';

/** A panel drawn at true scale. */
export interface DrawnPanel {
  readonly panel: PanelOnPaper;
  readonly turned: boolean;
  readonly marks: readonly Mark[];
  /** All ink, mm; the cutting line alone is `panel.box`. */
  readonly box: Box;
  /** Boxes of lettering outside the cutting line. */
  readonly outside: readonly Box[];
}

/**
 * Draw panel `index` of the garment with everything that is printed on it.
 * @param joins strips of the panel's paper (its own frame) that sheets are joined along: lettering keeps clear of them where it can
 */
export function drawPanel(
  garment: Garment,
  index: number,
  turned: boolean,
  lettering: Lettering,
  joins: readonly Box[] = [],
): DrawnPanel {
  const panel = panelOnPaper(garment, index, turned);
  const { units, name } = garment.design;
  const room = new Room(panel.stitched, panel.dartLegs, [
    ...joins,
    ...panel.levels.flatMap(({ lines }) => lines.map(levelStrip)),
  ]);
  for (const p of panel.dartPoints)
    room.take({ minX: p[0] - 2.5, minY: p[1] - 2.5, maxX: p[0] + 2.5, maxY: p[1] + 2.5 });
  const marks = panelLines(panel);
  const label = labelInside(lettering, panel, name, room);
  const arrow = grainArrow(panel, room.boxes, joins);
  room.addLine(arrow.axis);
  for (const tip of arrow.axis) room.take(grown(boxOfPoints([tip]), 1.3));
  const number = label ? null : numberInside(lettering, panel, room);
  marks.push(...(label ?? number ?? []), ...arrow.marks);
  const missing = edgeLabels(panel, lettering, units, room, marks);
  if (!label) marks.push(...labelBeside(lettering, panel, seamWords(missing, units), name));
  const outsideMarks = label ? labelsOutside(panel, lettering, units, missing) : [];
  marks.push(...outsideMarks, ...levelNames(panel, lettering, room));
  return { panel, turned, marks, box: boxOf(marks), outside: lettersOutside(panel, marks) };
}

/** The strip round a level line that lettering keeps off if it can. */
const levelStrip = (l: Line): Box => grown(boxOfPoints(l), 0.6);

/** Letter the edges, longest first; the ones without room are returned. */
function edgeLabels(
  panel: PanelOnPaper,
  lettering: Lettering,
  units: Units,
  room: Room,
  marks: Mark[],
): EdgeOnPaper[] {
  const missing: EdgeOnPaper[] = [];
  for (const edge of [...panel.edges].sort((a, b) => b.length - a.length)) {
    const label = edgeLabelInside(lettering, edge, units, room);
    if (label) marks.push(...label);
    else missing.push(edge);
  }
  return missing;
}

const seamWords = (edges: readonly EdgeOnPaper[], units: Units): string[] => [
  ...new Set(
    edges
      .map((e) =>
        edgeWords(e, units)
          .filter((w) => w !== '')
          .join(' · '),
      )
      .filter((w) => w !== ''),
  ),
];

function labelsOutside(
  panel: PanelOnPaper,
  lettering: Lettering,
  units: Units,
  edges: readonly EdgeOnPaper[],
): Mark[] {
  const taken: Box[] = [];
  const marks: Mark[] = [];
  for (const edge of edges) {
    const label = edgeLabelOutside(lettering, edge, units, (box) => {
      const corner = holdsPoint(panel.inside, [box.minX, box.minY]);
      return !corner && !sidesEnterBox(panel.inside, box) && !taken.some((t) => overlaps(t, box));
    });
    if (!label) continue;
    taken.push(boxOf(label));
    marks.push(...label);
  }
  return marks;
}

function levelNames(panel: PanelOnPaper, lettering: Lettering, room: Room): Mark[] {
  const marks: Mark[] = [];
  const named = [...panel.levels, ...panel.trims.map((t) => ({ name: t.name, lines: t.stretches }))];
  for (const { name, lines } of named) {
    for (const l of lines) {
      const mark = text(lettering, shortName(name, 20), levelNamePlace(l), { size: 2.4, colour: SOFT });
      if (!room.isFree(textBox(mark))) continue;
      room.take(textBox(mark));
      marks.push(mark);
      break;
    }
  }
  return marks;
}

function lettersOutside(panel: PanelOnPaper, marks: readonly Mark[]): Box[] {
  const reach = boxOfPoints(panel.inside[0]!);
  return marks
    .filter((m) => m.kind === 'text')
    .map(textBox)
    .filter((b) => !holdsPoint(panel.inside, [b.minX, b.minY]) || b.minX < reach.minX);
}
