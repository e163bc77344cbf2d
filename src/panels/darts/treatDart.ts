import type { Path } from '../../geometry';
import { reshaped } from '../../lines';
import type { DartTreatment, Design, LineId, PieceId } from '../../pattern';
import { withLines } from '../keepColours';
import { carried } from './carrySwung';

/**
 * Say what is done with one traced dart of a piece; the same design when that is done with it already. When that swings a part of the
 * piece, the lines and colours on it go along.
 */
export function treatDart(design: Design, piece: PieceId, dart: number, treatment: DartTreatment): Design {
  const now = design.pieces.find((p) => p.id === piece)?.darts[dart];
  if (!now || JSON.stringify(now.treatment) === JSON.stringify(treatment)) return design;
  const pieces = design.pieces.map((p) =>
    p.id === piece ? { ...p, darts: p.darts.map((d, i) => (i === dart ? { ...d, treatment } : d)) } : p,
  );
  const treated = { ...design, pieces };
  const isSwung = now.treatment.kind === 'swing' || treatment.kind === 'swing';
  return isSwung ? carried(design, treated, piece) : treated;
}

/** Lay a line along another path, as it is sewn over darts. A tied line is tied anew there; panels keep their colours. */
export const layAnew = (design: Design, line: LineId, path: Path): Design =>
  withLines(
    design,
    design.lines.map((l) => (l.id === line ? { ...reshaped(design, l, path), overDarts: 'sewn' } : l)),
  );
