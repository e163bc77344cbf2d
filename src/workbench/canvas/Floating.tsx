import { useEffect, useRef, type ReactElement, type ReactNode } from 'react';
import type { Pt } from '../../geometry';
import type { PieceId } from '../../pattern';
import { garmentOf, useBenchStore } from '../store/benchStore';
import { layoutOf } from './layoutOf';
import { useTable } from './tableControls';

/** Room that words beside a spot may need, pixels; nearer to the right end of the screen they stand on its left. */
const WORDS_WIDTH = 290;

/** Something of the page that hangs at a spot of the drawing and follows it as the table moves. */
export function Floating({
  piece,
  at,
  className,
  children,
}: {
  piece: PieceId;
  at: Pt;
  className: string;
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
      box.current.dataset['side'] = px[0] > window.innerWidth - WORDS_WIDTH ? 'left' : 'right';
    };
    place();
    return board?.onView(place);
  }, [board, store, piece, x, y]);
  return (
    <div className={`floating ${className}`} ref={box}>
      {children}
    </div>
  );
}
