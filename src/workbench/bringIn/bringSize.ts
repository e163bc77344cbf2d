import { replacePiece, type Replaced } from '../../panels';
import { sayProblem, type Design, type LineId, type Piece, type PieceId } from '../../pattern';
import { counted } from '../drawing/words';
import type { BenchStore } from '../store/benchStore';
import type { NamedBytes } from './readTracings';

type Reader = typeof import('./readTracings').readTracings;
const loadReader = async (): Promise<Reader> => (await import('./readTracings')).readTracings;

const plain = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** The piece of a tracing that is another size of one on the table: the one of its name, else the only one there is. */
function likePiece(traced: Design, piece: Piece): Piece | null {
  const named = traced.pieces.find((p) => plain(p.name) === plain(piece.name));
  return named ?? (traced.pieces.length === 1 ? traced.pieces[0]! : null);
}

const numbers = (doc: Design, ids: readonly LineId[]): string =>
  ids.map((id) => doc.lines.findIndex((l) => l.id === id) + 1).join(', ');

/** What did not follow by itself, a sentence each. */
function sayReplaced(doc: Design, piece: Piece, { untied, lost, levels }: Replaced): string[] {
  const tied = doc.lines.filter((l) => l.piece === piece.id).length - untied.length - lost.length;
  return [
    ...(tied > 0 ? [`${counted(tied, 'tied line')} followed.`] : []),
    ...(untied.length > 0
      ? [
          `Not tied, so left at ${untied.length === 1 ? 'its' : 'their'} own size: line ${numbers(doc, untied)}. Look at each.`,
        ]
      : []),
    ...(lost.length > 0 ? [`Tied to what this tracing does not have: line ${numbers(doc, lost)}.`] : []),
    ...(levels.length > 0
      ? [
          `Not on this tracing, so set at the like height: ${levels.join(', ')}. Check ${levels.length === 1 ? 'it' : 'them'}.`,
        ]
      : []),
  ];
}

function refuse(store: BenchStore, lines: readonly string[]): false {
  store.getState().set({
    notice: { tone: 'bad', title: 'This size could not be brought in; your work is as it was.', lines },
  });
  return false;
}

/**
 * Put another size of a piece in its place, from a tracing of it: tied lines follow, and what does not is said.
 * @returns whether it is on the table now
 */
export async function bringSize(
  store: BenchStore,
  id: PieceId,
  file: NamedBytes,
  load: () => Promise<Reader> = loadReader,
): Promise<boolean> {
  const readTracings = await load();
  const { doc, commit } = store.getState();
  const piece = doc.pieces.find((p) => p.id === id);
  if (!piece) return false;
  const read = readTracings([file]);
  if (!read.ok)
    return refuse(
      store,
      read.problems.map((p) => sayProblem(p, doc.units)),
    );
  const like = likePiece(read.value.design, piece);
  if (!like)
    return refuse(store, [
      `${file.name} holds ${read.value.design.pieces.map((p) => p.name).join(', ')}, but no ${piece.name}. Name the piece alike, or bring a file that holds it alone.`,
    ]);
  const replaced = replacePiece(doc, id, like);
  commit(`Bring another size of ${piece.name}`, () => replaced.design);
  if (store.getState().doc === doc) return false; // it could not be worked out; the store has said so
  store.getState().set({
    selected: null,
    notice: {
      tone: 'good',
      title: `Another size of ${piece.name} is on the table.`,
      lines: sayReplaced(doc, piece, replaced),
      of: store.getState().doc,
    },
    spoken: `Another size of ${piece.name} is on the table.`,
  });
  return true;
}
