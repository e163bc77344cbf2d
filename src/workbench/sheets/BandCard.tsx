import type { ReactElement } from 'react';
import { bandAround } from '../../lines';
import type { PanelLine } from '../../pattern';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { bandDepth, sewBandRound } from '../store/bandEdits';
import { useBench, useBenchStore } from '../store/benchStore';
import { lineOf } from '../store/lineEdits';
import { BAND_ORDERS } from './BandOnHem';

/** The depth of the band a line belongs to, and how it is sewn; nothing for any other line. */
export function BandCard({ line }: { line: PanelLine }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const around = bandAround(doc, lineOf(doc, line.id) ?? line);
  const own = around.find((b) => b.line === line.id);
  if (!own) return null;
  const isRound = doc.sewing.inTheRound.includes(line.id);
  return (
    <>
      <LengthField
        label={around.length > 1 ? 'Depth of the whole band' : 'Depth of the band'}
        value={own.depth}
        units={doc.units}
        least={5}
        most={600}
        onChange={(mm) => {
          const before = store.getState().doc;
          commit('Change the depth of a band', bandDepth(line.id, mm));
          return store.getState().doc !== before;
        }}
      />
      <Choice
        label="How the band is sewn"
        quiet
        options={BAND_ORDERS}
        value={isRound ? 'round' : 'flat'}
        onChoose={(how) => commit('Change how a band is sewn', sewBandRound(line.id, how === 'round'))}
      />
    </>
  );
}
