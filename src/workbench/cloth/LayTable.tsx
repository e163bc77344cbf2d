import { useCallback, useMemo, useRef, useState, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import { Choice } from '../parts/Choice';
import type { LayState } from '../handOut/layRoom';
import { useLays } from '../handOut/RoomsContext';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { LaidCloth } from './LaidCloth';
import { pieceWords } from './pieceWords';
import { boxOfStrips, shownLay, stripsOf, type LayLook, type ShownPiece, type Strip } from './strips';
import { useClothView } from './useClothView';
import { useRoom } from './useRoom';
import { WhereItSits } from './WhereItSits';

/** Which cloth lies here, and how it is looked at. */
function LayChoices({
  lays,
  shown,
  look,
  onLook,
}: {
  lays: readonly LayState[];
  shown: LayState | undefined;
  look: LayLook;
  onLook: (look: LayLook) => void;
}): ReactElement {
  const store = useBenchStore();
  const colours = useBench((s) => s.doc.colours);
  const isFolded = shown?.plan?.bought.layering === 'folded';
  return (
    <div className="lay-choices">
      {lays.length > 1 && (
        <div className="lay-tabs" role="group" aria-label="Cloth on the table">
          {lays.map(({ colour, job }) => (
            <button
              key={colour}
              type="button"
              aria-pressed={colour === shown?.colour}
              onClick={() => store.getState().set({ shownCloth: colour })}
            >
              <span className="chip" style={{ background: colours.find((c) => c.id === colour)?.fill }} />
              {job.colourName}
            </button>
          ))}
        </div>
      )}
      {isFolded && (
        <Choice<LayLook>
          label="Folded cloth is shown"
          quiet
          options={[
            ['opened out', 'opened out'],
            ['as it lies', 'as it lies'],
          ]}
          value={look}
          onChoose={onLook}
        />
      )}
    </div>
  );
}

/** Why a piece's paper lies printed side down. */
function sayFaceDown(strips: readonly Strip[]): string {
  if (strips.some(({ isFolded }) => isFolded))
    return 'paper printed side down: the cloth’s wrong side is up';
  if (strips.some(({ plan }) => plan.layering === 'folded'))
    return 'mirrored: the folded cloth’s other layer';
  return 'mirrored: lay its paper printed side down';
}

/** What the signs on the pieces mean: only those that are there. */
function Signs({ strips }: { strips: readonly Strip[] }): ReactElement | null {
  const pieces = strips.flatMap((strip) => strip.pieces);
  const faceDown = pieces.find((p) => p.isFaceDown);
  const signs = [
    faceDown && { sign: `${faceDown.laid.number}`, bar: true, words: sayFaceDown(strips) },
    pieces.some((p) => p.laid.offGrain > 0) && {
      sign: '⤢',
      bar: false,
      words: 'off its grain: try a scrap first',
    },
  ].filter((sign) => sign !== false && sign !== undefined);
  if (signs.length === 0) return null;
  return (
    <ul className="lay-signs">
      {signs.map(({ sign, bar, words }) => (
        <li key={words}>
          <span className={bar ? 'sign barred' : 'sign'}>{sign}</span> {words}
        </li>
      ))}
    </ul>
  );
}

/** What a piece is, and where it sits in the garment. */
function PieceSlip({
  shown,
  garment,
  fill,
}: {
  shown: ShownPiece;
  garment: Garment;
  fill: string;
}): ReactElement | null {
  const words = pieceWords(garment, shown.laid);
  if (!words) return null;
  return (
    <div className="piece-slip">
      <WhereItSits garment={garment} panel={words.panel} fill={fill} />
      <p>
        <strong>{words.name}</strong>
        {words.how.map((line) => (
          <em key={line}>{line}</em>
        ))}
      </p>
    </div>
  );
}

const keyAt = (x: number, y: number): string | null =>
  x < 0
    ? null
    : (document.elementFromPoint(x, y)?.closest<HTMLElement>('[data-piece]')?.dataset['piece'] ?? null);

/** The lay plan of one cloth, large in the middle of the bench. */
export function LayTable(): ReactElement {
  const store = useBenchStore();
  const lays = useLays();
  const doc = useBench((s) => s.doc);
  const shownCloth = useBench((s) => s.shownCloth);
  const chosen = useBench((s) => (s.selected?.kind === 'panel' ? s.selected.panel : null));
  const garment = garmentOf(store.getState());
  const [look, setLook] = useState<LayLook>('opened out');
  const [pointed, setPointed] = useState<string | null>(null);
  const [onIt, setOnIt] = useState(false);
  const [reached, setReached] = useState<string | null>(null);
  const holder = useRef<HTMLDivElement>(null);

  const lay = shownLay(lays, shownCloth);
  const { plan, job } = lay ?? {};
  const room = useRoom(holder);
  const strips = useMemo(
    () => (lay ? stripsOf(lay, look, doc.remnants, room) : []),
    // only what is drawn of it: not its progress
    [plan, job, look, doc.remnants, room], // eslint-disable-line
  );
  const all = strips.flatMap((strip) =>
    strip.pieces.map((shown) => ({ key: `${strip.key} ${shown.key}`, shown })),
  );
  const find = (key: string | null): ShownPiece | null => all.find((one) => one.key === key)?.shown ?? null;

  const choose = useCallback(
    (shown: ShownPiece): void => {
      const words = pieceWords(garment, shown.laid);
      if (!words) return;
      const { selected } = store.getState();
      const isChosen = selected?.kind === 'panel' && selected.panel === words.panel.id;
      store.getState().set({ selected: isChosen ? null : { kind: 'panel', panel: words.panel.id } });
    },
    [garment, store],
  );
  const view = useClothView(holder, boxOfStrips(strips), {
    point: (x, y) => setPointed(keyAt(x, y)),
    tap: (x, y) => {
      const shown = find(keyAt(x, y));
      if (shown) choose(shown);
      else store.getState().set({ selected: null });
    },
  });

  const walk = (from: string, step: 1 | -1): void => {
    const now = all.findIndex(({ key }) => key === from);
    const next = all[(now + step + all.length) % all.length]!;
    const pieces = holder.current?.querySelectorAll<SVGElement>('[data-piece]') ?? [];
    [...pieces].find(({ dataset }) => dataset['piece'] === next.key)?.focus();
  };
  const reach = (key: string, isOn: boolean): void => {
    setOnIt(isOn);
    if (isOn) setReached(key);
  };

  const fill = doc.colours.find(({ id }) => id === lay?.colour)?.fill ?? '#e9dfce';
  const reachable = all.some(({ key }) => key === reached) ? reached : (all[0]?.key ?? null);
  const selectedPiece = all.find(({ shown }) => pieceWords(garment, shown.laid)?.panel.id === chosen)?.shown;
  const told = find(pointed) ?? (onIt ? find(reached) : null) ?? selectedPiece ?? null;
  return (
    <div className="lay-table">
      <div className="lay-holder" ref={holder}>
        <svg
          className="lay-plan"
          role="group"
          aria-label={lay ? `Lay plan of ${lay.job.colourName}` : 'Lay plan'}
        >
          <desc>The pieces as they lie. Arrow keys go from one to the next, Enter chooses one.</desc>
          <g transform={`translate(${view.x} ${view.y}) scale(${view.scale})`}>
            {strips.map((strip) => (
              <LaidCloth
                // another cloth, or another look at it, is another drawing: pieces move from plan to plan only
                key={`${lay!.colour} ${strip.key} ${look}`}
                strip={strip}
                looks={{
                  garment,
                  fill,
                  units: doc.units,
                  scale: view.scale,
                  pointed,
                  reached: reachable,
                  chosen,
                }}
                hands={{ onReach: reach, onWalk: walk, onChoose: choose }}
              />
            ))}
          </g>
        </svg>
      </div>
      {strips.length === 0 && (
        <p className="lay-empty">
          {lay?.plan ? 'There is no way to lay these pieces on this cloth.' : 'Laying the pieces …'}
        </p>
      )}
      <LayChoices lays={lays} shown={lay} look={look} onLook={setLook} />
      {told && <PieceSlip shown={told} garment={garment} fill={fill} />}
      <Signs strips={strips} />
    </div>
  );
}
