import { useRef, useState, type KeyboardEvent, type PointerEvent, type ReactElement } from 'react';
import type { Polyline, Pt } from '../../geometry';
import { formatLength, type Units } from '../../pattern';
import { LengthField } from '../parts/LengthField';
import {
  boardFor,
  cornerMoved,
  cornersFault,
  GRID,
  SNAP,
  snapped,
  withCorner,
  withoutCorner,
} from './remnantCorners';

const ARROWS: Readonly<Record<string, Pt>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Farthest coordinate that may be typed, mm. */
const FARTHEST = 20_000;

const lines = (end: number, step: number): number[] =>
  Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, i) => i * step);

const say = ([x, y]: Pt, units: Units): string =>
  `${formatLength(x, units)} along, ${formatLength(y, units)} across`;

interface BoardHands {
  readonly corners: Polyline;
  readonly onCorners: (corners: Polyline) => void;
  readonly onSpoken: (words: string) => void;
}

/** The board itself: press to set a corner, drag one to move it; by keys a mark is moved and set. */
function Board({ corners, onCorners, onSpoken, units }: BoardHands & { units: Units }): ReactElement {
  const svg = useRef<SVGSVGElement>(null);
  const [mark, setMark] = useState<Pt>([0, 0]);
  const [held, setHeld] = useState<number | null>(null);
  const [isByKeys, setByKeys] = useState(false);
  const [length, width] = boardFor(corners, units);
  const px = length / 320;

  const placeOf = (e: PointerEvent): Pt => {
    const box = svg.current!.getBoundingClientRect();
    const on: Pt = [
      ((e.clientX - box.left) / box.width) * length,
      ((e.clientY - box.top) / box.height) * width,
    ];
    return snapped(on, units);
  };
  const cornerAt = (p: Pt): number =>
    corners.findIndex(([x, y]) => Math.hypot(x - p[0], y - p[1]) <= Math.max(SNAP[units], 9 * px));
  const set = (p: Pt): void => {
    const again = corners.findIndex(([x, y]) => x === p[0] && y === p[1]);
    if (again >= 0) return onSpoken('There is a corner already.');
    onCorners(withCorner(corners, p));
    onSpoken(`Corner ${corners.length + 1}: ${say(p, units)}.`);
  };
  const onKey = (e: KeyboardEvent): void => {
    const arrow = ARROWS[e.key];
    const isTaking = e.key === 'Backspace' || e.key === 'Delete';
    if (!arrow && e.key !== 'Enter' && e.key !== ' ' && !isTaking) return;
    e.preventDefault();
    e.stopPropagation();
    setByKeys(true);
    if (arrow) {
      const step = SNAP[units] * (e.shiftKey ? 10 : 1);
      const next = snapped([mark[0] + arrow[0] * step, mark[1] + arrow[1] * step], units);
      setMark(next);
      onSpoken(say(next, units));
    } else if (isTaking) {
      if (corners.length === 0) return;
      onCorners(withoutCorner(corners, corners.length - 1));
      onSpoken(`Corner ${corners.length} is taken away.`);
    } else set(mark);
  };
  const points = corners.map((p) => p.join(',')).join(' ');

  return (
    <button
      type="button"
      className="remnant-board"
      aria-label="Board for the corners. Arrow keys move the mark, with Shift ten steps; Enter sets a corner, Backspace takes the last one away."
      onKeyDown={onKey}
      onBlur={() => setByKeys(false)}
      onPointerDown={(e) => {
        if (e.button !== 0) return;
        const p = placeOf(e);
        const near = cornerAt(p);
        if (near < 0) set(p);
        setHeld(near < 0 ? corners.length : near);
        e.currentTarget.setPointerCapture(e.pointerId);
      }}
      onPointerMove={(e) => {
        const p = placeOf(e);
        setMark(p);
        if (held !== null && held < corners.length) onCorners(cornerMoved(corners, held, p));
      }}
      onPointerUp={() => setHeld(null)}
      onPointerCancel={() => setHeld(null)}
    >
      <svg ref={svg} viewBox={`0 0 ${length} ${width}`} aria-hidden="true">
        <g className="board-grid" strokeWidth={px * 0.6}>
          {lines(length, GRID[units]).map((x) => (
            <path key={`x${x}`} d={`M${x} 0V${width}`} />
          ))}
          {lines(width, GRID[units]).map((y) => (
            <path key={`y${y}`} d={`M0 ${y}H${length}`} />
          ))}
        </g>
        {corners.length > 2 && <polygon className="remnant-cloth" points={points} strokeWidth={px * 1.6} />}
        {corners.length === 2 && <polyline className="board-line" points={points} strokeWidth={px * 1.6} />}
        {corners.map(([x, y], i) => (
          <g key={i}>
            <circle className="board-corner" cx={x} cy={y} r={px * 5} />
            <text x={x + px * 8} y={y + px * 14} fontSize={px * 12}>
              {i + 1}
            </text>
          </g>
        ))}
        {isByKeys && (
          <path
            className="board-mark"
            strokeWidth={px * 2}
            d={`M${mark[0] - px * 10} ${mark[1]}h${px * 20}M${mark[0]} ${mark[1] - px * 10}v${px * 20}`}
          />
        )}
      </svg>
    </button>
  );
}

/** Draw a piece of cloth by its corners: on a board, or by their numbers. */
export function RemnantsBoard({
  start,
  units,
  done,
  onDone,
  onLeave,
  onSpoken,
}: {
  start: Polyline;
  units: Units;
  /** The button's words. */
  done: string;
  onDone: (corners: Polyline) => void;
  onLeave: () => void;
  onSpoken: (words: string) => void;
}): ReactElement {
  const [corners, setCorners] = useState<Polyline>(start);
  const fault = cornersFault(corners);
  const part = (i: number, p: Pt): void => setCorners(cornerMoved(corners, i, p));
  return (
    <div className="remnant-drawn">
      <p className="note">
        Press where the corners are, in order round the cloth; they snap to whole{' '}
        {units === 'cm' ? 'centimetres' : 'half inches'}. The lengthwise grain runs from left to right, a line
        every {formatLength(GRID[units], units)}.
      </p>
      <Board corners={corners} units={units} onCorners={setCorners} onSpoken={onSpoken} />
      {corners.length > 0 && (
        <ol className="corner-list">
          {corners.map(([x, y], i) => (
            <li key={i}>
              <span aria-hidden="true">{i + 1}</span>
              <LengthField
                label={`Corner ${i + 1}, along`}
                quiet
                value={x}
                units={units}
                most={FARTHEST}
                onChange={(along) => part(i, [along, y])}
              />
              <LengthField
                label={`Corner ${i + 1}, across`}
                quiet
                value={y}
                units={units}
                most={FARTHEST}
                onChange={(across) => part(i, [x, across])}
              />
              <button
                type="button"
                className="plain"
                aria-label={`Take corner ${i + 1} away`}
                onClick={() => setCorners(withoutCorner(corners, i))}
              >
                Take away
              </button>
            </li>
          ))}
        </ol>
      )}
      {corners.length > 2 && fault && <p className="field-wrong">{fault}</p>}
      <div className="actions">
        <button type="button" className="strong" disabled={fault !== null} onClick={() => onDone(corners)}>
          {done}
        </button>
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </div>
  );
}
