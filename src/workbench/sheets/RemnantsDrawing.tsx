import type { ReactElement } from 'react';
import { laidPieces, type ClothRectangle, type LayJob, type LayPlan } from '../../fabric';
import { boxOfPoints, type Polyline } from '../../geometry';

const pointsOf = (points: Polyline): string =>
  points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');

/** Of the drawing's longer side: room round the cloth, and the height of numbers at most. */
const [ROUND, LETTER] = [0.02, 0.075];

/** A piece of one's own cloth with what lies on it and the largest rectangle left, its length running to the right; a bar over mirrored ones. */
export function RemnantsDrawing({
  outline,
  fill,
  words,
  laid,
  left,
}: {
  outline: Polyline;
  fill: string;
  /** What it shows, for those who do not see it. */
  words: string;
  laid: { readonly job: LayJob; readonly plan: LayPlan } | null;
  left: ClothRectangle | null;
}): ReactElement {
  const { minX, minY, maxX, maxY } = boxOfPoints(outline);
  const size = Math.max(maxX - minX, maxY - minY);
  const room = size * ROUND;
  const pieces = laid ? laidPieces(laid.job.pieces, laid.plan) : [];
  return (
    <svg
      className="remnant-drawing"
      viewBox={`${minX - room} ${minY - room} ${maxX - minX + 2 * room} ${maxY - minY + 2 * room}`}
      role="img"
      aria-label={words}
    >
      <polygon className="remnant-cloth" points={pointsOf(outline)} />
      {left && pieces.length > 0 && (
        <rect className="remnant-left" x={left.x} y={left.y} width={left.length} height={left.width} />
      )}
      {pieces.map(({ piece, outline: own, label, number, flipped }) => {
        const letter = Math.min(size * LETTER, label.radius * 1.1);
        return (
          <g key={`${piece.panel} ${piece.copy}`}>
            <polygon className="remnant-piece" points={pointsOf(own)} fill={fill} />
            <circle className="lay-disc" cx={label.at[0]} cy={label.at[1]} r={letter * 0.74} />
            <text x={label.at[0]} y={label.at[1] + letter * 0.35} fontSize={letter}>
              {number}
            </text>
            {flipped && (
              <path
                className="remnant-bar"
                d={`M${label.at[0] - letter * 0.3 * String(number).length} ${label.at[1] - letter * 0.46}h${letter * 0.6 * String(number).length}`}
              />
            )}
          </g>
        );
      })}
    </svg>
  );
}
