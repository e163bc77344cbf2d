import {
  dot,
  endOf,
  perpendicular,
  scale,
  startOf,
  subtract,
  unit,
  type Path,
  type Pt,
} from '../../geometry';
import type { WholePiece } from '../../pattern';
import type { CatchField } from './catchField';
import { measuresAt, pointAtDistance, referenceKey, runOfPath, type Measured } from './measure';
import { moveEnd, movePath } from './moveLine';

/** One way to say where a line, or one end of it, lies. */
export interface PlacingOption {
  readonly key: string;
  readonly end: 'start' | 'end';
  readonly measured: Measured;
}

/** A row of the placing card: the whole line where it is true to the grain, else each end by itself. */
export interface PlacingRow {
  readonly label: 'Line' | 'One end' | 'Other end';
  readonly whole: boolean;
  readonly options: readonly PlacingOption[];
}

const optionsAt = (
  whole: WholePiece,
  p: Pt,
  end: 'start' | 'end',
  run: Parameters<typeof measuresAt>[2],
): PlacingOption[] =>
  measuresAt(whole, p, run).map((measured) => ({
    key: `${end} ${referenceKey(measured.reference)}`,
    end,
    measured,
  }));

/** How a line's place can be read and typed; with `eachEnd` the ends of a line true to the grain are placed one by one too. Rows without an option (an end in the open on a piece without levels) are left out. */
export function placingRows(whole: WholePiece, path: Path, eachEnd = false): PlacingRow[] {
  if (path.length === 0) return [];
  const run = runOfPath(whole, path);
  const start = optionsAt(whole, startOf(path), 'start', run);
  const end = optionsAt(whole, endOf(path), 'end', run);
  const rows: PlacingRow[] =
    run === 'at an angle' || eachEnd
      ? [
          { label: 'One end', whole: false, options: start },
          { label: 'Other end', whole: false, options: end },
        ]
      : [
          {
            label: 'Line',
            whole: true,
            options: [...start, ...end.filter(({ measured }) => measured.reference.kind === 'edge end')],
          },
        ];
  return rows.filter(({ options }) => options.length > 0);
}

/**
 * The line moved so that the option's distance is the one wanted. A whole line keeps its direction and slides square to
 * itself; an end slides along what it lies on.
 * @returns null when there is no such place
 */
export function placeAt(
  whole: WholePiece,
  field: CatchField,
  path: Path,
  row: PlacingRow,
  option: PlacingOption,
  way: Measured['way'],
  wanted: number,
): Path | null {
  const p = option.end === 'start' ? startOf(path) : endOf(path);
  const target = pointAtDistance(whole, option.measured.reference, way, wanted, p);
  if (!target) return null;
  if (!row.whole) return moveEnd(path, option.end, target);
  const normal = perpendicular(unit(subtract(endOf(path), startOf(path))));
  return movePath(path, field, scale(normal, dot(subtract(target, p), normal)));
}
