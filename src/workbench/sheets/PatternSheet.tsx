import type { ReactElement } from 'react';
import { distance, type Line } from '../../geometry';
import { formatLength, type Design, type Piece, type TracingKind } from '../../pattern';
import { useFiles } from '../bringIn/FilesContext';
import { counted } from '../drawing/words';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { TextField } from '../parts/TextField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { foldAlong, foldChoices } from '../store/claimEdits';
import {
  allowEdge,
  allowHems,
  allowNewSeams,
  cutPieceAs,
  renamePiece,
  takeTracingAs,
} from '../store/patternEdits';
import { LevelFields } from './LevelFields';
import { UnclaimedPart } from './UnclaimedPart';
import { Part, Sheet } from './Sheet';

/** Which straight edge of a half piece lies on the fold. */
function FoldField({ piece }: { piece: Piece }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const choices = foldChoices(piece);
  const now = choices.findIndex((line) => piece.fold !== null && sameStretch(line, piece.fold));
  if (choices.length === 0 || (piece.fold !== null && now < 0)) return null;
  return (
    <label className="select-field">
      Fold
      <select
        value={now}
        onChange={(e) =>
          store
            .getState()
            .commit('Choose the fold', foldAlong(piece.id, choices[Number(e.target.value)] ?? null))
        }
      >
        <option value={-1}>none: traced whole</option>
        {choices.map((line, i) => (
          <option key={i} value={i}>
            straight edge {i + 1}, {formatLength(distance(line[0], line[1]), doc.units)}
          </option>
        ))}
      </select>
    </label>
  );
}

const sameStretch = (a: Line, b: Line): boolean =>
  (distance(a[0], b[0]) < 0.1 && distance(a[1], b[1]) < 0.1) ||
  (distance(a[0], b[1]) < 0.1 && distance(a[1], b[0]) < 0.1);

function PieceRow({ piece }: { piece: Piece }): ReactElement {
  const store = useBenchStore();
  const files = useFiles();
  useBench((s) => s.doc);
  const { commit } = store.getState();
  const whole = garmentOf(store.getState()).pieceById.get(piece.id)?.whole;
  const parts = [
    whole?.unfolded ? 'half on the fold, opened out' : 'whole',
    whole?.darts.length ? counted(whole.darts.length, 'dart') : null,
    whole?.notches.length ? counted(whole.notches.length, 'notch', 'notches') : null,
    piece.levels.length > 0 ? counted(piece.levels.length, 'level') : null,
  ].filter((part) => part !== null);
  return (
    <li className="piece-row">
      <TextField
        label="Piece"
        quiet
        value={piece.name}
        onChange={(name) => commit('Rename a piece', renamePiece(piece.id, name))}
      />
      <em>{parts.join(' · ')}</em>
      <FoldField piece={piece} />
      <Choice
        label={`How often ${piece.name} is cut`}
        quiet
        options={[
          ['once', 'Cut once'],
          ['pair', 'Cut a pair'],
        ]}
        value={piece.cutting}
        onChoose={(cutting) => commit('Change how a piece is cut', cutPieceAs(piece.id, cutting))}
      />
      <LevelFields piece={piece} />
      <EdgeFields piece={piece} />
      <button type="button" className="another-size" onClick={() => files.bringSize(piece.id)}>
        Bring another size of this piece
      </button>
    </li>
  );
}

/** Allowances of single edges, over the general rule. */
function EdgeFields({ piece }: { piece: Piece }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { tracing, hem, edges } = doc.allowances;
  const whole = garmentOf(store.getState()).pieceById.get(piece.id)?.whole;
  if (!whole) return null;
  const names = [...new Map(whole.edges.map((edge) => [edge.plainName, edge.isHem])).entries()];
  const general = (isHem: boolean): number =>
    tracing.kind === 'cut' ? tracing.included : isHem ? hem : tracing.outer;
  return (
    <details className="about-cloth">
      <summary>Edges one by one</summary>
      <div className="fields">
        {names.map(([name, isHem]) => {
          const own = edges.find((e) => e.piece === piece.id && e.edge === name);
          return (
            <LengthField
              key={name}
              label={name}
              value={own?.width ?? general(isHem)}
              units={doc.units}
              most={200}
              onChange={(mm) =>
                store
                  .getState()
                  .commit(
                    `Change the allowance of ${name}`,
                    allowEdge(piece.id, name, Math.abs(mm - general(isHem)) < 1e-6 ? null : mm),
                  )
              }
            />
          );
        })}
      </div>
    </details>
  );
}

/** Usual allowance when a tracing changes its kind: what the other kind had. */
const otherKind = (now: TracingKind, kind: TracingKind['kind']): TracingKind => {
  const width = now.kind === 'net' ? now.outer : now.included;
  return kind === 'net' ? { kind, outer: width } : { kind, included: width };
};

function AllowancePart({ doc }: { doc: Design }): ReactElement {
  const store = useBenchStore();
  const { commit } = store.getState();
  const { tracing, newSeam, hem } = doc.allowances;
  return (
    <Part title="Allowances">
      <Choice
        label="The traced outline is"
        options={[
          ['net', 'the stitching line'],
          ['cut', 'the cutting line'],
        ]}
        value={tracing.kind}
        onChoose={(kind) => commit('Say what the outline is', takeTracingAs(otherKind(tracing, kind)))}
      />
      <div className="fields">
        {tracing.kind === 'net' ? (
          <LengthField
            label="Added all round"
            value={tracing.outer}
            units={doc.units}
            most={100}
            onChange={(outer) => commit('Change the outer allowance', takeTracingAs({ kind: 'net', outer }))}
          />
        ) : (
          <LengthField
            label="Already inside it"
            value={tracing.included}
            units={doc.units}
            most={100}
            onChange={(included) =>
              commit('Change the included allowance', takeTracingAs({ kind: 'cut', included }))
            }
          />
        )}
        <LengthField
          label="Both sides of new seams"
          value={newSeam}
          units={doc.units}
          most={100}
          onChange={(mm) => commit('Change the seam allowance', allowNewSeams(mm))}
        />
        {tracing.kind === 'net' && (
          <LengthField
            label="Hems"
            value={hem}
            units={doc.units}
            most={200}
            onChange={(mm) => commit('Change the hem allowance', allowHems(mm))}
          />
        )}
      </div>
    </Part>
  );
}

/** What was traced, and what its outline means. */
export function PatternSheet(): ReactElement {
  const files = useFiles();
  const doc = useBench((s) => s.doc);
  return (
    <Sheet
      title="Bring in the pattern"
      lead="A tracing is an SVG drawing at full size, with closed outlines. Drop one or more anywhere on the table, or choose them here."
    >
      <div className="actions">
        <button type="button" className="strong" onClick={files.chooseTracing}>
          Choose a tracing
        </button>
        <button type="button" onClick={files.openSaved}>
          Open a saved design
        </button>
      </div>
      <UnclaimedPart />
      <Part title="Pieces">
        <ul className="rows">
          {doc.pieces.map((piece) => (
            <PieceRow key={piece.id} piece={piece} />
          ))}
        </ul>
      </Part>
      <AllowancePart doc={doc} />
      <Part title="Examples to try">
        <div className="actions">
          {files.examples.map(({ name, open }) => (
            <button key={name} type="button" onClick={open}>
              {name}
            </button>
          ))}
        </div>
      </Part>
    </Sheet>
  );
}
