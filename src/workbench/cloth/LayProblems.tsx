import type { ReactElement } from 'react';
import { cutTogether, type Garment } from '../../garment';
import type { Panel } from '../../panels';
import { formatLength, sayInTwo, severityOf, type Colour, type Problem } from '../../pattern';
import { showPlace, useTable, type TableControls } from '../canvas/tableControls';
import { garmentOf, useBenchStore, type BenchStore } from '../store/benchStore';
import { giveLeave } from '../store/clothEdits';
import { changeColour } from '../store/colourEdits';

/** One thing that can be done about a problem. */
interface Cure {
  readonly words: string;
  readonly act: () => void;
  /** It helps every panel of the cloth alike: offered once. */
  readonly once?: boolean;
}

const panelOf = (garment: Garment, number: number): Panel | undefined =>
  garment.panels.find(({ id }) => garment.plan.numbers.get(id) === number);

function toItsLines(store: BenchStore, table: TableControls, panel: Panel): void {
  store.getState().set({ place: 'lines', sheetOpen: true, selected: { kind: 'panel', panel: panel.id } });
  // once the drawing is back in the middle
  requestAnimationFrame(() =>
    requestAnimationFrame(() => showPlace(table, store, panel.piece, panel.flat.at)),
  );
}

function curesOf(p: Problem, colour: Colour, store: BenchStore, table: TableControls): Cure[] {
  const { commit, doc } = store.getState();
  const change = (label: string, patch: Partial<Colour>): void =>
    commit(label, changeColour(colour.id, patch));
  const garment = garmentOf(store.getState());
  const said = (mm: number): string => formatLength(mm, doc.units);
  if (p.code === 'repeat-large')
    return [
      {
        words: 'Do not match it',
        act: () => change('Leave a print unmatched', { repeat: { along: 0, across: 0 } }),
      },
    ];
  if (p.code === 'laid-off-grain') {
    const panel = panelOf(garment, p.facts.panel);
    return panel
      ? [
          {
            words: 'Keep it on its grain',
            act: () => commit('Keep a panel on its grain', giveLeave(cutTogether(garment, panel), null)),
          },
        ]
      : [];
  }
  if (p.code !== 'panel-wider-than-cloth') return [];
  const { fitsAt, turned, unfolded, unmatched, interfacing } = p.facts;
  const panel = panelOf(garment, p.facts.panel);
  const cures: (Cure | false | null | undefined)[] = [
    unfolded && {
      words: 'Lay it in one layer',
      once: true,
      act: () => change('Lay a cloth in one layer', { layering: 'single' }),
    },
    unmatched && {
      words: 'Do not match across',
      once: true,
      act: () => change('Leave a print unmatched across', { repeat: { ...colour.repeat, across: 0 } }),
    },
    fitsAt !== null && {
      words: `Cloth ${said(fitsAt)} wide`,
      once: true,
      act: () => change('Take wider cloth', { width: fitsAt }),
    },
    panel &&
      turned !== null && {
        words: `Turn it ${turned}° off its grain`,
        act: () =>
          commit('Give a panel leave to lie off its grain', giveLeave(cutTogether(garment, panel), turned)),
      },
    panel && !interfacing && { words: 'Go to its lines', act: () => toItsLines(store, table, panel) },
  ];
  return cures.filter((cure): cure is Cure => Boolean(cure));
}

/** What is the matter with laying one cloth, and what can be done about it here. */
export function LayProblems({
  problems,
  colour,
}: {
  problems: readonly Problem[];
  colour: Colour;
}): ReactElement | null {
  const store = useBenchStore();
  const table = useTable();
  const { units } = store.getState().doc;
  if (problems.length === 0) return null;
  const offered = new Set<string>();
  const said = problems.map((p) => {
    // of cloth that is wider one offer is enough
    const cures = curesOf(p, colour, store, table).filter(
      ({ words, once }) => !once || (!offered.has(words) && offered.add(words)),
    );
    return { p, cures, ...sayInTwo(p, units) };
  });
  return (
    <ul className="trim-notes lay-problems">
      {said.map(({ p, cures, what, choices }, i) => (
        <li key={`${p.code} ${i}`} className={severityOf(p)}>
          <p className={severityOf(p) === 'error' ? 'field-wrong' : 'note'}>{what}</p>
          {choices && <p className="note">{choices}</p>}
          <div className="actions">
            {cures.map(({ words, act }) => (
              <button key={words} type="button" onClick={act}>
                {words}
              </button>
            ))}
          </div>
        </li>
      ))}
    </ul>
  );
}
