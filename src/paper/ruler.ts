import { MM_PER_INCH } from '../pattern';
import type { Block } from './block';
import { INK, SOFT } from './ink';
import { line, movedMarks, rectangle, stroked, text } from './marks';
import type { Lettering, Mark, Stroke } from './marks';

const BASE: Stroke = { width: 0.25, colour: INK };
const TICK: Stroke = { width: 0.18, colour: INK };

/** A scale along +x: base line at y = 0, ticks on one side, numbers beyond them. */
interface Scale {
  /** mm */
  readonly length: number;
  readonly unit: 'cm' | 'in';
  readonly ticks: 'above' | 'below';
}

/** cm with millimetre and half-centimetre ticks, or inches with eighths. */
function scaleMarks(lettering: Lettering, { length, unit, ticks }: Scale, size: number): Mark[] {
  const [whole, parts] = unit === 'cm' ? [10, 10] : [MM_PER_INCH, 8];
  const out = ticks === 'above' ? -1 : 1;
  const marks: Mark[] = [];
  const count = Math.round((length / whole) * parts);
  for (let i = 0; i <= count; i += 1) {
    const x = (i * whole) / parts;
    const reach = i % parts === 0 ? 3.2 : i % (parts / 2) === 0 ? 2.3 : 1.3;
    marks.push(line([x, 0], [x, out * reach], TICK));
    if (i % parts !== 0 || i === 0) continue;
    const y = out < 0 ? -3.8 : 3.8 + size * 0.74;
    marks.push(text(lettering, `${i / parts}`, [x, y], { size, align: 'centre', colour: SOFT }));
  }
  return marks;
}

/** cm above and inches below one base line. The base line is exactly `cm` centimetres, or the inches if they reach farther. */
export function ruler(lettering: Lettering, cm: number, inches: number, size = 2.4): Block {
  const length = Math.max(cm * 10, inches * MM_PER_INCH);
  const marks = [
    line([0, 0], [length, 0], BASE),
    ...scaleMarks(lettering, { length: cm * 10, unit: 'cm', ticks: 'above' }, size),
    ...scaleMarks(lettering, { length: inches * MM_PER_INCH, unit: 'in', ticks: 'below' }, size),
    text(lettering, 'cm', [1, -3.8], { size: size * 0.9, colour: SOFT }),
    text(lettering, 'in', [1, 3.8 + size * 0.74], { size: size * 0.9, colour: SOFT }),
  ];
  const above = 3.8 + size;
  const moved = movedMarks(marks, [0, above]);
  return { width: length + 2, height: 2 * above + 0.6, marks: moved };
}

/** The same standing upright: cm on the left of the line, inches on the right; numbers stay horizontal. */
export function uprightRuler(lettering: Lettering, cm: number, inches: number, size = 2.4): Block {
  const marks: Mark[] = [];
  const length = Math.max(cm * 10, inches * MM_PER_INCH);
  const x = 3.8 + size * 1.2;
  marks.push(line([x, 0], [x, length], BASE));
  for (const [whole, parts, count, out] of [
    [10, 10, cm, -1],
    [MM_PER_INCH, 8, inches, 1],
  ] as const) {
    for (let i = 0; i <= count * parts; i += 1) {
      const y = (i * whole) / parts;
      const reach = i % parts === 0 ? 3.2 : i % (parts / 2) === 0 ? 2.3 : 1.3;
      marks.push(line([x, y], [x + out * reach, y], TICK));
      if (i % parts !== 0 || i === 0) continue;
      const at = x + out * 3.8;
      marks.push(
        text(lettering, `${i / parts}`, [at, y + size * 0.36], {
          size,
          align: out < 0 ? 'right' : 'left',
          colour: SOFT,
        }),
      );
    }
  }
  return { width: 2 * x, height: length, marks };
}

/** An empty square to measure, with its side written inside. */
export function testSquare(lettering: Lettering, side: number, label: string): Block {
  return {
    width: side,
    height: side,
    marks: [
      stroked([rectangle(0, 0, side, side)], { width: 0.3, colour: INK }, true),
      text(lettering, label, [side / 2, side / 2 + 1.6], { size: 4.4, bold: true, align: 'centre' }),
    ],
  };
}
