import { useMemo, type ReactElement } from 'react';
import { ownClothUses, type OwnClothUse } from '../../fabric';
import type { RemnantId } from '../../pattern';
import type { LayState } from '../handOut/layRoom';
import { useBench } from '../store/benchStore';
import { RemnantsAdd } from './RemnantsAdd';
import { RemnantsFits } from './RemnantsFits';
import { RemnantsRow } from './RemnantsRow';
import { Part } from './Sheet';

/** Pieces of cloth that one owns: laid on before any is bought. */
export default function RemnantsPart({ lays }: { lays: readonly LayState[] }): ReactElement {
  const { remnants, colours, units } = useBench((s) => s.doc);
  const uses = useMemo(() => {
    const out = new Map<RemnantId, OwnClothUse[]>();
    for (const { job, plan } of lays) {
      if (!plan) continue;
      for (const use of ownClothUses(job, plan, remnants))
        out.set(use.cloth.remnant, [...(out.get(use.cloth.remnant) ?? []), use]);
    }
    return out;
  }, [lays, remnants]);
  const jobs = lays.map(({ job }) => job).filter(({ colour }) => remnants.some((r) => r.colour === colour));
  return (
    <Part title="Cloth you have">
      <p className="note">
        Pieces left from other things are laid on first, and only the rest is bought. Give the part that can
        be used, washed, right side up, lengthwise grain along its length.
      </p>
      {remnants.length > 0 && (
        <ul className="remnants">
          {remnants.map((remnant) => (
            <RemnantsRow
              key={remnant.id}
              remnant={remnant}
              uses={uses.get(remnant.id) ?? []}
              job={lays.find(({ colour }) => colour === remnant.colour)?.job ?? null}
              colours={colours}
              units={units}
            />
          ))}
        </ul>
      )}
      {jobs.length > 0 && <RemnantsFits jobs={jobs} />}
      <RemnantsAdd colours={colours} units={units} />
    </Part>
  );
}
