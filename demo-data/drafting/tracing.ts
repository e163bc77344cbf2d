/** Write drafted pieces down as a traced SVG, in the roles the README lists. 1 user unit is 1 mm. */
import type { Line, Path, Polyline, Pt } from '../../src/geometry';
import { isClosed } from '../../src/geometry';
import { shiftPath } from './curves';

export interface DraftedPiece {
  readonly name: string;
  /** Named edges in order round the piece; joined they are its outline. */
  readonly edges: readonly { readonly name: string | null; readonly path: Path }[];
  readonly fold?: Line;
  readonly grain: Line;
  readonly darts: readonly Polyline[];
  readonly notches: readonly Line[];
  readonly levels: readonly { readonly name: string; readonly line: Line }[];
  readonly panelLines: readonly { readonly path: Path; readonly once?: boolean }[];
  readonly colours: readonly { readonly at: Pt; readonly fill: string }[];
}

export interface Sheet {
  readonly title: string;
  readonly about: string;
  readonly width: number;
  readonly height: number;
  /** Each piece, and where its own origin lies on the sheet. */
  readonly pieces: readonly { readonly piece: DraftedPiece; readonly at: Pt }[];
}

const SWATCH_RADIUS = 9;

/** Thousandths of a millimetre: finer than any tracing, and the same text on every machine. */
const number = (value: number): string => {
  const text = String(Math.round(value * 1000) / 1000);
  return text === '-0' ? '0' : text;
};
const point = ([x, y]: Pt): string => `${number(x)},${number(y)}`;

function pathData(path: Path): string {
  const closed = isClosed(path);
  const parts = path.map((c, i) => {
    if (c.length === 4) return `C${c.slice(1).map(point).join(' ')}`;
    return closed && i === path.length - 1 ? '' : `L${point(c[1])}`;
  });
  return `M${point(path[0]![0])} ${parts.filter(Boolean).join(' ')}${closed ? ' Z' : ''}`;
}

const element = (role: string, path: Path, look: string): string =>
  `    <path data-role="${role}" class="${look}" d="${pathData(path)}"/>`;

function writePiece(piece: DraftedPiece, by: Pt): string {
  const placed = (path: Path): Path => shiftPath(path, by);
  const points = (corners: Polyline): Path => corners.slice(1).map((p, i): Line => [corners[i]!, p]);
  const closing = (corners: Polyline): Path =>
    points(corners.length === 4 ? [...corners, corners[0]!] : corners);
  const outline = piece.edges.flatMap(({ path }) => path);
  const rows = [
    element('outline', placed(outline), 'outline'),
    ...piece.edges
      .filter(({ name }) => name !== null)
      .map(({ name, path }) => element(`edge ${name}`, placed(path), 'edge')),
    ...(piece.fold ? [element('fold', placed([piece.fold]), 'fold')] : []),
    element('grain', placed([piece.grain]), 'grain'),
    ...piece.levels.map(({ name, line }) => element(`level ${name}`, placed([line]), 'level')),
    ...piece.darts.map((dart) => element('dart', placed(closing(dart)), 'dart')),
    ...piece.notches.map((notch) => element('notch', placed([notch]), 'notch')),
    ...piece.panelLines.map(({ path, once }) =>
      element(once ? 'panel line once' : 'panel line', placed(path), 'panel-line'),
    ),
    ...piece.colours.map(
      ({ at, fill }) =>
        `    <circle data-role="colour" cx="${number(at[0] + by[0])}" cy="${number(at[1] + by[1])}" r="${SWATCH_RADIUS}" fill="${fill}"/>`,
    ),
  ];
  return [`  <g data-role="piece ${piece.name}">`, ...rows, '  </g>'].join('\n');
}

const LOOKS = `    path { fill: none; stroke: #2b2b2b; stroke-width: 0.7; }
    .outline { stroke-width: 1.2; }
    .edge { stroke-opacity: 0; }
    .fold { stroke-dasharray: 14 4 3 4; stroke-width: 1.6; }
    .grain { stroke-dasharray: 24 5; stroke: #777; }
    .level { stroke-dasharray: 3 4; stroke: #999; }
    .panel-line { stroke: #b0323f; stroke-width: 1.4; }`;

export const writeTracing = (sheet: Sheet): string => `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${sheet.width}mm" height="${sheet.height}mm" viewBox="0 0 ${sheet.width} ${sheet.height}">
  <title>${sheet.title}</title>
  <desc>${sheet.about}</desc>
  <style>
${LOOKS}
  </style>
${sheet.pieces.map(({ piece, at }) => writePiece(piece, at)).join('\n')}
</svg>
`;
