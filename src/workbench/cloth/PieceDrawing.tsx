import { memo, type ReactElement } from 'react';
import type { SeenPiece } from '../../fabric';
import { applyMatrix, isCubic, type Matrix, type Path, type Pt } from '../../geometry';
import type { ShownPiece } from './strips';

const at = ([x, y]: Pt): string => `${x.toFixed(2)} ${y.toFixed(2)}`;

const polygonData = (points: readonly Pt[]): string => `M${points.map(at).join('L')}Z`;

/** Path data of a closed ring, curves as curves. */
const ringData = (ring: Path): string =>
  ring.length === 0
    ? ''
    : `M${at(ring[0]![0])}${ring.map((c) => (isCubic(c) ? `C${c.slice(1).map(at).join(' ')}` : `L${at(c[1])}`)).join('')}Z`;

/** Back from the cloth to the piece's own frame: what it does keeps lengths, so its inverse is its transpose. */
function backToPiece([a, b, c, d, e, f]: Matrix): Matrix {
  return [a, c, b, d, -(a * e + b * f), -(c * e + d * f)];
}

/** A shape with its middle at 0, 0, and how it is brought to the cloth from there: so that it can be seen to move from plan to plan. */
interface Centred {
  readonly outline: string;
  readonly shift: Pt;
  readonly transform: string;
}

function centred({ outline, from, label }: SeenPiece): Centred {
  const back = backToPiece(from);
  const middle = applyMatrix(back, label.at);
  const own = outline.map((p): Pt => {
    const [x, y] = applyMatrix(back, p);
    return [x - middle[0], y - middle[1]];
  });
  const [a, b, c, d] = from;
  return {
    outline: polygonData(own),
    shift: [-middle[0], -middle[1]],
    transform: `matrix(${a}, ${b}, ${c}, ${d}, ${label.at[0]}, ${label.at[1]})`,
  };
}

/** A piece's outline in its cloth, its stitching lines faint. */
export const PieceShape = memo(function PieceShape({
  shown,
  stitching,
  clip,
}: {
  shown: ShownPiece;
  /** In the piece's own frame; null: not known any more. */
  stitching: Path | null;
  /** For half pieces on the fold: keeps the stitching on the half that is seen. */
  clip: string;
}): ReactElement {
  const { outline, shift, transform } = centred(shown.shape);
  const isHalf = shown.laid.cutFrom === 'fold' && shown.shape !== shown.laid;
  return (
    <g className="laid-shape" style={{ transform }}>
      {isHalf && (
        <clipPath id={clip}>
          <path d={outline} />
        </clipPath>
      )}
      <path className="laid-outline" d={outline} />
      {stitching && (
        <g clipPath={isHalf ? `url(#${clip})` : undefined}>
          <path
            className="laid-stitching"
            d={ringData(stitching)}
            transform={`translate(${shift.join(' ')})`}
          />
        </g>
      )}
    </g>
  );
});

/** Of the room inside a piece, how much its number may take; pixels it is at least and at most. */
const NUMBER_SHARE = 0.62;
const [LEAST_NUMBER, MOST_NUMBER] = [9, 26];
/** Grain arrows end this far short of the outline, as a share of their length. */
const ARROW_SHORT = 0.14;
const ARROW_HEAD = 7;

/** Its number, with a bar over it where its paper lies face down, and an arrow along its grain. */
export const PieceMarks = memo(function PieceMarks({
  shown,
  scale,
}: {
  shown: ShownPiece;
  /** Pixels per mm. */
  scale: number;
}): ReactElement {
  const { label, grain } = shown.shape;
  const { number, offGrain } = shown.laid;
  const px = 1 / scale;
  const size = Math.min(MOST_NUMBER * px, Math.max(LEAST_NUMBER * px, label.radius * NUMBER_SHARE));
  const [[x0, y0], [x1, y1]] = grain;
  const [dx, dy] = [x1 - x0, y1 - y0];
  const point = (t: number): Pt => [x0 + dx * t, y0 + dy * t];
  const [tail, head] = [point(ARROW_SHORT), point(1 - ARROW_SHORT)];
  const angle = (Math.atan2(dy, dx) * 180) / Math.PI;
  const digits = String(number).length;
  const half = Math.max(size * 0.74, size * 0.34 * digits);
  return (
    <g className={offGrain > 0 ? 'laid-marks off-grain' : 'laid-marks'} aria-hidden="true">
      <path className="laid-grain" d={`M${at(tail)}L${at(head)}`} />
      <path
        className="laid-grain-head"
        transform={`translate(${at(head)}) rotate(${angle}) scale(${px})`}
        d={`M0 0L${-ARROW_HEAD} ${-ARROW_HEAD * 0.45}L${-ARROW_HEAD} ${ARROW_HEAD * 0.45}Z`}
      />
      <g className="laid-label" style={{ transform: `translate(${label.at[0]}px, ${label.at[1]}px)` }}>
        <rect
          className="laid-disc"
          x={-half}
          y={-size * 0.74}
          width={2 * half}
          height={1.48 * size}
          rx={size * 0.74}
        />
        <text y={size * 0.35} fontSize={size}>
          {number}
        </text>
        {shown.isFaceDown && (
          <path className="laid-bar" d={`M${-size * 0.3 * digits} ${-size * 0.46}H${size * 0.3 * digits}`} />
        )}
      </g>
    </g>
  );
});
