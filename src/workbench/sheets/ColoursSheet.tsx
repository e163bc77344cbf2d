import { lazy, Suspense, useCallback, type ReactElement } from 'react';
import type { Panel } from '../../panels';
import type { Colour } from '../../pattern';
import { dabbed } from '../hands/colourHand';
import { counted } from '../drawing/words';
import { Tick } from '../parts/Choice';
import { ColourField } from '../parts/ColourField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { addColour, changeColour, freshColour, recolour } from '../store/colourEdits';
import { paintPanels } from '../store/paintPanels';
import { ClothCard } from './ClothCard';
import { Part, Sheet } from './Sheet';

const ExtrasPart = lazy(() => import('./ExtrasPart'));
const TrimsPart = lazy(() => import('./TrimsPart'));

/** The chosen panel, if it is still there. */
function useChosenPanel(): Panel | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const selected = useBench((s) => s.selected);
  return selected?.kind === 'panel'
    ? (garmentOf(store.getState()).panelById.get(selected.panel) ?? null)
    : null;
}

function ClothRow({ colour, count }: { colour: Colour; count: number }): ReactElement {
  const store = useBenchStore();
  const held = useBench((s) => s.held);
  const chosen = useChosenPanel();
  const inHand = held === colour.id;
  const shownFill = useBench((s) => s.draft?.colours.find(({ id }) => id === colour.id)?.fill ?? colour.fill);
  const { set, commit, preview } = store.getState();
  const onChoose = useCallback(
    (fill: string) => commit(`Change the colour of ${colour.name}`, recolour(colour.id, fill)),
    [commit, colour.id, colour.name],
  );
  const take = (): void => {
    if (chosen === null || held !== null) return set({ held: inHand ? null : colour.id });
    const { bothSides } = store.getState();
    const piece = garmentOf(store.getState()).pieceById.get(chosen.piece)!;
    commit(`Colour a panel ${colour.name}`, paintPanels(dabbed(piece, chosen, bothSides), colour.id));
  };
  const word = inHand
    ? 'in hand: click panels'
    : chosen && held === null
      ? 'give it to the chosen panel'
      : counted(count, 'panel');
  return (
    <li className={inHand ? 'chosen' : undefined}>
      <div className="cloth-row">
        <ColourField
          label={`Change the colour of ${colour.name}`}
          value={shownFill}
          onLook={(fill) => preview(changeColour(colour.id, { fill }))}
          onChoose={onChoose}
        />
        <button type="button" className="row-button" aria-pressed={inHand} onClick={take}>
          <span>
            {colour.name}
            <em>{word}</em>
          </span>
        </button>
      </div>
      {inHand && <ClothCard colour={colour} />}
    </li>
  );
}

function PanelRows(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const selected = useBench((s) => s.selected);
  const bothSides = useBench((s) => s.bothSides);
  const garment = garmentOf(store.getState());
  return (
    <ol className="rows panels">
      {garment.panels
        .filter((p) => !garment.extras?.pieceById.has(p.piece))
        .map((panel) => {
          const piece = garment.pieceById.get(panel.piece)!;
          const number = garment.plan.numbers.get(panel.id);
          const chosen = selected?.kind === 'panel' && selected.panel === panel.id;
          return (
            <li key={panel.id} className={chosen ? 'chosen panel-row' : 'panel-row'}>
              <button
                type="button"
                className="row-button"
                aria-pressed={chosen}
                onClick={() =>
                  store.getState().set({ selected: chosen ? null : { kind: 'panel', panel: panel.id } })
                }
              >
                <span className="row-number">{number}</span>
                <span>{piece.whole.name}</span>
              </button>
              <select
                aria-label={`Cloth of panel ${number}`}
                value={panel.colour}
                onChange={(e) =>
                  store
                    .getState()
                    .commit(
                      'Colour a panel',
                      paintPanels(dabbed(piece, panel, bothSides), e.target.value as Colour['id']),
                    )
                }
              >
                {doc.colours.map((c) => (
                  <option key={c.id} value={c.id}>
                    {c.name}
                  </option>
                ))}
              </select>
            </li>
          );
        })}
    </ol>
  );
}

/** Cloths, and which panel is cut from which. */
export function ColoursSheet(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const bothSides = useBench((s) => s.bothSides);
  const garment = garmentOf(store.getState());
  const count = (colour: Colour): number => garment.panels.filter((p) => p.colour === colour.id).length;
  return (
    <Sheet
      title="Colour the panels"
      lead="Take a cloth in hand, then click the panels that are to be cut from it. Panels keep their colour when lines move."
    >
      <Part title="Cloths">
        <ul className="rows">
          {doc.colours.map((colour) => (
            <ClothRow key={colour.id} colour={colour} count={count(colour)} />
          ))}
        </ul>
        <button
          type="button"
          onClick={() => {
            const colour = freshColour(doc);
            store.getState().commit('Add a cloth', addColour(colour));
            store.getState().set({ held: colour.id });
          }}
        >
          Add a cloth
        </button>
        {garment.pieces.some(({ whole }) => whole.unfolded) && (
          <Tick
            label="Both sides alike"
            note="A panel’s mirrored twin takes the same cloth."
            on={bothSides}
            onChange={(on) => store.getState().set({ bothSides: on })}
          />
        )}
      </Part>
      <Suspense fallback={null}>
        <TrimsPart />
      </Suspense>
      <Part title="Panels">
        <PanelRows />
      </Part>
      <Suspense fallback={null}>
        <ExtrasPart />
      </Suspense>
    </Sheet>
  );
}
