import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import {
  designFromTracings,
  looksLikeDesign,
  openDesign,
  readTracing,
  LARGEST_FILE,
  type DesignChoices,
  type Tracing,
} from '../files';
import { settled } from '../panels';
import { problem, takenAs, type Design, type Outcome } from '../pattern';
import type { MakeOptions } from './makeOptions';
import { UsageError } from './makeOptions';

/** The design to be made, with what was left out of the files. */
export interface MadeDesign {
  readonly design: Design;
  readonly ignored: readonly string[];
}

interface Bytes {
  readonly file: string;
  readonly data: Uint8Array;
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
  EPERM: 'it may not be read',
};

/** All of a file's bytes; of one that is too large or never ends (a device), a few more than are read. */
async function bytesOf(path: string): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of createReadStream(path, { end: LARGEST_FILE })) chunks.push(chunk as Uint8Array);
  return Buffer.concat(chunks);
}

async function readBytes(file: string, folder: string): Promise<Outcome<Bytes>> {
  const path = resolve(folder, file);
  try {
    const { size: told } = await stat(path);
    const data = told > LARGEST_FILE ? null : await bytesOf(path);
    const size = data?.length ?? told;
    if (data === null || size > LARGEST_FILE)
      return { ok: false, problems: [problem('file-too-large', { file, size, most: LARGEST_FILE })] };
    return { ok: true, value: { file, data }, problems: [] };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown';
    return { ok: false, problems: [problem('file-unreadable', { file, why: REASONS[code] ?? code })] };
  }
}

/** All outcomes as one: every problem of those that failed, or all values. */
function together<T>(outcomes: readonly Outcome<T>[]): Outcome<readonly T[]> {
  const [first, ...others] = outcomes.flatMap((o) => (o.ok ? [] : o.problems));
  if (first) return { ok: false, problems: [first, ...others] };
  return {
    ok: true,
    value: outcomes.flatMap((o) => (o.ok ? [o.value] : [])),
    problems: outcomes.flatMap((o) => o.problems),
  };
}

const choicesFrom = ({ newSeam, tracing, hem, fabricWidth, nap, paper }: MakeOptions): DesignChoices => ({
  newSeam,
  tracing,
  hem,
  fabricWidth,
  nap,
  paper,
});

/** A saved design with the options that were given put over what it says itself. */
function withOptions(
  design: Design,
  { newSeam, tracing, hem, fabricWidth, nap, paper }: MakeOptions,
): Design {
  const { allowances } = design;
  const taken = tracing ? takenAs(allowances, tracing) : allowances;
  return {
    ...design,
    colours: design.colours.map((c) => ({ ...c, width: fabricWidth ?? c.width, nap: nap ?? c.nap })),
    allowances: {
      ...taken,
      newSeam: newSeam ?? allowances.newSeam,
      hem: hem ?? taken.hem,
    },
    paper: { size: paper ?? design.paper.size },
  };
}

function fromSaved({ file, data }: Bytes, options: MakeOptions): Outcome<MadeDesign> {
  const opened = openDesign(data, file);
  if (!opened.ok) return opened;
  if (opened.value.pieces.length === 0)
    return { ok: false, problems: [problem('no-outline', { file, piece: opened.value.name })] };
  return {
    ok: true,
    value: { design: settled(withOptions(opened.value, options)), ignored: [] },
    problems: opened.problems,
  };
}

function fromTracings(inputs: readonly Bytes[], options: MakeOptions): Outcome<MadeDesign> {
  const read = together<Tracing>(
    inputs.map(({ file, data }) => readTracing(data, file, { scale: options.scale })),
  );
  if (!read.ok) return read;
  const ignored = [...new Set(read.value.flatMap((t) => t.ignored))];
  return {
    ok: true,
    value: { design: designFromTracings(read.value, choicesFrom(options)), ignored },
    problems: read.problems,
  };
}

/**
 * Read the files named on the command line into one design.
 * @param folder that paths are relative to
 * @throws UsageError when a saved design is given together with other files
 */
export async function makeDesign(options: MakeOptions, folder: string): Promise<Outcome<MadeDesign>> {
  const bytes = together(await Promise.all(options.files.map((file) => readBytes(file, folder))));
  if (!bytes.ok) return bytes;
  const saved = bytes.value.filter(({ data, file }) => looksLikeDesign(data) || /\.json$/i.test(file));
  if (saved.length === 0) return fromTracings(bytes.value, options);
  if (bytes.value.length > 1)
    throw new UsageError(
      `A saved design (${saved[0]!.file}) is made on its own: give no other FILE with it.`,
    );
  return fromSaved(saved[0]!, options);
}
