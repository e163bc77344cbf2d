import type { ReactElement } from 'react';
import { widthOfEdge } from '../../garment';
import { flattenRing, pathBox } from '../../geometry';
import type { EdgeWork } from '../../neighbours';
import type { PanelledPiece } from '../../panels';
import { type ColourId, type Design, type Facing, formatLength } from '../../pattern';
import { Tick } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { addFacing, linePiece, removeFacing, sayFacing, sayLining } from '../store/extraEdits';
import { Part } from './Sheet';

function ClothField({
  label,
  value,
  doc,
  onChange,
}: {
  label: string;
  value: ColourId;
  doc: Design;
  onChange: (colour: ColourId) => void;
}): ReactElement {
  return (
    <label className="select-field">
      {label}
      <select value={value} onChange={(e) => onChange(e.target.value as ColourId)}>
        {doc.colours.map((c) => (
          <option key={c.id} value={c.id}>
            {c.name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A small true drawing of a piece in its cloth. */
function Preview({ piece, fill }: { piece: PanelledPiece; fill: string }): ReactElement {
  const { whole } = piece;
  const box = pathBox(whole.stitching);
  const points = flattenRing(whole.stitching)
    .map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`)
    .join(' ');
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  return (
    <svg
      className="extra-preview"
      viewBox={`${box.minX - w * 0.03} ${box.minY - h * 0.03} ${w * 1.06} ${h * 1.06}`}
      aria-hidden="true"
    >
      <polygon points={points} fill={fill} stroke="currentColor" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}

/** What lining and facings come to: each piece with its number, its cloth and its picture. */
function Pieces({ doc }: { doc: Design }): ReactElement | null {
  const store = useBenchStore();
  const { extras, plan } = garmentOf(store.getState());
  if (!extras) return null;
  return (
    <ul className="rows extras">
      {extras.pieces.map((piece) => {
        const [panel] = piece.panels;
        const cloth = doc.colours.find((c) => c.id === panel?.colour);
        return (
          <li key={piece.whole.piece.id}>
            <Preview piece={piece} fill={cloth?.fill ?? 'none'} />
            <span>
              {panel && `${plan.numbers.get(panel.id)}. `}
              {piece.whole.name}
              <em>{cloth?.name}</em>
            </span>
          </li>
        );
      })}
    </ul>
  );
}

function FacingRow({ facing, doc }: { facing: Facing; doc: Design }): ReactElement {
  const { commit } = useBenchStore().getState();
  const name = `${doc.pieces.find((p) => p.id === facing.piece)?.name ?? ''}, ${facing.edge}`;
  return (
    <li className="card">
      <p>{name}</p>
      <LengthField
        label="Depth"
        value={facing.depth}
        units={doc.units}
        least={10}
        most={400}
        onChange={(depth) => commit('Change the depth of a facing', sayFacing(facing, { depth }))}
      />
      <ClothField
        label="Cloth"
        value={facing.colour}
        doc={doc}
        onChange={(colour) => commit('Choose the cloth of a facing', sayFacing(facing, { colour }))}
      />
      <div className="actions">
        <button
          type="button"
          className="warn"
          aria-label={`No facing for ${name}`}
          onClick={() => commit('Take a facing out', removeFacing(facing))}
        >
          Take it out
        </button>
      </div>
    </li>
  );
}

/** Edges that may have a facing: those that are sewn to nothing, and have none. */
function useFreeEdges(doc: Design): readonly EdgeWork[] {
  const { neighbours } = garmentOf(useBenchStore().getState());
  return [...neighbours.jobs.edges.values()].flatMap((works) =>
    works.filter(
      (w, i) =>
        w.joined.length === 0 &&
        w.job.kind !== 'fold' &&
        works.findIndex((o) => o.plainName === w.plainName) === i &&
        !doc.facings.some((f) => f.piece === w.piece && f.edge === w.plainName),
    ),
  );
}

function NewFacing({ doc }: { doc: Design }): ReactElement | null {
  const store = useBenchStore();
  const garment = garmentOf(store.getState());
  const free = useFreeEdges(doc);
  if (free.length === 0) return null;
  const nameOf = (w: EdgeWork): string =>
    `${garment.neighbours.wholes.get(w.piece)!.name}, ${w.plainName} (${formatLength(widthOfEdge(w, doc, garment.neighbours), doc.units)} allowance)`;
  return (
    <label className="select-field">
      A facing for
      <select
        value=""
        onChange={(e) => {
          const work = free[Number(e.target.value)];
          if (work) store.getState().commit('Add a facing', addFacing(work.piece, work.plainName));
        }}
      >
        <option value="">choose an edge …</option>
        {free.map((w, i) => (
          <option key={`${w.piece} ${w.plainName}`} value={i}>
            {nameOf(w)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Lining and facings: which pieces and edges, in which cloth, and what comes of it. */
export default function ExtrasPart(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const { lining } = doc;
  return (
    <Part title="Lining and facings" id="extras">
      <p className="note">
        Cut from the pieces as they were before slicing. Darts in a lining may be pleats.
      </p>
      {doc.pieces.map((piece) => (
        <Tick
          key={piece.id}
          label={`Line ${piece.name}`}
          on={lining?.pieces.includes(piece.id) ?? false}
          onChange={(on) =>
            commit(on ? `Line ${piece.name}` : `Do not line ${piece.name}`, linePiece(piece.id, on))
          }
        />
      ))}
      {lining && (
        <>
          <ClothField
            label="Cloth of the lining"
            value={lining.colour}
            doc={doc}
            onChange={(colour) => commit('Choose the cloth of the lining', sayLining({ colour }))}
          />
          <LengthField
            label="Shorter at the hem by"
            value={lining.shorter}
            units={doc.units}
            most={300}
            onChange={(shorter) => commit('Change the length of the lining', sayLining({ shorter }))}
          />
        </>
      )}
      <NewFacing doc={doc} />
      {doc.facings.length > 0 && (
        <ul className="rows">
          {doc.facings.map((facing) => (
            <FacingRow key={`${facing.piece} ${facing.edge}`} facing={facing} doc={doc} />
          ))}
        </ul>
      )}
      <Pieces doc={doc} />
    </Part>
  );
}
