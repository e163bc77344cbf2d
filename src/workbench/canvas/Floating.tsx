import { useEffect, useRef, type ReactElement, type ReactNode } from 'react';
import type { Pt } from '../../geometry';
import type { PieceId } from '../../pattern';
import { garmentOf, useBenchStore } from '../store/benchStore';
import { layoutOf } from './layoutOf';
import { covered, useTable } from './tableControls';

/** Room that words beside a spot may need, pixels. */
const WORDS_WIDTH = 290;

type Side = 'left' | 'right';

/**
 * On which side of a spot words stand: where they are wanted, unless only the other side has room for them.
 * @param x of the spot, pixels
 * @param free from where to where the table is free, pixels
 */
export function sideWithRoom(x: number, wanted: Side, free: readonly [number, number]): Side {
  const room = { left: x - free[0] >= WORDS_WIDTH, right: free[1] - x >= WORDS_WIDTH };
  const other: Side = wanted === 'left' ? 'right' : 'left';
  return !room[wanted] && room[other] ? other : wanted;
}

/** Something of the page that hangs at a spot of the drawing and follows it as the table moves. */
export function Floating({
  piece,
  at,
  className,
  wanted = 'right',
  children,
}: {
  piece: PieceId;
  at: Pt;
  className: string;
  /** On which side of the spot it stands if there is room. */
  wanted?: Side;
  children: ReactNode;
}): ReactElement {
  const store = useBenchStore();
  const { board } = useTable();
  const box = useRef<HTMLDivElement>(null);
  const [x, y] = at;
  useEffect(() => {
    const place = (): void => {
      const [dx, dy] = layoutOf(garmentOf(store.getState())).shift.get(piece) ?? [0, 0];
      const px = board?.toScreen([x + dx, y + dy]);
      if (!px || !box.current) return;
      box.current.style.transform = `translate(${px[0].toFixed(1)}px, ${px[1].toFixed(1)}px)`;
      box.current.dataset['side'] = sideWithRoom(px[0], wanted, [covered()[0], window.innerWidth]);
    };
    place();
    return board?.onView(place);
  }, [board, store, piece, x, y, wanted]);
  return (
    <div className={`floating ${className}`} ref={box}>
      {children}
    </div>
  );
}
