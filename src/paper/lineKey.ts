import { paragraph, row, stack } from './block';
import type { Block } from './block';
import {
  CLIP_LINE,
  CUTTING_LINE,
  DART_LINE,
  FOLD_LINE,
  GRAIN_LINE,
  INK,
  LEVEL_LINE,
  NOTCH_LINE,
  SOFT,
  STITCHING_LINE,
  STOP_LINE,
  TRIM_LINE,
  ZIP_LINE,
} from './ink';
import { circle, filled, line, stroked } from './marks';
import type { Lettering, Mark } from './marks';

const WIDTH = 20;
const MIDDLE = 2.2;

const across = (stroke: Parameters<typeof line>[2]): Mark => line([0, MIDDLE], [WIDTH, MIDDLE], stroke);
const tick = (x: number): Mark => line([x, MIDDLE - 1.8], [x, MIDDLE + 2], NOTCH_LINE);
const tip = (x: number, to: number): Mark =>
  filled(
    [
      [
        [
          [x, MIDDLE],
          [x + to, MIDDLE - 1],
        ],
        [
          [x + to, MIDDLE - 1],
          [x + to, MIDDLE + 1],
        ],
        [
          [x + to, MIDDLE + 1],
          [x, MIDDLE],
        ],
      ],
    ],
    INK,
  );

const SAMPLES: readonly (readonly [words: string, marks: readonly Mark[]])[] = [
  ['cutting line', [across(CUTTING_LINE)]],
  ['stitching line', [across(STITCHING_LINE)]],
  [
    'notches, single to single, double to double: snip no deeper than drawn; one outside the line: in chalk, never cut',
    [line([0, MIDDLE - 1.8], [WIDTH, MIDDLE - 1.8], CUTTING_LINE), tick(5), tick(13), tick(15.5)],
  ],
  ['clip the allowance as far as the dot', [across(CLIP_LINE), filled([circle([WIDTH, MIDDLE], 0.7)], INK)]],
  [
    'dart: legs, and a cross at its point',
    [across(DART_LINE), stroked([circle([WIDTH, MIDDLE], 1)], { width: 0.2, colour: INK }, true)],
  ],
  ['place on the fold of the cloth: do not cut, no allowance', [across(FOLD_LINE)]],
  ['grain; one head: all pieces lie the same way up', [across(GRAIN_LINE), tip(0, 3), tip(WIDTH, -3)]],
  [
    'zip: the bar is its stop, dashes the slot of a shown one',
    [across(ZIP_LINE), line([WIDTH, MIDDLE - 1.8], [WIDTH, MIDDLE + 2], STOP_LINE)],
  ],
  ['level (bust, waist, hip …)', [across(LEVEL_LINE)]],
  ['middle of a trim that is sewn on without a seam', [across(TRIM_LINE)]],
];

/** What the lines mean, in two columns. */
export function lineKey(lettering: Lettering, width: number): Block {
  const column = width / 2 - 4;
  const entries = SAMPLES.map(([words, marks]): Block => {
    const sample: Block = { width: WIDTH, height: 4.4, marks };
    return row(
      [sample, paragraph(lettering, words, column - WIDTH - 4, { size: 2.9, colour: SOFT })],
      4,
      true,
    );
  });
  const half = Math.ceil(entries.length / 2);
  const left = stack(entries.slice(0, half), 1.6);
  const right = stack(entries.slice(half), 1.6);
  return { ...row([{ ...left, width: column }, right], 8), width };
}
