import type { Design, LineId } from '../../pattern';
import type { BenchState } from '../store/benchStore';
import type { Sight } from './costClient';

/**
 * What is followed while a line is chosen or drawn: the design before the movement and as it is now. resting: nothing has been
 * moved yet, both are the same.
 */
export interface Followed extends Sight {
  readonly by: 'resting' | 'drag' | 'dragged' | 'step';
}

type Seen = Pick<BenchState, 'place' | 'selected' | 'underWay' | 'doc' | 'draft' | 'past'>;

/** Parts of a design that change when a line does. */
const LINE_PARTS: readonly (keyof Design)[] = ['lines', 'marks', 'numbers'];

const isLineMove = (before: Design, after: Design): boolean =>
  (Object.keys(after) as (keyof Design)[]).every(
    (key) => LINE_PARTS.includes(key) || before[key] === after[key],
  ) && before.lines.length <= after.lines.length;

const resting = (doc: Design, line: LineId | null): Followed => ({
  before: doc,
  now: doc,
  line,
  by: 'resting',
});

/** A line was moved by a button, a field or a key; several such steps on end are compared with the first. */
function stepped(was: Followed, { doc, past }: Seen, line: LineId | null): Followed {
  const isForward = past.at(-1)?.doc === was.now && isLineMove(was.now, doc);
  if (!isForward) return resting(doc, line);
  return { before: was.by === 'step' ? was.before : was.now, now: doc, line, by: 'step' };
}

/**
 * What is to be followed now.
 * @param was what was followed until now; null for nothing
 * @returns the same object where nothing changes; null where no line is chosen or drawn
 */
export function follow(was: Followed | null, seen: Seen): Followed | null {
  const { doc, draft, place, selected, underWay } = seen;
  const line = selected?.kind === 'line' ? selected.line : null;
  // for a moment a line just drawn is neither under way nor chosen
  const isDrawn = was?.by === 'drag' && was.line === null && doc !== was.before;
  if (place !== 'lines' || (line === null && !underWay && !isDrawn)) return null;
  if (draft) {
    const isSame = was?.by === 'drag' && was.now === draft && was.line === line;
    return isSame ? was : { before: doc, now: draft, line, by: 'drag' };
  }
  if (!was) return resting(doc, line);
  if (was.by === 'drag')
    return doc === was.before ? resting(doc, line) : { ...was, now: doc, line, by: 'dragged' };
  const isNewOnTable = was.line === null && was.by === 'dragged';
  if (was.line !== line && !isNewOnTable) return resting(doc, line);
  if (doc === was.now) return was.line === line ? was : { ...was, line };
  return stepped(was, seen, line);
}
