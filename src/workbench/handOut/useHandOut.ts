import { useContext, useState } from 'react';
import { sayProblem } from '../../pattern';
import { garmentOf, useBenchStore } from '../store/benchStore';
import { counted } from '../drawing/words';
import { LayContext } from './RoomsContext';
import { giveFile } from './giveFile';
import { makeDesignFile, makeHandout, makeLayPlans, makePieces, makeSvg } from './makeFiles';

export type HandOutKind = 'pieces' | 'handout' | 'lays' | 'svg' | 'design';

/** Makes what is handed out and gives it to the browser's downloads. `make` answers a word on it, or null when it failed: then there is a notice. */
export function useHandOut(): {
  make: (kind: HandOutKind) => Promise<string | null>;
  busy: HandOutKind | null;
} {
  const store = useBenchStore();
  const lays = useContext(LayContext);
  const [busy, setBusy] = useState<HandOutKind | null>(null);
  const make = async (kind: HandOutKind): Promise<string | null> => {
    setBusy(kind);
    try {
      const garment = garmentOf(store.getState());
      const makers = {
        pieces: makePieces,
        handout: makeHandout,
        lays: makeLayPlans,
        svg: makeSvg,
        design: makeDesignFile,
      };
      const file = await makers[kind](garment, lays);
      giveFile(file);
      const note = `in your downloads${file.pages ? `: ${counted(file.pages, 'page')}` : ''}`;
      store.getState().set({ spoken: `${file.name} is ${note}.`, notice: null });
      return note;
    } catch (failure) {
      const why = failure instanceof Error ? failure.message : String(failure);
      const open = garmentOf(store.getState()).problems.filter((p) => p.code === 'line-ends-in-the-open');
      store.getState().set({
        notice: {
          tone: 'bad',
          title: 'This could not be made',
          lines: [why, ...open.map((p) => sayProblem(p, store.getState().doc.units))],
        },
      });
      return null;
    } finally {
      setBusy(null);
    }
  };
  return { make, busy };
}
