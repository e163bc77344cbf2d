import { mateWords } from '../garment';
import { add, perpendicular, scale } from '../geometry';
import type { Box, Pt } from '../geometry';
import { formatLength } from '../pattern';
import type { Units } from '../pattern';
import type { Block } from './block';
import { stack } from './block';
import { shortName } from './cleanText';
import { INK, LEADER_LINE, SOFT } from './ink';
import { CAPITALS, grown, line, movedMarks, text } from './marks';
import type { Lettering, Mark } from './marks';
import type { EdgeOnPaper } from './panelOnPaper';
import type { Room } from './room';

const SIZES = [3.2, 2.6, 2.1] as const;
/** Distance of lettering from the stitching line, mm. */
const OFF_LINE = 1.6;
/** Distances from the stitching line, and places along the edge (shares of the slide), in the order they are tried. */
const GAPS = [OFF_LINE, OFF_LINE + 2.5, OFF_LINE + 5, OFF_LINE + 9] as const;
const SLIDES = [0, 0.33, -0.33, 0.66, -0.66, 1, -1] as const;
/** Stretches shorter than this carry no allowance of their own in words, mm. */
const SHORTEST = 6;

/** What of a dart is eased in between the notches of this side of a seam, or of the other. */
function easeWords({ ease, mateEase }: EdgeOnPaper, units: Units): string {
  const small = (mm: number): string => formatLength(mm, units === 'in' ? 'in' : 'mm');
  if (ease > 0) return `, ease in ${small(ease)} between notches`;
  return mateEase > 0 ? `, takes ${small(mateEase)} of ease between notches` : '';
}

const inShort = (name: string): string => shortName(name, 24);

/** What is said along an edge: where it is sewn to, or its name, and its allowance. */
export function edgeWords(edge: EdgeOnPaper, units: Units): readonly [what: string, allowance: string] {
  return [
    `${mateWords(edge, inShort)}${easeWords(edge, units)}`,
    edge.allowance > 0 ? formatLength(edge.allowance, units) : '',
  ];
}

function wording(lettering: Lettering, words: readonly string[], size: number, bold: boolean): Block {
  const lines = words.map((w, i): Block => {
    const mark = text(lettering, w, [0, size * CAPITALS], {
      size,
      bold: bold && i === 0,
      colour: i === 0 ? INK : SOFT,
    });
    return { width: mark.width, height: size * (CAPITALS + 0.2), marks: [mark] };
  });
  const width = Math.max(...lines.map((l) => l.width));
  return stack(
    lines.map((l) => ({ ...l, width, marks: movedMarks(l.marks, [(width - l.width) / 2, 0]) })),
    0.3,
  );
}

/** Words longer than this are also tried in several lines, letters. */
const LONG = 18;

/** Name, mates, what is eased in and allowance in a line each. */
const inLines = ([what = '', ...rest]: readonly string[]): string[] => [
  ...what.split(/, (?=to |mirrored |ease |takes )| (?=\(mirrored)/),
  ...rest,
];

/** One line, two lines, more where there is much to say, then only the first part. */
function variants(lettering: Lettering, edge: EdgeOnPaper, units: Units): Block[] {
  const words = edgeWords(edge, units).filter((w) => w !== '');
  if (words.length === 0) return [];
  const bold = edge.isSeam;
  const [largest, ...smaller] = SIZES;
  const forms = (size: number): Block[] => [
    wording(lettering, [words.join(' · ')], size, bold),
    ...(words.length > 1 ? [wording(lettering, words, size, bold)] : []),
    ...(words[0]!.length > LONG ? [wording(lettering, inLines(words), size, bold)] : []),
  ];
  return [
    ...forms(largest),
    ...smaller.flatMap(forms),
    wording(lettering, words.slice(0, 1), SIZES[2], bold),
  ];
}

const boxAt = ([x, y]: Pt, b: Block): Box => ({
  minX: x - b.width / 2,
  minY: y - b.height / 2,
  maxX: x + b.width / 2,
  maxY: y + b.height / 2,
});

/** Middle of a block that lies `gap` mm off the stitching line at `p`, on the side of `towards`. */
function besideLine(p: Pt, towards: Pt, b: Block, gap: number): Pt {
  const reach = (Math.abs(towards[0]) * b.width + Math.abs(towards[1]) * b.height) / 2;
  return add(p, scale(towards, gap + reach));
}

/** The label inside the panel, close to the middle of its edge, off joins if it can; null where none of its forms fits. */
export function edgeLabelInside(
  lettering: Lettering,
  edge: EdgeOnPaper,
  units: Units,
  room: Room,
): Mark[] | null {
  const along = perpendicular(edge.inward);
  const slide = Math.min(edge.length * 0.3, 60);
  const forms = variants(lettering, edge, units);
  for (const keepsClear of room.hasAvoided ? [true, false] : [false]) {
    for (const block of forms) {
      for (const gap of GAPS) {
        for (const s of SLIDES) {
          const box = boxAt(
            besideLine(add(edge.at, scale(along, s * slide)), edge.inward, block, gap),
            block,
          );
          if ((keepsClear && !room.isClear(box)) || !room.isFree(box)) continue;
          room.take(grown(box, 0.8));
          return movedMarks(block.marks, [box.minX, box.minY]);
        }
      }
    }
  }
  return null;
}

/** The label outside the cutting line with a leader to its edge: for edges inside of which there is no room. */
export function edgeLabelOutside(
  lettering: Lettering,
  edge: EdgeOnPaper,
  units: Units,
  isFree: (box: Box) => boolean,
): Mark[] | null {
  const words = edgeWords(edge, units).filter((w) => w !== '');
  if (words.length === 0 || (!edge.isSeam && edge.length < SHORTEST)) return null;
  const block = wording(lettering, [words.join(' · ')], 2.4, edge.isSeam);
  const outward = scale(edge.inward, -1);
  for (const gap of [3, 6, 10, 15, 21]) {
    const middle = besideLine(edge.at, outward, block, edge.allowance + gap);
    const box = boxAt(middle, block);
    if (!isFree(box)) continue;
    const tip = add(edge.at, scale(outward, edge.allowance + gap - 1));
    return [line(tip, edge.at, LEADER_LINE), ...movedMarks(block.marks, [box.minX, box.minY])];
  }
  return null;
}
