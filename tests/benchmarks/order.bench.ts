import { readFileSync } from 'node:fs';
import { designFromTracings, readTracing } from '../../src/files';
import type { Polyline } from '../../src/geometry';
import { type PanelledPiece, slicedPiece } from '../../src/panels';
import { seamRuns } from '../../src/sewing/runs';
import { runPlan } from '../../src/sewing/runs/seamRuns';
import { lined, rectangle } from '../making/designs';
import {
  type Random,
  dissection,
  divided,
  latticed,
  pinwheel,
  randomFrom,
  strokes,
} from '../making/randomLines';
import { takenLineByLine } from '../sewing/lineByLine';
import { median, sayTimes, timesOf } from './timing';

const SIZE = 600;

function sliced(lines: readonly Polyline[]): PanelledPiece {
  const d = lined(rectangle(SIZE, SIZE), lines);
  return slicedPiece(d.pieces[0]!, d);
}

const grid = (n: number): Polyline[] =>
  Array.from({ length: n }, (_, i): Polyline => {
    const at = (SIZE * (Math.floor(i / 2) + 1)) / (Math.ceil(n / 2) + 1);
    return i % 2 === 0
      ? [
          [0, at],
          [SIZE, at],
        ]
      : [
          [at, 0],
          [at, SIZE],
        ];
  });

const comb = (n: number): Polyline[] => [
  [
    [0, SIZE / 2],
    [SIZE, SIZE / 2],
  ],
  ...Array.from({ length: n - 1 }, (_, i): Polyline => {
    const x = (SIZE * (i + 1)) / n;
    return [
      [x, SIZE / 2],
      [x, SIZE],
    ];
  }),
];

/** Pinwheels side by side in rows parted by straight lines. */
const quilt = (n: number): Polyline[] => {
  const cell = SIZE / n;
  const lines: Polyline[] = [];
  for (let i = 1; i < n; i += 1)
    lines.push(
      [
        [0, i * cell],
        [SIZE, i * cell],
      ],
      [
        [i * cell, 0],
        [i * cell, SIZE],
      ],
    );
  for (let i = 0; i < n * n; i += 1)
    lines.push(...pinwheel([(i % n) * cell, Math.floor(i / n) * cell], cell));
  return lines;
};

/** A copy is another piece to the memory: everything is worked out anew. */
const fresh = (piece: PanelledPiece): PanelledPiece => ({ ...piece });

function report(name: string, lines: readonly Polyline[]): number {
  const piece = sliced(lines);
  const runs = lines.length > 60 ? 20 : 60;
  const ours = timesOf(() => seamRuns(fresh(piece)), runs, 10);
  const theirs = timesOf(() => takenLineByLine(piece), runs, 10);
  const plan = runPlan(piece, []);
  const open = plan.runs.filter((r) => r.openAt !== null).length;
  const naive = takenLineByLine(piece);
  console.log(
    `${name}: ${lines.length} lines, ${piece.panels.length} panels, ${plan.runs.length} seams, ${open} partial ` +
      `(line by line ${naive.seams} seams, ${naive.trapped} trapped), ${plan.chosen.isProven ? 'proved best' : 'not proved'}; ` +
      `${sayTimes(ours)}; ${(median(ours) / median(theirs)).toFixed(1)} times line by line`,
  );
  return median(ours);
}

function growth(name: string, lines: (n: number) => Polyline[], sizes: readonly number[]): void {
  let before = 0;
  for (const n of sizes) {
    const now = report(name, lines(n));
    if (before > 0) console.log(`  ${(now / before).toFixed(2)} times the one before`);
    before = now;
  }
}

/** How often the best is proved, and the longest wait, over random plans. */
function randomPlans(name: string, lines: (random: Random) => Polyline[]): void {
  const pieces = Array.from({ length: 100 }, (_, i) => sliced(lines(randomFrom(i + 1))));
  for (const p of pieces.slice(0, 20)) seamRuns(fresh(p));
  const times: number[] = [];
  let [proved, ours, naive] = [0, 0, 0];
  for (const piece of pieces) {
    times.push(median(timesOf(() => seamRuns(fresh(piece)), 3, 1)));
    const plan = runPlan(piece, []);
    if (plan.chosen.isProven) proved += 1;
    ours += plan.runs.filter((r) => r.openAt !== null).length;
    naive += takenLineByLine(piece).trapped;
  }
  console.log(
    `${name}: proved best ${proved} of ${pieces.length}; ${ours} partial seams (line by line ${naive} trapped); ` +
      `${sayTimes(times)}, longest ${Math.max(...times).toFixed(1)} ms`,
  );
}

function demoFront(): void {
  const read = readTracing(readFileSync('demo-data/sheath.svg'), 'sheath.svg');
  if (!read.ok) throw new Error('the demo cannot be read');
  const design = designFromTracings([read.value]);
  for (const piece of design.pieces) {
    const panelled = slicedPiece(piece, design);
    const times = timesOf(() => seamRuns(fresh(panelled)), 200, 100);
    console.log(`demo ${piece.name}: ${seamRuns(panelled).length} seams; ${sayTimes(times)}`);
  }
}

/** Times of choosing what is sewn in one go, their growth with the lines, and how much is gained over taking line by line as drawn. */
export default function benchOrder(): void {
  demoFront();
  growth('grid', grid, [14, 50, 100, 200]);
  growth('comb', comb, [14, 50, 100, 200]);
  growth('pinwheels', quilt, [1, 2, 3, 5]);
  randomPlans('random rectangles, about 14 lines', (random) => dissection(6, 6, 3, random, SIZE));
  randomPlans('random rectangles, about 60 lines', (random) => dissection(14, 14, 3, random, SIZE));
  randomPlans('random cuts and pinwheels', (random) => divided(8, 0.4, random, SIZE));
  randomPlans('14 angled strokes from edge to edge', (random) => strokes(14, random, SIZE));
  randomPlans('5 zigzags on a lattice', (random) => latticed(5, 5, random, SIZE));
  randomPlans('10 zigzags on a lattice', (random) => latticed(10, 8, random, SIZE));
}
