import { pathThrough } from '../geometry';
import type { Box, Path, Pt } from '../geometry';
import { INK, JOIN_LINE, SOFT } from './ink';
import { circle, filled, line, stroked, text } from './marks';
import type { Lettering, Mark } from './marks';
import { SHEET_OVERLAP } from './sheetSize';
import { windowBox } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';
import type { Join, Sheet } from './sheets';

/** Half the size of a join mark, mm: stays within the shared strip, so that it is whole on both sheets. */
const REACH = 3.6;
const CROSS = 4;

const SHAPES: readonly ((p: Pt) => Path)[] = [
  ([x, y]) =>
    pathThrough(
      [
        [x, y - REACH],
        [x + REACH, y],
        [x, y + REACH],
        [x - REACH, y],
      ],
      true,
    ),
  (p) => circle(p, REACH * 0.85),
  ([x, y]) =>
    pathThrough(
      [
        [x - 3, y - 3],
        [x + 3, y - 3],
        [x + 3, y + 3],
        [x - 3, y + 3],
      ],
      true,
    ),
  ([x, y]) =>
    pathThrough(
      [
        [x, y - REACH],
        [x + REACH, y + 2.6],
        [x - REACH, y + 2.6],
      ],
      true,
    ),
  ([x, y]) =>
    pathThrough(
      [
        [x - 1.3, y - REACH],
        [x + 1.3, y - REACH],
        [x + 1.3, y + REACH],
        [x - 1.3, y + REACH],
      ],
      true,
    ),
  ([x, y]) =>
    pathThrough(
      [
        [x - REACH, y - 1.3],
        [x + REACH, y - 1.3],
        [x + REACH, y + 1.3],
        [x - REACH, y + 1.3],
      ],
      true,
    ),
];
const PLACES = [0.5, 0.36, 0.64, 0.22, 0.78] as const;

/** Middle of the join line on the canvas, and where along it this join's mark stands. */
function joinPlace(
  grid: SheetGrid,
  { number, first, side }: Join,
): { at: Pt; shape: number; isSolid: boolean } {
  const w = windowBox(grid, first.column, first.row);
  const k = number - 1;
  const share = PLACES[Math.floor(k / (SHAPES.length * 2)) % PLACES.length]!;
  const half = SHEET_OVERLAP / 2;
  const at: Pt =
    side === 'right'
      ? [w.maxX - half, w.minY + (w.maxY - w.minY) * share]
      : [w.minX + (w.maxX - w.minX) * share, w.maxY - half];
  return { at, shape: k % SHAPES.length, isSolid: Math.floor(k / SHAPES.length) % 2 === 1 };
}

/** A shape that no other nearby join has, its number on this sheet's side of the join line. Canvas mm. */
function joinMark(lettering: Lettering, grid: SheetGrid, join: Join, sheet: Sheet): Mark[] {
  const { at, shape, isSolid } = joinPlace(grid, join);
  const path = SHAPES[shape]!(at);
  const ink = { width: 0.25, colour: INK };
  const [dx, dy] = join.side === 'right' ? [REACH + 1.2, 0.9] : [0, REACH + 1.2];
  const style = { size: 2.6, colour: SOFT };
  const number = `${join.number}`;
  const isFirst = join.first === sheet;
  const label =
    join.side === 'right'
      ? text(lettering, number, [at[0] + (isFirst ? -dx : dx), at[1] + dy], {
          ...style,
          align: isFirst ? 'right' : 'left',
        })
      : text(lettering, number, [at[0], at[1] + (isFirst ? -dy : dy + 1.9)], { ...style, align: 'centre' });
  return [isSolid ? filled([path], INK) : stroked([path], ink, true), label];
}

/** Join line through the middle of the shared strip. */
function joinLine(grid: SheetGrid, { first, side }: Join): Mark {
  const w = windowBox(grid, first.column, first.row);
  const half = SHEET_OVERLAP / 2;
  return side === 'right'
    ? line([w.maxX - half, w.minY], [w.maxX - half, w.maxY], JOIN_LINE)
    : line([w.minX, w.maxY - half], [w.maxX, w.maxY - half], JOIN_LINE);
}

const cross = ([x, y]: Pt): Mark[] => [
  line([x - CROSS, y], [x + CROSS, y], { width: 0.3, colour: INK }),
  line([x, y - CROSS], [x, y + CROSS], { width: 0.3, colour: INK }),
];

/** Where join lines end: the corners of the sheets' shares, the same points on every sheet that shows them. */
function crossPlaces(grid: SheetGrid, { first, side }: Join): Pt[] {
  const w: Box = windowBox(grid, first.column, first.row);
  const half = SHEET_OVERLAP / 2;
  return side === 'right'
    ? [
        [w.maxX - half, w.minY + half],
        [w.maxX - half, w.maxY - half],
      ]
    : [
        [w.minX + half, w.maxY - half],
        [w.maxX - half, w.maxY - half],
      ];
}

/** Everything that helps to lay a sheet against its neighbours, canvas mm: lines, crosses, marks, and which neighbour lies where. */
export function joinMarks(
  lettering: Lettering,
  grid: SheetGrid,
  sheet: Sheet,
  joins: readonly Join[],
): Mark[] {
  const own = joins.filter((j) => j.first === sheet || j.second === sheet);
  const corners = new Map<string, Pt>();
  for (const j of own) for (const p of crossPlaces(grid, j)) corners.set(p.join(), p);
  return [
    ...own.map((j) => joinLine(grid, j)),
    ...[...corners.values()].flatMap(cross),
    ...own.flatMap((j) => joinMark(lettering, grid, j, sheet)),
  ];
}
