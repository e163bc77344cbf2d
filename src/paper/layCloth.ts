import { sayAtCounter } from '../fabric';
import { applyMatrix, pathThrough } from '../geometry';
import type { Line, Matrix, Pt } from '../geometry';
import { formatLength } from '../pattern';
import type { Units } from '../pattern';
import { arrowHead } from './arrowHead';
import { FAINT, FOLD_LINE, INK, SOFT, clothTints } from './ink';
import { partsInside } from './inside';
import { NUMBERS_BELOW, WORD_ROW, clothBox, lengthMarks, pointOnPaper, toPaper } from './layFrame';
import type { LayFrame } from './layFrame';
import { washedLength } from './layOnPaper';
import type { LayOnPaper } from './layOnPaper';
import { filled, line, rectangle, stroked, text } from './marks';
import type { Lettering, Mark, Stroke } from './marks';

const NUMBER = 2.3;
const WORD = 2.5;
const TICK: Stroke = { width: 0.18, colour: INK };
const SELVEDGE: Stroke = { width: 0.7, colour: INK };
const CUT_END: Stroke = { width: 0.2, colour: SOFT };
const NEED_LINE: Stroke = { width: 0.3, colour: INK, dash: [2.4, 1.2] };
const MARGIN_LINE: Stroke = { width: 0.15, colour: SOFT, dash: [1.6, 1.2] };
const REPEAT_LINE: Stroke = { width: 0.2, colour: SOFT, dash: [0.3, 1.1] };
const LEFT_LINE: Stroke = { width: 0.2, colour: SOFT, dash: [3, 2] };
/** Lines of a repeat are at least this far apart, mm on paper; of a finer one only every so many are drawn. */
const REPEATS_APART = 4;

/** Every how many repeats a line is drawn. */
export const repeatsPerLine = (repeat: number, scale: number): number =>
  Math.max(1, Math.ceil((REPEATS_APART * scale) / repeat - 1e-9));

/** Places of a repeat's lines between two ends, counted from an origin. */
function repeatPlaces(repeat: number, scale: number, origin: number, from: number, to: number): number[] {
  if (!(repeat > 0)) return [];
  const step = repeat * repeatsPerLine(repeat, scale);
  const places: number[] = [];
  for (let i = Math.ceil((from - origin) / step); origin + i * step <= to; i += 1)
    places.push(origin + i * step);
  return places;
}

/** Along and across in words of the page: a line over the whole width at x, a line over what is shown at y. */
interface Lines {
  readonly across: (x: number) => Line;
  readonly along: (y: number) => Line;
}

const linesOn = (lay: LayOnPaper, frame: LayFrame, m: Matrix): Lines => ({
  across: (x) => [pointOnPaper(m, x, 0), pointOnPaper(m, x, lay.across)],
  along: (y) => [pointOnPaper(m, frame.from, y), pointOnPaper(m, frame.to, y)],
});

/** The middle of the width in the drawing's own y: the fold, on folded cloth. */
const middleOf = (lay: LayOnPaper): number => (lay.isFolded ? 0 : lay.across / 2);

/** A line as far as it lies on the cloth, which may be a piece of one's own with any outline. */
function onTheCloth(lay: LayOnPaper, m: Matrix, l: Line): Line[] {
  return lay.outline ? partsInside([lay.outline.map((p) => applyMatrix(m, p))], l) : [l];
}

/** The cloth itself with its margins: what the pieces lie on. */
export function clothUnder(lay: LayOnPaper, frame: LayFrame): Mark[] {
  const m = toPaper(lay, frame);
  const { along } = linesOn(lay, frame, m);
  const box = clothBox(lay, frame);
  const { margin } = lay.job;
  const fill = clothTints(lay.colour.fill).cloth;
  if (lay.outline) {
    const outline = lay.outline.map((p) => applyMatrix(m, p));
    return [filled([pathThrough(outline, true)], fill, SELVEDGE)];
  }
  const isDrawn = margin / frame.scale >= 0.5;
  const margins = !isDrawn ? [] : [...(lay.isFolded ? [] : [margin]), lay.across - margin];
  return [
    filled([rectangle(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY)], fill),
    ...margins.map((y) => line(...along(y), MARGIN_LINE)),
  ];
}

/** Lines of the repeat, over cloth and pieces. */
export function repeatLines(lay: LayOnPaper, frame: LayFrame): Mark[] {
  const m = toPaper(lay, frame);
  const { across, along } = linesOn(lay, frame, m);
  const { repeat } = lay.job;
  return [
    ...repeatPlaces(repeat.along, frame.scale, 0, frame.from, frame.to).map(across),
    ...repeatPlaces(repeat.across, frame.scale, middleOf(lay), 0, lay.across).map(along),
  ].flatMap((l) => onTheCloth(lay, m, l).map(([a, b]) => line(a, b, REPEAT_LINE)));
}

