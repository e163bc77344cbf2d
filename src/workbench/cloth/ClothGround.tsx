import { sayAtCounter } from '../../fabric';
import { memo, useId, type ReactElement } from 'react';
import { MM_PER_INCH, formatLength, type Units } from '../../pattern';

import type { Strip } from './strips';

/** Steps of the length marks, mm: 10 cm, or a quarter of a yard. */
const MARK_STEP: Readonly<Record<Units, number>> = { cm: 100, in: 9 * MM_PER_INCH };
/** Every how many marks may be lettered. */
const LETTERED: Readonly<Record<Units, readonly number[]>> = {
  cm: [1, 2, 5, 10, 20, 50],
  in: [1, 2, 4, 8, 20],
};
/** Room a lettered mark takes, pixels. */
const LETTER_ROOM = 58;
/** Repeats finer than this on the screen are not drawn, pixels. */
const LEAST_REPEAT = 4;

const count = (length: number, step: number): number[] =>
  Array.from({ length: Math.floor(length / step + 1e-9) + 1 }, (_, i) => i);

/** Marks along the upper edge, as on a tape. */
function LengthMarks({ strip, units, px }: { strip: Strip; units: Units; px: number }): ReactElement {
  const step = MARK_STEP[units];
  const every = LETTERED[units].find((n) => n * step >= LETTER_ROOM * px) ?? LETTERED[units].at(-1)!;
  const marks = count(strip.length, step);
  const isLong = (i: number): boolean => i % every === 0;
  return (
    <g className="length-marks" aria-hidden="true">
      <path d={marks.map((i) => `M${i * step} ${-(isLong(i) ? 12 : 6) * px}V0`).join('')} />
      {marks
        .filter((i) => isLong(i) && i > 0)
        .map((i) => (
          <text key={i} x={i * step} y={-17 * px} fontSize={12 * px}>
            {sayAtCounter(i * step, units)}
          </text>
        ))}
    </g>
  );
}

/** Where stripes or motifs come again: counted from the end of the cloth and from the middle of its width. */
function repeatLines({ job: { repeat }, plan, isFolded, width, length }: Strip, px: number): string {
  const lines: string[] = [];
  const fine = LEAST_REPEAT * px;
  if (repeat.along > fine)
    for (const i of count(length, repeat.along)) lines.push(`M${i * repeat.along} 0V${width}`);
  if (repeat.across > fine) {
    const middle = isFolded ? 0 : plan.width / 2;
    const least = isFolded ? 0 : -Math.floor(middle / repeat.across);
    const most = Math.floor((width - middle) / repeat.across);
    for (let i = least; i <= most; i += 1) lines.push(`M0 ${middle + i * repeat.across}H${length}`);
  }
  return lines.join('');
}

/** Names of the long edges, at their beginning. */
function EdgeNames({ strip, px }: { strip: Strip; px: number }): ReactElement | null {
  if (strip.own !== null) return null;
  const { isFolded, width, plan } = strip;
  const names: (readonly [string, number])[] = isFolded
    ? [
        ['fold', 0],
        ['selvedges', width],
      ]
    : [
        ['selvedge', 0],
        ...(plan.layering === 'folded' ? [['fold', width / 2] as const] : []),
        ['selvedge', width],
      ];
  return (
    <g className="edge-names" aria-hidden="true">
      {names.map(([name, y]) => (
        <text key={y} x={-9 * px} y={y + 4 * px} fontSize={12 * px}>
          {name}
        </text>
      ))}
    </g>
  );
}

