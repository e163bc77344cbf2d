import type { ReactElement } from 'react';
import type { LayJob, LayPlan } from '../../fabric';
import { centroidOfPoints, type Pt } from '../../geometry';

/** Corner points of a piece as it lies: mirrored in x when flipped, turned about the origin, moved. */
function laidPoints(points: readonly Pt[], { x, y, rotation, flipped }: LayPlan['placed'][number]): Pt[] {
  const a = (rotation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(a), Math.sin(a)];
  return points.map(([px, py]) => {
    const q = flipped ? -px : px;
    return [cos * q - sin * py + x, sin * q + cos * py + y];
  });
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
  const laid = plan.placed.flatMap((placed) => {
    const key = `${placed.panel} ${placed.copy}`;
    const piece = pieces.get(key);
    if (!piece) return [];
    const points = laidPoints(piece.cutting, placed);
    return [{ key, number: piece.number, points, at: centroidOfPoints(points) }];
  });
  return (
    <svg
      className="lay"
      viewBox={`-6 -6 ${length + 12} ${plan.width + 12}`}
      role="img"
      aria-label={`Lay plan of ${name}`}
    >
      <rect className="lay-cloth" x={0} y={0} width={length} height={plan.width} />
      {laid.map(({ key, points }) => (
        <polygon
          key={key}
          points={points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ')}
          fill={fill}
        />
      ))}
      {laid.map(({ key, number, at: [x, y] }) => (
        <g key={key}>
          <circle className="lay-disc" cx={x} cy={y} r={letter * 0.72} />
          <text x={x} y={y + letter * 0.34} fontSize={letter}>
            {number}
          </text>
        </g>
      ))}
    </svg>
  );
}
