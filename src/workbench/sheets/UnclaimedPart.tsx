import { useState, type ReactElement } from 'react';
import { flattenPath, pathBox, pathLength } from '../../geometry';
import { formatLength, type Design } from '../../pattern';
import type { UnclaimedShape } from '../../files';
import { useBench, useBenchStore } from '../store/benchStore';
import { claimShape, pieceUnder, possibleClaims, type Claim } from '../store/claimEdits';
import { openShapes } from '../store/openShapes';
import { Part } from './Sheet';

/** A small picture of a shape, so that a person can tell which one is meant. */
function ShapePicture({ shape }: { shape: UnclaimedShape }): ReactElement {
  const { minX, minY, maxX, maxY } = pathBox(shape.path);
  const size = Math.max(maxX - minX, maxY - minY, 1);
  const points = flattenPath(shape.path, size / 200)
    .points.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`)
    .join(' ');
  const pad = size * 0.12;
  return (
    <svg
      className="shape-picture"
      viewBox={`${minX - pad} ${minY - pad} ${maxX - minX + 2 * pad} ${maxY - minY + 2 * pad}`}
      aria-hidden="true"
    >
      <polyline points={points} />
    </svg>
  );
}

function ShapeRow({ shape }: { shape: UnclaimedShape }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const [levelName, setLevelName] = useState('');
  const piece = pieceUnder(doc, shape.path, shape.piece);
  const claims = possibleClaims(shape.path, shape.closed);
  const answer = (as: Design | 'left out'): void =>
    store.getState().set({ answered: new Map([...store.getState().answered, [shape, as]]) });
  const claim = (as: Claim): void => {
    if (!piece) return;
    const before = store.getState().doc;
    store
      .getState()
      .commit(
        `Take a shape as ${as}`,
        claimShape(piece.id, as, shape.path, shape.closed, levelName.trim() || 'level'),
      );
    const { doc: after } = store.getState();
    if (after !== before) answer(after);
  };
  return (
    <li className="unclaimed">
      <ShapePicture shape={shape} />
      <div>
        <span>
          {shape.name || 'A shape'}, {formatLength(pathLength(shape.path), doc.units)} long
        </span>
        <div className="actions">
          {claims.map((as) => (
            <button key={as} type="button" onClick={() => claim(as)}>
              {as === 'piece' ? 'another piece' : as}
            </button>
          ))}
          <button type="button" className="plain" onClick={() => answer('left out')}>
            leave it out
          </button>
        </div>
        {claims.includes('level') && (
          <input
            type="text"
            aria-label="Name of the level"
            placeholder="name, if a level"
            value={levelName}
            onChange={(e) => setLevelName(e.target.value)}
          />
        )}
      </div>
    </li>
  );
}

/** Shapes of the tracing without a name that is understood: what are they? */
export function UnclaimedPart(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  useBench((s) => s.answered);
  const shapes = openShapes(store.getState());
  if (shapes.length === 0) return null;
  return (
    <Part title="What are these?">
      <p className="note">
        The tracing holds shapes without a name that says what they are. Other pieces first, then what lies on
        them. What is left out is not part of the design.
      </p>
      <ul className="rows">
        {shapes.map((shape) => (
          <ShapeRow key={store.getState().unclaimed.indexOf(shape)} shape={shape} />
        ))}
      </ul>
    </Part>
  );
}
