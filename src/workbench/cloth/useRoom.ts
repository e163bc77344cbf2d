import { useEffect, useState, type RefObject } from 'react';
import type { Pt } from '../../geometry';
import { useBench } from '../store/benchStore';
import { roomForCloth } from './useClothView';

/** A laptop's, until it is measured, pixels. */
const USUAL: Pt = [880, 560];

/** Pixels there are for the cloth, as the window and the sheet leave them. */
export function useRoom(holder: RefObject<HTMLElement | null>): Pt {
  const sheetOpen = useBench((s) => s.sheetOpen);
  const [room, setRoom] = useState(USUAL);
  useEffect(() => {
    const element = holder.current!;
    const measure = (): void => {
      const { clientWidth, clientHeight } = element;
      if (!clientWidth || !clientHeight) return;
      const next = roomForCloth(clientWidth, clientHeight);
      setRoom((now) => (now[0] === next[0] && now[1] === next[1] ? now : next));
    };
    // when the sheet stands or is gone
    const frame = requestAnimationFrame(measure);
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => {
      cancelAnimationFrame(frame);
      watch.disconnect();
    };
  }, [holder, sheetOpen]);
  return room;
}
