import { CAPITALS, movedMarks, rectangle, stroked, text } from './marks';
import type { Lettering, Mark, Stroke, TextStyle } from './marks';

/** Marks that belong together, in a frame whose upper left corner is 0, 0, mm. */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

export const EMPTY_BLOCK: Block = { width: 0, height: 0, marks: [] };
/** Distance of base lines, in ems. */
const LEADING = 1.38;

/** Words broken into lines no wider than `width` mm; a word too long for a line is broken where it must be. */
function wrap(lettering: Lettering, raw: string, width: number, size: number, bold = false): string[] {
  const fits = (s: string): boolean => lettering.width(s, size, bold) <= width;
  const lines: string[] = [];
  let current = '';
  for (const word of lettering.clean(raw).trim().split(' ')) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (fits(longer)) {
      current = longer;
      continue;
    }
    if (current !== '') lines.push(current);
    current = word;
    while (!fits(current) && current.length > 1) {
      let cut = current.length - 1;
      while (cut > 1 && !fits(current.slice(0, cut))) cut -= 1;
      lines.push(current.slice(0, cut));
      current = current.slice(cut);
    }
  }
  return [...lines, current];
}

/** A paragraph wrapped to a width. Empty text is an empty block. */
export function paragraph(lettering: Lettering, raw: string, width: number, style: TextStyle): Block {
  if (raw.trim() === '') return EMPTY_BLOCK;
  const { size, bold = false, align = 'left' } = style;
  const x = align === 'left' ? 0 : align === 'right' ? width : width / 2;
  const lines = wrap(lettering, raw, width, size, bold);
  const marks = lines.map((l, i) => text(lettering, l, [x, size * (CAPITALS + 0.08 + i * LEADING)], style));
  return { width, height: size * (CAPITALS + 0.3 + (lines.length - 1) * LEADING), marks };
}

/** Blocks below each other, left edges in line, with a gap (mm) between those that hold anything. */
export function stack(blocks: readonly Block[], gap: number): Block {
  const marks: Mark[] = [];
  let [width, height] = [0, 0];
  for (const b of blocks) {
    if (b.height === 0) continue;
    const y = height === 0 ? 0 : height + gap;
    marks.push(...movedMarks(b.marks, [0, y]));
    height = y + b.height;
    width = Math.max(width, b.width);
  }
  return { width, height, marks };
}

/** Blocks beside each other, tops (or middles) in line. */
export function row(blocks: readonly Block[], gap: number, middle = false): Block {
  const height = Math.max(0, ...blocks.map((b) => b.height));
  const marks: Mark[] = [];
  let width = 0;
  blocks.forEach((b, i) => {
    const x = width + (i === 0 ? 0 : gap);
    marks.push(...movedMarks(b.marks, [x, middle ? (height - b.height) / 2 : 0]));
    width = x + b.width;
  });
  return { width, height, marks };
}

/** A block moved inside a larger one. */
export function padded(b: Block, left: number, top: number, width: number, height: number): Block {
  return { width, height, marks: movedMarks(b.marks, [left, top]) };
}

/** An empty square to tick, side in mm. */
export function tickBox(side: number, stroke: Stroke): Block {
  return { width: side, height: side, marks: [stroked([rectangle(0, 0, side, side)], stroke, true)] };
}
