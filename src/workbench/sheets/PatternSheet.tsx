import type { ReactElement } from 'react';
import { distance, type Line } from '../../geometry';
import { formatLength, type Piece } from '../../pattern';
import { useFiles } from '../bringIn/FilesContext';
import { counted } from '../drawing/words';
import { Choice } from '../parts/Choice';
import { TextField } from '../parts/TextField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { foldAlong, foldChoices } from '../store/claimEdits';
import { cutPieceAs, cutSymmetric, renamePiece } from '../store/patternEdits';
import { AllowancePart } from './AllowancePart';
import { EdgesPart } from './EdgesPart';
import { AnotherSize } from './AnotherSize';
import { LevelFields } from './LevelFields';
import { LookOverPart } from './LookOverPart';
import { UnclaimedPart } from './UnclaimedPart';
import { Part, Sheet } from './Sheet';
import { ZipAtFold } from './ZipCard';

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
      {piece.fold && piece.cutting === 'once' && (
        <Choice
          label="Cut symmetric panels"
          options={[
            ['whole', 'whole'],
            ['fold', 'on the fold'],
          ]}
          value={piece.foldPanels ? 'fold' : 'whole'}
          onChoose={(how) =>
            commit('Change how symmetric panels are cut', cutSymmetric(piece.id, how === 'fold'))
          }
        />
      )}
      <LevelFields piece={piece} />
      <EdgesPart piece={piece} />
      <ZipAtFold piece={piece} />
      <AnotherSize piece={piece} />
    </li>
  );
}

/** What was traced, and what its outline means. */
export function PatternSheet(): ReactElement {
  const files = useFiles();
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const isLookedOver = useBench((s) => s.lookOver !== null);
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
      <LookOverPart />
      {doc.pieces.length > 0 && <AllowancePart doc={doc} />}
      <Part title="Pieces">
        <ul className="rows">
          {doc.pieces.map((piece) => (
            <PieceRow key={piece.id} piece={piece} />
          ))}
        </ul>
      </Part>
      {!isLookedOver && (
        <div className="actions">
          <button type="button" onClick={() => store.getState().set({ lookOver: { doubts: [] } })}>
            Look the tracing over
          </button>
        </div>
      )}
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
