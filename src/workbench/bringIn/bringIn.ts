import { sayProblem, severityOf, type Design, type Problem } from '../../pattern';
import { counted } from '../drawing/words';
import type { BenchStore } from '../store/benchStore';
import type { BroughtIn, NamedBytes } from './readTracings';

type Reader = typeof import('./readFiles').readFiles;
const loadReader = async (): Promise<Reader> => (await import('./readFiles')).readFiles;

function refuse(store: BenchStore, problems: readonly Problem[]): void {
  const units = store.getState().doc.units;
  store.getState().set({
    notice: {
      tone: 'bad',
      title: 'This could not be brought in; your work is as it was.',
      lines: problems.filter((p) => severityOf(p) === 'error').map((p) => sayProblem(p, units)),
      again: true,
    },
  });
}

/** Shapes that the sheet asks about are not said to be left out: that is for the person to say. */
function sayBroughtIn(p: Problem, unclaimed: BroughtIn['unclaimed'], units: Design['units']): string[] {
  if (p.code !== 'left-out' || unclaimed.length === 0) return [sayProblem(p, units)];
  const asked = new Set(unclaimed.map(({ name }) => name));
  const names = p.facts.names.filter((name) => !asked.has(name));
  const question = `${counted(unclaimed.length, 'shape')} without a known name: say beside the drawing what ${unclaimed.length === 1 ? 'it is' : 'they are'}.`;
  return names.length > 0
    ? [question, sayProblem({ ...p, facts: { ...p.facts, names } }, units)]
    : [question];
}

function putOnTable(
  store: BenchStore,
  { design, from, unclaimed, sizeDoubts }: BroughtIn,
  problems: readonly Problem[],
): boolean {
  const { replace, set, doc } = store.getState();
  replace(from === 'design' ? `Open ${design.name}` : `Bring in ${design.name}`, {
    ...design,
    units: from === 'design' ? design.units : doc.units,
  });
  if (store.getState().doc === doc) return false; // it could not be worked out; the store has said so
  const words = problems.flatMap((p) => sayBroughtIn(p, unclaimed, doc.units));
  set({
    selected: null,
    held: null,
    lit: null,
    question: null,
    unclaimed,
    unclaimedOf: store.getState().doc,
    answered: new Map(),
    lookOver: sizeDoubts && { doubts: sizeDoubts },
    place: unclaimed.length > 0 || from === 'tracing' ? 'pattern' : 'lines',
    sheetOpen: true,
    notice:
      words.length > 0
        ? { tone: 'good', title: `${design.name} is on the table.`, lines: words, of: store.getState().doc }
        : null,
    spoken: `${design.name} is on the table.`,
  });
  return true;
}

/**
 * Bring tracings or a saved design on to the table. Bad input leaves the work there untouched and says why; a tracing without a
 * size asks for it.
 * @returns whether it is on the table now
 */
export async function bringIn(
  store: BenchStore,
  files: readonly NamedBytes[],
  scale: number | null = null,
  load: () => Promise<Reader> = loadReader,
): Promise<boolean> {
  if (files.length === 0) return false;
  const readFiles = await load();
  const read = readFiles(files, scale);
  if (read.ok) return putOnTable(store, read.value, read.problems);
  if (read.problems.some((p) => p.code === 'scale-unknown')) {
    store.getState().set({
      question: { files: files.map(({ name, data }) => ({ name, data })), problems: read.problems },
      notice: null,
    });
    return false;
  }
  refuse(store, read.problems);
  return false;
}

/** An example of ours, made into a design by the same reader. @throws Error if our own file is unsound */
export async function readExample(name: string, file: string, svg: string): Promise<Design> {
  const { readTracings } = await import('./readTracings');
  const read = readTracings([{ name: file, data: svg }], null, name);
  if (!read.ok) throw new Error(`${file}: ${read.problems.map((p) => sayProblem(p)).join(' ')}`);
  return read.value.design;
}
