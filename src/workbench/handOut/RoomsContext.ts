import { createContext, useContext, useEffect, useSyncExternalStore } from 'react';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { LayRoom, type LayState } from './layRoom';

export const LayContext = createContext<LayRoom>(new LayRoom());

/** The lay plans of what is on the table now; asking for them sets the planner to work. */
export function useLays(): readonly LayState[] {
  const room = useContext(LayContext);
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  useEffect(() => {
    void room.lay(garmentOf(store.getState()));
  }, [room, store, doc]);
  return useSyncExternalStore(
    (changed) => room.listen(changed),
    () => room.now(),
  );
}
