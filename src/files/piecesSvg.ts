import { isCubic, joinBoxes, pathBox, type Box, type Line, type Path, type Pt } from '../geometry';
import { type CutNotch, type CutPiece, markLines } from '../allowance';
import { edgeSayings, howToCut, mateWords, printedPiece, type Garment, printedZips } from '../garment';
import type { Panel } from '../panels';
import { dartLegs } from '../pattern';

/** Clear cloth between two pieces on the drawing, mm. */
const GAP = 20;
/** A row of pieces is ended when it gets longer than this, mm. */
const ROW = 2000;

/** Ten-thousandths of a mm: no corner moves visibly, and files stay small. */
const num = (value: number): string => `${Math.round(value * 1e4) / 1e4 + 0}`;
const xy = (p: Pt): string => `${num(p[0])} ${num(p[1])}`;

/** Text for XML: marked characters escaped, characters XML 1.0 cannot hold left out. */
function escaped(text: string): string {
  const marks: Record<string, string> = {
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
  };
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/[&<>"']/g, (c) => marks[c]!);
}

/** Path data of a ring or open path, curves as curves. */
function pathData(path: Path, closed: boolean): string {
  const first = path[0];
  if (!first) return '';
  const steps = path.map((c) => (isCubic(c) ? `C${xy(c[1])} ${xy(c[2])} ${xy(c[3])}` : `L${xy(c[1])}`));
  return `M${xy(first[0])}${steps.join('')}${closed ? 'Z' : ''}`;
}

/** Marks of one notch: short lines from the cutting line. */
const notchData = (notch: CutNotch): string =>
  markLines(notch)
    .map(([from, to]) => `M${xy(from)}L${xy(to)}`)
    .join('');

/** The grain beside the label instead of through it, still inside the circle that is free there. */
function besideLabel([a, b]: Line, { at, radius }: CutPiece['label']): Line {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const middle: Pt = [at[0] - uy * radius * 0.86, at[1] + ux * radius * 0.86];
  const half = radius * 0.48;
  return [
    [middle[0] - ux * half, middle[1] - uy * half],
    [middle[0] + ux * half, middle[1] + uy * half],
  ];
}

/** Grain line with a small arrow at its end. */
function grainData([a, b]: Line): string {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return '';
  const size = Math.min(6, length / 4);
  const [ux, uy] = [((b[0] - a[0]) / length) * size, ((b[1] - a[1]) / length) * size];
  const barb = (side: 1 | -1): Pt => [b[0] - ux - side * uy * 0.5, b[1] - uy + side * ux * 0.5];
  return `M${xy(a)}L${xy(b)}M${xy(barb(1))}L${xy(b)}L${xy(barb(-1))}`;
}

const dartData = (panel: Panel): string =>
  panel.darts.map((d) => pathData(dartLegs(d), d.kind === 'double')).join('');

/** `3`, or `3, mirrored 5` where the printed piece is cut for both. */
function twinWords(garment: Garment, panel: Panel): string {
  const { twin } = howToCut(garment, panel);
  const number = `${garment.plan.numbers.get(panel.id)!}`;
  return twin === null ? number : `${number}, mirrored ${twin}`;
}

function labelText(panel: Panel, cut: CutPiece, garment: Garment): string {
  const { at, radius } = cut.label;
  const size = Math.max(2, Math.min(14, radius * 0.6));
  const colour = garment.design.colours.find((c) => c.id === panel.colour)!;
  const lines = [
    twinWords(garment, panel),
    garment.pieceById.get(panel.piece)!.whole.name,
    colour.name,
    howToCut(garment, panel).text,
  ];
  // A letter of a sans-serif is about half as wide as high: the longest line keeps clear of the grain.
  const longest = Math.max(...lines.slice(1).map((l) => l.length));
  const small = Math.max(1, Math.min(5.6, (radius * 3) / longest));
  const spans = lines.map((line, i) => {
    const height = i === 0 ? size : small;
    const y = at[1] + (i === 0 ? 0 : small * 1.35 * i);
    return `<tspan x="${num(at[0])}" y="${num(y)}" font-size="${num(height)}">${escaped(line)}</tspan>`;
  });
  return `<text text-anchor="middle" font-family="sans-serif" fill="#1c2430">${spans.join('')}</text>`;
}

/** Height of the words along an edge, and how far inside the stitching line they stand, mm. */
const EDGE_LETTERS = 3.6;
const OFF_EDGE = 2.2;

/** What every edge is sewn to, or what becomes of it, along it inside the stitching line; left out where the edge is too short for it. */
function edgeTexts(garment: Garment, panel: Panel, cut: CutPiece): string {
  const texts = edgeSayings(garment, panel, cut).map((saying, i) => {
    const { at, inward, length } = cut.edgeLabels[i]!;
    const words = mateWords(saying);
    // a letter of a sans-serif is about half as wide as high
    if (words === '' || words.length * EDGE_LETTERS * 0.55 > length) return '';
    // along the edge, never upside down; letters stand on the side that is inside the panel
    const along = (Math.atan2(-inward[0], inward[1]) * 180) / Math.PI;
    const isUpright = along > -90 && along <= 90;
    const off = OFF_EDGE + (isUpright ? EDGE_LETTERS * 0.75 : 0);
    const place: Pt = [at[0] + inward[0] * off, at[1] + inward[1] * off];
    const turn = isUpright ? along : along > 0 ? along - 180 : along + 180;
    return `<text transform="translate(${xy(place)}) rotate(${num(turn)})">${escaped(words)}</text>`;
  });
  const all = texts.join('');
  return all === ''
    ? ''
    : `<g class="edges" text-anchor="middle" font-family="sans-serif" font-size="${EDGE_LETTERS}" fill="#1c2430">${all}</g>\n`;
}

/** How far the bar at a zip's stop reaches to either side of the stitching line, mm. */
const STOP_REACH = 6;

/** Stop marks and slots of zips; what they are stands in the title. */
function zipGroup(garment: Garment, panel: Panel): string {
  return printedZips(garment, panel)
    .map(({ mark: { stop, slot }, words }) => {
      const [x, y] = stop ? [stop.outward[0] * STOP_REACH, stop.outward[1] * STOP_REACH] : [0, 0];
      const bar = stop
        ? `M${xy([stop.at[0] - x, stop.at[1] - y])}L${xy([stop.at[0] + x, stop.at[1] + y])}`
        : '';
      const lines = slot.map((path) => pathData(path, false)).join('');
      return (
        `<g class="zip"><title>${escaped(words)}</title>` +
        (lines === ''
          ? ''
          : `<path d="${lines}" fill="none" stroke="#1c2430" stroke-width="0.3" stroke-dasharray="1.4 0.9"/>`) +
        (bar === '' ? '' : `<path d="${bar}" fill="none" stroke="#1c2430" stroke-width="0.8"/>`) +
        '</g>\n'
      );
    })
    .join('');
}

/** A chain line, wide enough to show beside the cutting line it lies on. */
const FOLD = 'stroke="#1c2430" stroke-width="1" stroke-dasharray="12 2 2 2"';

function panelGroup(garment: Garment, panel: Panel, cut: CutPiece, move: Pt): string {
  const number = garment.plan.numbers.get(panel.id)!;
  const { fill } = garment.design.colours.find((c) => c.id === panel.colour)!;
  const { name } = garment.pieceById.get(panel.piece)!.whole;
  const cutting = [cut.cutting, ...cut.holes].map((ring) => pathData(ring, true)).join('');
  const { twin } = howToCut(garment, panel);
  const title = twin === null ? `Panel ${number}, ${name}` : `Panel ${number}, mirrored ${twin}, ${name}`;
  const stitching = [cut.stitching, ...panel.holeRings].map((ring) => pathData(ring, true)).join('');
  const line = (role: string, d: string, more: string): string =>
    d === '' ? '' : `<path class="${role}" d="${d}" fill="none" ${more}/>\n`;
  return (
    `<g id="panel-${number}" transform="translate(${xy(move)})">\n<title>${escaped(title)}</title>\n` +
    `<path class="cutting-line" d="${cutting}" fill="${fill}" fill-opacity="0.25" fill-rule="evenodd" stroke="#1c2430" stroke-width="0.5"/>\n` +
    line('stitching-line', stitching, 'stroke="#1c2430" stroke-width="0.3" stroke-dasharray="4 2"') +
    line('darts', dartData(panel), 'stroke="#1c2430" stroke-width="0.3" stroke-dasharray="1.5 1.5"') +
    line('notches', cut.notches.map(notchData).join(''), 'stroke="#1c2430" stroke-width="0.5"') +
    edgeTexts(garment, panel, cut) +
    zipGroup(garment, panel) +
    line('fold', cut.foldEdge ? pathData([cut.foldEdge], false) : '', FOLD) +
    line('grain', grainData(besideLabel(cut.grain, cut.label)), 'stroke="#1c2430" stroke-width="0.3"') +
    `${labelText(panel, cut, garment)}\n</g>`
  );
}

/** Where each piece goes: rows from left to right, GAP apart, each row as high as its highest piece. */
function inRows(boxes: readonly Box[]): { moves: Pt[]; width: number; height: number } {
  let [x, y, rowHeight, width] = [GAP, GAP, 0, 0];
  const moves = boxes.map((box): Pt => {
    const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
    if (x > GAP && x + w > ROW) {
      x = GAP;
      y += rowHeight + GAP;
      rowHeight = 0;
    }
    const move: Pt = [x - box.minX, y - box.minY];
    x += w + GAP;
    width = Math.max(width, x);
    rowHeight = Math.max(rowHeight, h);
    return move;
  });
  return { moves, width, height: y + rowHeight + GAP };
}

/**
 * The cutting pieces as one SVG drawing in true size: per panel a group `panel-N` with cutting line, stitching line
 * (dashed), darts, notches, what each edge is sewn to, grain and label; curves stay curves. Same garment, same bytes.
 */
export function piecesSvg(garment: Garment): string {
  const printed = garment.panels.flatMap((panel) => {
    const cut = printedPiece(garment, panel);
    return cut ? [{ panel, cut }] : [];
  });
  const boxes = printed.map(({ cut }) =>
    cut.holes.reduce((box, hole) => joinBoxes(box, pathBox(hole)), pathBox(cut.cutting)),
  );
  const { moves, width, height } = inRows(boxes);
  const groups = printed.map(({ panel, cut }, i) => panelGroup(garment, panel, cut, moves[i]!));
  return (
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    `<svg xmlns="http://www.w3.org/2000/svg" width="${num(width)}mm" height="${num(height)}mm" viewBox="0 0 ${num(width)} ${num(height)}">\n` +
    `<title>${escaped(garment.design.name)}</title>\n${groups.join('\n')}\n</svg>\n`
  );
}