/** The largest rectangle that is left over of one's own cloth, with its size where that has room. */
function leftOverMarks(lettering: Lettering, lay: LayOnPaper, frame: LayFrame, units: Units): Mark[] {
  const free = lay.leftOver;
  if (!free) return [];
  const m = toPaper(lay, frame);
  const [a, b] = [
    pointOnPaper(m, free.x, free.y),
    pointOnPaper(m, free.x + free.length, free.y + free.width),
  ];
  const [x, y] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
  const [w, h] = [Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
  const frameMark = stroked([rectangle(x + 0.6, y + 0.6, w - 1.2, h - 1.2)], LEFT_LINE, true);
  if (w < 4 || h < 4) return [];
  const words = ['left over', `${formatLength(free.length, units)} × ${formatLength(free.width, units)}`];
  const wide = Math.max(...words.map((t) => lettering.width(t, WORD, false)));
  if (wide > w - 3 || h < 9) return [frameMark];
  return [
    frameMark,
    ...words.map((t, i) =>
      text(lettering, t, [x + w / 2, y + h / 2 + (i === 0 ? -0.6 : 2.9)], {
        size: WORD,
        align: 'centre',
        colour: SOFT,
      }),
    ),
  ];
}

/** Ticks along both long sides and one short one, numbers once. */
function ticks(lettering: Lettering, lay: LayOnPaper, frame: LayFrame, m: Matrix, units: Units): Mark[] {
  const marks: Mark[] = [];
  const reach = (number: string | null): number => (number === null ? 1.1 : 2);
  const put = (p: Pt, out: Pt, number: string | null, isNumbered: boolean): void => {
    const r = reach(number);
    marks.push(line(p, [p[0] + out[0] * r, p[1] + out[1] * r], TICK));
    if (number === null || !isNumbered) return;
    if (out[1] > 0)
      marks.push(text(lettering, number, [p[0], p[1] + 4.4], { size: NUMBER, align: 'centre', colour: INK }));
    else marks.push(text(lettering, number, [p[0] - 2.8, p[1] + 0.8], { size: NUMBER, align: 'right' }));
  };
  const [below, left, above, right]: Pt[] = [
    [0, 1],
    [-1, 0],
    [0, -1],
    [1, 0],
  ];
  for (const { at, number } of lengthMarks(units, frame.from, frame.to, frame.scale)) {
    put(pointOnPaper(m, at, frame.standing ? 0 : lay.across), frame.standing ? left! : below!, number, true);
    put(
      pointOnPaper(m, at, frame.standing ? lay.across : 0),
      frame.standing ? right! : above!,
      number,
      false,
    );
  }
  for (const { at, number } of lengthMarks(units, 0, lay.across, frame.scale)) {
    const p = pointOnPaper(m, frame.from, at);
    // Where both scales begin, one 0 is enough.
    put(p, frame.standing ? below! : left!, number, at > 0);
  }
  return marks;
}

/** What the edges along the cloth are. */
function edgeWords(lay: LayOnPaper): readonly [first: string, second: string] {
  if (lay.remnant) return ['', ''];
  return lay.isFolded ? ['fold here, right sides together', 'both selvedges'] : ['selvedge', 'selvedge'];
}

function edges(lettering: Lettering, lay: LayOnPaper, frame: LayFrame, m: Matrix, units: Units): Mark[] {
  const box = clothBox(lay, frame);
  const { across, along } = linesOn(lay, frame, m);
  const ends = [frame.from, ...(lay.goesOn || frame.to < lay.length ? [] : [frame.to])];
  const marks: Mark[] = lay.outline ? [] : ends.map((x) => line(...across(x), CUT_END));
  if (!lay.outline) {
    marks.push(line(...along(lay.across), SELVEDGE));
    marks.push(line(...along(0), lay.isFolded ? { ...FOLD_LINE, width: 0.7 } : SELVEDGE));
  }
  const [first, second] = edgeWords(lay);
  const style = { size: WORD, colour: SOFT };
  const low = box.maxY + NUMBERS_BELOW + WORD_ROW - 1;
  if (frame.standing) {
    marks.push(text(lettering, first, [box.minX, low], style));
    marks.push(text(lettering, second, [box.maxX, low], { ...style, align: 'right' }));
  } else {
    marks.push(text(lettering, first, [box.minX, box.minY - 2.6], style));
    marks.push(text(lettering, second, [box.minX, low], style));
  }
  // The unit of the numbers, once.
  const unit = units === 'cm' ? 'cm' : 'in';
  marks.push(text(lettering, unit, [0, box.maxY + 4.4], style));
  return marks;
}

/** Which way one-way cloth runs. */
function oneWay(lettering: Lettering, lay: LayOnPaper, frame: LayFrame): Mark[] {
  if (!lay.colour.nap) return [];
  const box = clothBox(lay, frame);
  if (frame.standing) {
    const x = box.maxX + 7;
    const y = Math.min(box.maxY - 2, box.minY + Math.max(30, (box.maxY - box.minY) * 0.62));
    const words = text(lettering, 'one way', [box.maxX + 3, y + 4], { size: WORD });
    const [tail, tip]: [Pt, Pt] = [
      [x, y],
      [x, y - 14],
    ];
    return [line(tail, tip, { width: 0.5, colour: INK }), arrowHead(tip, [0, -1], 3), words];
  }
  const y = box.maxY + NUMBERS_BELOW + WORD_ROW - 1;
  const words = text(lettering, 'one way', [Math.max(box.minX + 30, (box.minX + box.maxX) / 2), y], {
    size: WORD,
  });
  const [tail, tip]: [Pt, Pt] = [
    [words.at[0] + words.width + 1.5, y - 0.9],
    [words.at[0] + words.width + 15.5, y - 0.9],
  ];
  return [line(tail, tip, { width: 0.5, colour: INK }), arrowHead(tip, [1, 0], 3), words];
}

interface Note {
  readonly at: number;
  readonly words: readonly string[];
  readonly stroke: Stroke;
}

function notesOf(lay: LayOnPaper, units: Units): Note[] {
  if (lay.outline) return [];
  const washed = washedLength(lay);
  const need: Note = {
    at: lay.plan.length,
    words: ['needed', formatLength(lay.plan.length, units)],
    stroke: NEED_LINE,
  };
  const isWashed = washed < lay.plan.buy - 0.5;
  const words = ['bought', sayAtCounter(lay.plan.buy, units)];
  if (isWashed) words.push('washed', formatLength(washed, units));
  return [need, { at: lay.length, words, stroke: CUT_END }];
}

/** The end of what is needed and of what is bought, each with a line and its length. */
function ends(lettering: Lettering, lay: LayOnPaper, frame: LayFrame, m: Matrix, units: Units): Mark[] {
  const box = clothBox(lay, frame);
  const { across } = linesOn(lay, frame, m);
  const marks: Mark[] = [];
  let lowest = -Infinity;
  const notes = notesOf(lay, units).filter(({ at }) => at >= frame.from && at <= frame.to);
  // Upright they are read from the top: what is bought first.
  for (const [i, { at, words, stroke }] of (frame.standing ? [...notes].reverse() : notes).entries()) {
    const [a, b] = across(at);
    // Cloth that goes on has no end here.
    const isOpen = lay.goesOn && at === lay.length;
    if (frame.standing) {
      if (!isOpen) marks.push(line(a, [b[0] + 2, b[1]], stroke));
      const y = Math.max(b[1] + 0.9, lowest);
      words.forEach((w, n) =>
        marks.push(text(lettering, w, [b[0] + 3, y + n * 3.2], { size: WORD, bold: n === 1 })),
      );
      lowest = y + words.length * 3.2 + 1;
      continue;
    }
    const y = box.minY - WORD_ROW * (i + 1) - 2.4;
    if (!isOpen) marks.push(line([a[0], y - 1.6], b, stroke));
    const said = [words.slice(0, 2).join(' '), ...(words.length > 2 ? [words.slice(2).join(' ')] : [])].join(
      ', ',
    );
    const width = lettering.width(said, WORD, true);
    const isLeft = a[0] - 1 - width >= box.minX;
    marks.push(
      text(lettering, said, [a[0] + (isLeft ? -1 : 1), y], {
        size: WORD,
        bold: true,
        align: isLeft ? 'right' : 'left',
      }),
    );
  }
  return marks;
}

/** Where the drawing goes on: a wavy end instead of a straight one. */
function tornEnd(lay: LayOnPaper, m: Matrix, x: number): Mark {
  const count = 12;
  const points = Array.from({ length: count * 2 + 1 }, (_, i): Pt => {
    const [px, py] = pointOnPaper(m, x, (lay.across * i) / (count * 2));
    const out = pointOnPaper(
      m,
      x + (i % 2 === 0 ? -1 : 1) * 0.8 * scaleOf(m),
      (lay.across * i) / (count * 2),
    );
    return i % 2 === 0 ? [px, py] : out;
  });
  return stroked([pathThrough(points, false)], { width: 0.25, colour: FAINT });
}

const scaleOf = (m: Matrix): number => 1 / Math.hypot(m[0], m[1]);

/** Everything round the cloth: its edges, ticks with numbers, what is needed and bought, which way it runs. */
export function clothRound(lettering: Lettering, lay: LayOnPaper, frame: LayFrame, units: Units): Mark[] {
  const m = toPaper(lay, frame);
  const torn = [
    ...(frame.from > 0 ? [frame.from] : []),
    ...(frame.to < lay.length || lay.goesOn ? [frame.to] : []),
  ];
  return [
    ...ticks(lettering, lay, frame, m, units),
    ...edges(lettering, lay, frame, m, units),
    ...torn.map((x) => tornEnd(lay, m, x)),
    ...ends(lettering, lay, frame, m, units),
    ...oneWay(lettering, lay, frame),
    ...leftOverMarks(lettering, lay, frame, units),
  ];
}
