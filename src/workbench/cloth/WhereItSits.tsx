import { memo, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import type { Pt } from '../../geometry';
import type { Panel } from '../../panels';
import { layOut } from '../drawing/tableLayout';
import { layoutOf } from '../canvas/layoutOf';

const polygon = (points: readonly Pt[], [dx, dy]: Pt): string =>
  points.map(([x, y]) => `${(x + dx).toFixed(1)},${(y + dy).toFixed(1)}`).join(' ');

/** The garment's pieces small, with one panel filled: where a laid piece will sit. */
export const WhereItSits = memo(function WhereItSits({
  garment,
  panel,
  fill,
}: {
  garment: Garment;
  panel: Panel;
  fill: string;
}): ReactElement {
  const { extras } = garment;
  const home = extras?.pieceById.has(panel.piece) ? extras : garment;
  const { shift, box } = home === garment ? layoutOf(garment) : layOut(home.pieces);
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  const panels = home.pieces.flatMap((piece) => piece.panels);
  return (
    <svg
      className="where-it-sits"
      viewBox={`${box.minX - w * 0.02} ${box.minY - h * 0.02} ${w * 1.04} ${h * 1.04}`}
      aria-hidden="true"
    >
      {panels.map((p) => (
        <polygon
          key={p.id}
          points={polygon(p.flat.points, shift.get(p.piece) ?? [0, 0])}
          fill={p.id === panel.id ? fill : 'var(--chalk)'}
          className={p.id === panel.id ? 'here' : undefined}
        />
      ))}
    </svg>
  );
});
