import type { ReactElement } from 'react';
import type { LayJob, LayPlan } from '../../fabric';
import type { Pt } from '../../geometry';

/** Corner points of a piece as it lies: mirrored in x when flipped, turned about the origin, moved. */
function laidPoints(points: readonly Pt[], { x, y, rotation, flipped }: LayPlan['placed'][number]): Pt[] {
  const a = (rotation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(a), Math.sin(a)];
  return points.map(([px, py]) => {
    const q = flipped ? -px : px;
    return [cos * q - sin * py + x, sin * q + cos * py + y];
  });
}

function middle(points: readonly Pt[]): Pt {
  const [sx, sy] = points.reduce<Pt>(([x, y], p) => [x + p[0], y + p[1]], [0, 0]);
  return [sx / points.length, sy / points.length];
}

/** How the pieces lie on the cloth, its length running to the right. */
export function LayDrawing({
  job,
  plan,
  fill,
  name,
}: {
  job: LayJob;
  plan: LayPlan;
  fill: string;
  name: string;
}): ReactElement {
  const length = Math.max(plan.length, 1);
  const pieces = new Map(job.pieces.map((piece) => [`${piece.panel} ${piece.copy}`, piece]));
  const letter = Math.max(36, Math.max(length, plan.width) / 17);
  return (
    <svg
      className="lay"
      viewBox={`-6 -6 ${length + 12} ${plan.width + 12}`}
      role="img"
      aria-label={`Lay plan of ${name}`}
    >
      <rect className="lay-cloth" x={0} y={0} width={length} height={plan.width} />
      {plan.placed.map((placed) => {
        const piece = pieces.get(`${placed.panel} ${placed.copy}`);
        if (!piece) return null;
        const points = laidPoints(piece.cutting, placed);
        const [mx, my] = middle(points);
        return (
          <g key={`${placed.panel} ${placed.copy}`}>
            <polygon
              points={points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ')}
              fill={fill}
            />
            <circle className="lay-disc" cx={mx} cy={my} r={letter * 0.72} />
            <text x={mx} y={my + letter * 0.34} fontSize={letter}>
              {piece.number}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
