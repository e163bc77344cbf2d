import { useContext, useState } from 'react';
import { sayProblem } from '../../pattern';
import { garmentOf, useBenchStore } from '../store/benchStore';
import { LayContext } from './RoomsContext';
import { giveFile } from './giveFile';
import { makeDesignFile, makeHandout, makePieces, makeSvg } from './makeFiles';

export type HandOutKind = 'pieces' | 'handout' | 'svg' | 'design';

/** Makes what is handed out and gives it to the browser's downloads; failures become a notice. */
export function useHandOut(): { make: (kind: HandOutKind) => Promise<boolean>; busy: HandOutKind | null } {
  const store = useBenchStore();
  const lays = useContext(LayContext);
  const [busy, setBusy] = useState<HandOutKind | null>(null);
  const make = async (kind: HandOutKind): Promise<boolean> => {
    setBusy(kind);
    try {
      const garment = garmentOf(store.getState());
      const makers = { pieces: makePieces, handout: makeHandout, svg: makeSvg, design: makeDesignFile };
      giveFile(await makers[kind](garment, lays));
      store.getState().set({ spoken: 'The file is in your downloads.', notice: null });
      return true;
    } catch (failure) {
      const why = failure instanceof Error ? failure.message : String(failure);
      const open = garmentOf(store.getState()).problems.filter((p) => p.code === 'line-ends-in-the-open');
      store.getState().set({
        notice: { tone: 'bad', title: 'This could not be made', lines: [why, ...open.map((p) => sayProblem(p, store.getState().doc.units))] },
      });
      return false;
    } finally {
      setBusy(null);
    }
  };
  return { make, busy };
}
