import { sayProblem, type Outcome, type Problem } from '../../src/pattern';
import { readTracing, type TracedPiece, type Tracing, type TracingOptions } from '../../src/files';

/** An SVG whose user units are mm, 300 × 400. */
export const PAGE = 'width="300mm" height="400mm" viewBox="0 0 300 400"';

/** An SVG around its content; `e` stands for an editor's own namespace. */
export const svg = (content: string, root = PAGE): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:e="urn:some:editor" ${root}>${content}</svg>`;

/** A 100 × 50 outline for tests about something else. */
export const OUTLINE = '<rect data-role="outline" width="100" height="50"/>';

/** The value of an outcome that must be ok. */
export function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map((p) => sayProblem(p, 'mm')).join('\n'));
  return outcome.value;
}

export const read = (text: string, file = 'front.svg', options: TracingOptions = {}): Tracing =>
  valueOf(readTracing(text, file, options));

/** The only piece of a drawing. */
export function piece(text: string, file = 'front.svg', options: TracingOptions = {}): TracedPiece {
  const { pieces } = read(text, file, options);
  if (pieces.length !== 1) throw new Error(`${pieces.length} pieces`);
  return pieces[0]!;
}

/** The problems of a file that must be refused. */
export function refusal(
  data: string | Uint8Array,
  file = 'front.svg',
  options: TracingOptions = {},
): readonly Problem[] {
  const outcome = readTracing(data, file, options);
  if (outcome.ok) throw new Error('the file was read');
  return outcome.problems;
}

/** The first problem's code. */
export const refusedFor = (data: string | Uint8Array, options: TracingOptions = {}): string =>
  refusal(data, 'front.svg', options)[0]!.code;
