import { createContext, useContext, useEffect, useSyncExternalStore } from 'react';
import { garmentOf, useBench, useBenchStore, type BenchStore } from '../store/benchStore';
import { LayRoom, type LayState } from './layRoom';

export const LayContext = createContext<LayRoom>(new LayRoom());

/**
 * From now until something is changed the planner may go on unseen: one looks elsewhere and comes back. After that its cores are wanted for
 * what is being changed.
 */
function untilChanged(room: LayRoom, store: BenchStore): void {
  const { doc } = store.getState();
  const stop = store.subscribe((now) => {
    if (now.doc === doc && !now.draft) return;
    stop();
    room.putAway();
  });
}

/** The lay plans of what is on the table now; asking for them sets the planner to work. */
export function useLays(): readonly LayState[] {
  const room = useContext(LayContext);
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  useEffect(() => {
    void room.lay(garmentOf(store.getState()));
    return () => untilChanged(room, store);
  }, [room, store, doc]);
  return useSyncExternalStore(
    (changed) => room.listen(changed),
    () => room.now(),
  );
}
