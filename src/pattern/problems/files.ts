import type { WordingOf } from './wording';

/** What can be wrong with a file. One entry per code, with the facts its sentence needs. */
export interface FilesFacts {
  'file-empty': { file: string };
  'file-unreadable': { file: string; why: string };
  'file-too-large': { file: string; size: number; most: number };
  'file-not-svg': { file: string };
  'file-not-text': { file: string; encoding: string };
  'file-not-well-formed': { file: string; line: number; column: number; what: string };
  'file-hostile': { file: string; what: string };
  'no-outline': { file: string; piece: string };
  'no-cloth-outline': { file: string };
  'outline-open': { file: string; piece: string; gap: number };
  'outline-without-area': { file: string; piece: string };
  'outline-crosses-itself': { file: string; piece: string };
  'lines-too-tangled': { most: number };
  'bad-number': { file: string; where: string; what: string };
  'scale-unknown': { file: string };
  'scale-assumed': { file: string };
  'several-outlines': { piece: string; count: number };
  'not-a-design': { file: string; what: string };
  'design-too-new': { file: string; version: number };
  'design-broken': { file: string; where: string; what: string };
  'left-out': { names: readonly string[] };
}

export const FILES: WordingOf<FilesFacts> = {
  'file-empty': ['error', ({ file }) => `${file} is empty. Export the tracing again.`],
  'file-unreadable': [
    'error',
    ({ file, why }) => `${file} cannot be read: ${why}. Check its name and place.`,
  ],
  'file-too-large': [
    'error',
    ({ file, size, most }) =>
      `${file} has ${size} nodes or bytes; the most is ${most}. Simplify the tracing and export it again.`,
  ],
  'file-not-svg': [
    'error',
    ({ file }) => `${file} is not an SVG drawing or a Panelwright design. Choose another file.`,
  ],
  'file-not-text': [
    'error',
    ({ file, encoding }) =>
      `${file} is not text in the encoding it claims (${encoding}). Export the drawing again as plain SVG in UTF-8.`,
  ],
  'file-not-well-formed': [
    'error',
    ({ file, line, column, what }) =>
      `${file}, line ${line}, column ${column}: ${what}. Export the drawing again.`,
  ],
  'file-hostile': [
    'error',
    ({ file, what }) => `${file} is refused: ${what}. Export a plain drawing without it.`,
  ],
  'no-outline': [
    'error',
    ({ file, piece }) => `${file}: piece ${piece} has no outline. Name a closed path 'outline'.`,
  ],
  'no-cloth-outline': [
    'error',
    ({ file }) =>
      `${file} has no closed outline in it. Draw round the cloth with one closed line, at its true size, and export it again.`,
  ],
  'outline-open': [
    'error',
    ({ file, piece, gap }, mm) => `${file}: the outline of ${piece} is open by ${mm(gap)}. Close it.`,
  ],
  'outline-without-area': [
    'error',
    ({ file, piece }) => `${file}: the outline of ${piece} encloses nothing. Trace it again.`,
  ],
  'outline-crosses-itself': [
    'error',
    ({ file, piece }) => `${file}: the outline of ${piece} crosses itself. Trace it without a loop.`,
  ],
  'lines-too-tangled': [
    'error',
    ({ most }) =>
      `The panel lines cross each other at more than ${most} places. Remove lines until the panels can be sewn.`,
  ],
  'bad-number': [
    'error',
    ({ file, where, what }) =>
      `${file}: ${where} has ${what} where a number should be. Correct it and export again.`,
  ],
  'scale-unknown': [
    'error',
    ({ file }) =>
      `${file} does not say how large it is. Give its scale (--scale, mm per unit) or export it with a size in mm.`,
  ],
  'scale-assumed': [
    'hint',
    ({ file }) =>
      `${file} has no size of its own and is taken at 96 units to the inch. Measure one edge before you cut, or export it with a size in mm.`,
  ],
  'several-outlines': [
    'warning',
    ({ piece, count }) =>
      `${piece} has ${count} outlines; the largest is used. Put each piece in its own group.`,
  ],
  'not-a-design': [
    'error',
    ({ file, what }) => `${file} is not a Panelwright design: ${what}. Choose another file.`,
  ],
  'design-too-new': [
    'error',
    ({ file, version }) =>
      `${file} was saved by a newer Panelwright (version ${version}). Update, then open it again; it is left untouched.`,
  ],
  'design-broken': [
    'error',
    ({ file, where, what }) => `${file} is damaged at ${where}: ${what}. Open an earlier copy.`,
  ],
  'left-out': ['hint', ({ names }) => `Not understood and left out: ${names.join(', ')}.`],
};