/** How far the cloth is needed and how much of it is bought, below it. */
function Ends({ strip, units, px }: { strip: Strip; units: Units; px: number }): ReactElement {
  const { plan, width, length, lettered, own } = strip;
  const y = (row: number): number => width + (20 + row * 18) * px;
  // where other cloth lies beside it, what is longer than the cloth begins where that begins
  const isShort = lettered > length;
  return (
    <g className={isShort ? 'cloth-ends short' : 'cloth-ends'}>
      <path className="needed-end" d={`M${plan.length} ${-8 * px}V${width + 10 * px}`} />
      <text className="needed-word" x={isShort ? 0 : plan.length} y={y(0)} fontSize={13 * px}>
        needed to here: {formatLength(plan.length, units)}
      </text>
      {own === null && (
        <text x={isShort ? 0 : length} y={y(1)} fontSize={13 * px}>
          bought: {sayAtCounter(plan.buy, units)}
          {strip.job.shrinkage > 0 && `, ${formatLength(length, units)} once washed`}
        </text>
      )}
    </g>
  );
}

/** Arrow, words and what is written at the end take more than this beside each other, pixels. */
const BESIDE_ENDS = 300;

/** One way: which way the pieces' tops lie. Below the cloth; where that is taken, before its beginning. */
function NapArrow({ strip: { width, length, own }, px }: { strip: Strip; px: number }): ReactElement {
  const isBeside = length >= BESIDE_ENDS * px;
  const isBefore = !isBeside && own === null;
  const x = isBefore ? -58 * px : 0;
  const y = isBefore ? width / 4 : width + (isBeside ? 16 : 38) * px;
  return (
    <g className="nap-arrow">
      <path d={`M${x} ${y}h${46 * px}m${-9 * px} ${-5 * px}l${9 * px} ${5 * px}l${-9 * px} ${5 * px}`} />
      <text x={isBefore ? x : 54 * px} y={y + (isBefore ? 18 : 4) * px} fontSize={12 * px}>
        one way
      </text>
    </g>
  );
}

/** A strip of cloth without the pieces: its edges, what of it is kept free, its fold, repeat, length marks and ends. */
export const ClothGround = memo(function ClothGround({
  strip,
  units,
  fill,
  scale,
}: {
  strip: Strip;
  units: Units;
  fill: string;
  /** Pixels per mm. */
  scale: number;
}): ReactElement {
  const hatch = useId();
  const px = 1 / scale;
  const { plan, job, width, length, isFolded, own } = strip;
  const outline = plan.within?.outline;
  const ground = { fill: `color-mix(in srgb, ${fill} 14%, var(--chalk))` };
  return (
    <g className="cloth-ground">
      <pattern
        id={hatch}
        width={7 * px}
        height={7 * px}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <path className="hatch" d={`M0 0V${7 * px}`} />
      </pattern>
      {outline && !isFolded ? (
        <polygon className="own-cloth" style={ground} points={outline.map((p) => p.join(',')).join(' ')} />
      ) : (
        <rect className="bought-cloth" style={ground} width={length} height={width} />
      )}
      <path className="repeat-lines" d={repeatLines(strip, px)} />
      {!outline && plan.length < length && (
        <rect className="beyond" x={plan.length} width={length - plan.length} height={width} />
      )}
      {job.margin > 0 && !outline && (
        <g fill={`url(#${hatch})`}>
          {!isFolded && <rect width={length} height={job.margin} />}
          <rect y={width - job.margin} width={length} height={job.margin} />
        </g>
      )}
      {!outline && (
        <path
          className="selvedges"
          d={isFolded ? `M0 ${width}H${length}` : `M0 0H${length}M0 ${width}H${length}`}
        />
      )}
      <LengthMarks strip={strip} units={units} px={px} />
      <EdgeNames strip={strip} px={px} />
      <Ends strip={strip} units={units} px={px} />
      {job.nap && <NapArrow strip={strip} px={px} />}
      {own !== null && (
        <text className="own-name" x={0} y={-34 * px} fontSize={15 * px}>
          Own cloth: {own}
        </text>
      )}
    </g>
  );
});

/** Where folded cloth is folded: drawn over the pieces that lie on it. */
export function FoldLine({
  strip: { plan, isFolded, width, length },
}: {
  strip: Strip;
}): ReactElement | null {
  if (plan.layering !== 'folded') return null;
  return <path className="fold-line" d={`M0 ${isFolded ? 0 : width / 2}H${length}`} />;
}
