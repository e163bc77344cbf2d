import { distance, mix } from '../geometry';
import type { Line, Pt } from '../geometry';
import { row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { INK, LEADER_LINE, SOFT } from './ink';
import { partsInside } from './inside';
import { CAPITALS, circle, filled, line, movedMarks, rectangle, text } from './marks';
import type { Lettering, Mark, TextStyle } from './marks';
import type { PanelOnPaper } from './panelOnPaper';
import type { Room } from './room';

/** Label sizes tried, largest first; at the smallest the least lettering is 2.1 mm (6 pt), the least that reads well. */
const SIZES = [1, 0.8, 0.65, 0.5] as const;
const GENEROUS = 1.35;
/** A panel with this much room round its label spot (mm) gets the generous size. */
const GENEROUS_RADIUS = 105;
/** How small a label may get to stay clear of a join. */
const LEAST_ON_ONE_SHEET = 0.65;
/** Clear space round a label, mm. */
const CLEAR = 2;

function oneLine(lettering: Lettering, content: string, style: TextStyle): Block {
  const mark = text(lettering, content, [0, style.size * (CAPITALS + 0.05)], style);
  return { width: mark.width, height: style.size * (CAPITALS + 0.27), marks: [mark] };
}

/** A small field of the colour, framed so that a pale one shows. */
export function swatch(fill: string, width: number, height: number): Block {
  return {
    width,
    height,
    marks: [filled([rectangle(0, 0, width, height)], fill, { width: 0.15, colour: INK })],
  };
}

function centred(blocks: readonly Block[], gap: number): Block {
  const width = Math.max(...blocks.map((b) => b.width));
  const wide = blocks.map((b): Block =>
    row([{ width: (width - b.width) / 2, height: b.height, marks: [] }, b], 0),
  );
  return stack(wide, gap);
}

interface Lines {
  readonly number: Block;
  readonly others: readonly Block[];
}

function labelLines(lettering: Lettering, panel: PanelOnPaper, designName: string, k: number): Lines {
  const colour = row(
    [
      swatch(panel.colour.fill, 6 * k, 4 * k),
      oneLine(lettering, shortName(panel.colour.name, 28), { size: 4.6 * k }),
    ],
    1.8 * k,
    true,
  );
  const others = [
    oneLine(lettering, shortName(panel.piece, 28), { size: 5.2 * k, bold: true }),
    colour,
    oneLine(lettering, panel.cut, { size: 4.2 * k }),
  ];
  // The design's name is the first to go where room is short.
  if (k >= 0.8) others.push(oneLine(lettering, shortName(designName, 36), { size: 3 * k, colour: SOFT }));
  const number = oneLine(lettering, `${panel.number}`, { size: 16 * k, bold: true });
  if (panel.mirroredNumber === null) return { number, others };
  const mirrored = oneLine(lettering, `mirrored ${panel.mirroredNumber}`, { size: 6.5 * k, bold: true });
  return { number: row([number, mirrored], 2.4 * k, true), others };
}

const asStack = ({ number, others }: Lines, k: number): Block => centred([number, ...others], 1.1 * k);
const asRow = ({ number, others }: Lines, k: number): Block =>
  row([number, stack(others, 0.9 * k)], 3 * k, true);

/** The label inside the panel as near its middle as it fits; null where not even the smallest does. */
export function labelInside(
  lettering: Lettering,
  panel: PanelOnPaper,
  designName: string,
  room: Room,
): Mark[] | null {
  const sizes = panel.label.radius >= GENEROUS_RADIUS ? [GENEROUS, ...SIZES] : SIZES;
  const place = (k: number, keepsClear: boolean): Mark[] | null => {
    const lines = labelLines(lettering, panel, designName, k);
    return (
      room.placeNear(asStack(lines, k), panel.label.at, CLEAR, keepsClear) ??
      room.placeNear(asRow(lines, k), panel.label.at, CLEAR, keepsClear)
    );
  };
  // Rather a little smaller on one sheet than large across a join.
  const onOneSheet = room.hasAvoided ? sizes.filter((k) => k >= LEAST_ON_ONE_SHEET) : [];
  for (const k of onOneSheet) {
    const marks = place(k, true);
    if (marks) return marks;
  }
  for (const k of sizes) {
    const marks = place(k, false);
    if (marks) return marks;
  }
  return null;
}

/**
 * The label beside a panel too small for it, with a leader into the panel. The number also stands inside if it fits there.
 * `seams` says what the panel is sewn to, for the edges that could not be lettered.
 */
export function labelBeside(
  lettering: Lettering,
  panel: PanelOnPaper,
  seams: readonly string[],
  designName: string,
): Mark[] {
  const k = 0.58;
  const { number, others } = labelLines(lettering, panel, designName, k);
  const mates = seams.map((s) => oneLine(lettering, s, { size: 2.4, colour: SOFT }));
  const block = stack([number, ...others, ...mates], 0.8);
  const { box, label } = panel;
  const isTall = box.maxY - box.minY >= box.maxX - box.minX;
  const [x, y] = isTall
    ? [box.maxX + 6, Math.max(0, label.at[1] - block.height / 2)]
    : [Math.max(0, label.at[0] - 4), box.maxY + 6];
  const start: Pt = isTall ? [x - 1.5, y + 4] : [x + 3, y - 1.5];
  const way: Line = [start, label.at];
  const entry = partsInside(panel.inside, way)[0]?.[0] ?? label.at;
  const tip = mix(entry, label.at, Math.min(1, 2.5 / Math.max(2.5, distance(entry, label.at))));
  return [
    line(start, tip, LEADER_LINE),
    filled([circle(tip, 0.6)], SOFT),
    ...movedMarks(block.marks, [x, y]),
  ];
}

/** Only the number, small, for a panel whose label stands beside it; null where even that does not fit. */
export function numberInside(lettering: Lettering, panel: PanelOnPaper, room: Room): Mark[] | null {
  for (const size of [6, 4.5, 3.4]) {
    const block = oneLine(lettering, `${panel.number}`, { size, bold: true });
    const marks =
      room.placeNear(block, panel.label.at, 0.8, true) ?? room.placeNear(block, panel.label.at, 0.8, false);
    if (marks) return marks;
  }
  return null;
}
