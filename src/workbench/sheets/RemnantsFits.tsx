import { useEffect, useRef, useState, type ReactElement } from 'react';
import { sayUnfitting, unfittingPanels, type LayJob } from '../../fabric';
import { FARTHEST_MOVE, fitByLine, nearlyFitting, type LineFit } from '../../garment/spots';
import { formatLength, type Design } from '../../pattern';
import { useBench, useBenchStore } from '../store/benchStore';

/** Longest stretch of looking before the screen is let do its work, ms. */
const SLICE = 12;

/** What was found for a design; null while it is looked for. */
interface Looked {
  readonly design: Design;
  readonly fits: readonly LineFit[] | null;
}

/** Look for lines in slices. @returns what leaves it off */
function look(design: Design, tell: (fits: readonly LineFit[]) => void): () => void {
  function* all(): Generator<undefined, readonly LineFit[]> {
    const out: LineFit[] = [];
    for (const number of nearlyFitting(design)) {
      yield;
      out.push(...(yield* fitByLine(design, number)));
    }
    return out;
  }
  const search = all();
  let timer = 0;
  const go = (): void => {
    const until = performance.now() + SLICE;
    while (performance.now() < until) {
      const next = search.next();
      if (next.done) return tell(next.value);
    }
    timer = window.setTimeout(go, 0);
  };
  timer = window.setTimeout(go, 0);
  return () => window.clearTimeout(timer);
}

/** Panels that fit none of one's own cloth, what is missing, and where to move a line so that they do. */
export function RemnantsFits({ jobs }: { jobs: readonly LayJob[] }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const [looked, setLooked] = useState<Looked | null>(null);
  const leaveOff = useRef<() => void>(() => undefined);
  useEffect(() => () => leaveOff.current(), []);
  const { units, remnants } = doc;
  const now = looked?.design === doc ? looked : null;
  const begin = (): void => {
    leaveOff.current();
    setLooked({ design: doc, fits: null });
    leaveOff.current = look(doc, (fits) => setLooked({ design: doc, fits }));
  };
  const take = (fit: LineFit): void => {
    store.getState().commit(`Move ${fit.label}`, (design) => (design === doc ? fit.design : design));
    store.getState().set({ spoken: `${fit.label} is moved; ${fit.number} fits “${fit.remnantName}” now.` });
  };
  const nearly = now ? jobs.flatMap((job) => unfittingPanels(job, remnants)) : [];
  const nameOf = (id: string): string => remnants.find((remnant) => remnant.id === id)?.name ?? '';
  return (
    <div className="remnant-fits" aria-live="polite">
      {!now && (
        <div className="actions">
          <button type="button" onClick={begin}>
            What fails to fit, and where to move a line
          </button>
        </div>
      )}
      {now && nearly.length === 0 && (
        <p className="note">Every panel fits one of them, if it has it to itself.</p>
      )}
      {now && nearly.length > 0 && (
        <ul className="unfitting">
          {nearly.map((misfit) => {
            const fits = now.fits?.filter(({ number }) => number === misfit.number) ?? [];
            return (
              <li key={`${misfit.number} ${misfit.cloth.remnant}`}>
                {sayUnfitting(misfit, nameOf(misfit.cloth.remnant), units)}
                {now.fits && fits.length === 0 && (
                  <span className="note">
                    No one line moved by up to {formatLength(FARTHEST_MOVE, units)} makes it fit.
                  </span>
                )}
                {fits.map((fit) => (
                  <button key={`${fit.label} ${fit.by}`} type="button" onClick={() => take(fit)}>
                    Move {fit.label} {formatLength(fit.by, units)}: {fit.number} then fits on “
                    {fit.remnantName}”
                  </button>
                ))}
              </li>
            );
          })}
        </ul>
      )}
      {now?.fits && now.fits.length > 0 && (
        <p className="note">
          A line that is moved changes the panels on both sides of it: look at what is bought then. Undo takes
          it back.
        </p>
      )}
      {now && nearly.length > 0 && now.fits === null && <p className="note">Looking for lines to move …</p>}
    </div>
  );
}
