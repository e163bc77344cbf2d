import type { Curve, Pt } from '../geometry';
import { arcCurves } from './arcs';

/** One subpath in the units of its element. A closed one ends where it starts, by a straight stretch if need be. */
export interface Subpath {
  readonly curves: readonly Curve[];
  readonly closed: boolean;
}

export interface PathData {
  readonly subpaths: readonly Subpath[];
  readonly commands: number;
  /** What could not be read, and where; null when all was read. The subpaths before it are kept. */
  readonly fault: string | null;
}

/** How many numbers each command takes (SVG 1.1, section 8.3). */
const ARITY: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  H: 1,
  V: 1,
  C: 6,
  S: 4,
  Q: 4,
  T: 2,
  A: 7,
  Z: 0,
};

/** A quadratic curve as the cubic with the same points: degree elevation, exact. */
const raisedQuadratic = (a: Pt, b: Pt, c: Pt): Curve => [
  a,
  [a[0] + (2 / 3) * (b[0] - a[0]), a[1] + (2 / 3) * (b[1] - a[1])],
  [c[0] + (2 / 3) * (b[0] - c[0]), c[1] + (2 / 3) * (b[1] - c[1])],
  c,
];

const same = (a: Pt, b: Pt): boolean => a[0] === b[0] && a[1] === b[1];
const mirrored = (handle: Pt, about: Pt): Pt => [2 * about[0] - handle[0], 2 * about[1] - handle[1]];

/** Follows the commands of one path: the pen's place, the subpath being drawn, the handle a smooth command mirrors. */
class Pen {
  readonly done: Subpath[] = [];
  private curves: Curve[] = [];
  private start: Pt = [0, 0];
  private handle: { readonly of: 'C' | 'Q'; readonly at: Pt } | null = null;
  at: Pt = [0, 0];

  move(to: Pt): void {
    this.finish(false);
    this.start = to;
    this.at = to;
    this.handle = null;
  }

  line(to: Pt): void {
    if (!same(this.at, to)) this.curves.push([this.at, to]);
    this.at = to;
    this.handle = null;
  }

  cubic(b: Pt, c: Pt, to: Pt): void {
    if (!(same(this.at, b) && same(b, c) && same(c, to))) this.curves.push([this.at, b, c, to]);
    this.at = to;
    this.handle = { of: 'C', at: c };
  }

  quadratic(b: Pt, to: Pt): void {
    if (!(same(this.at, b) && same(b, to))) this.curves.push(raisedQuadratic(this.at, b, to));
    this.at = to;
    this.handle = { of: 'Q', at: b };
  }

  arc(rx: number, ry: number, turn: number, large: boolean, sweep: boolean, to: Pt): void {
    this.curves.push(...arcCurves(this.at, rx, ry, turn, large, sweep, to));
    this.at = to;
    this.handle = null;
  }

  /** First handle of a smooth curve: the last one mirrored, or the pen's place after another kind of command. */
  smooth(of: 'C' | 'Q'): Pt {
    return this.handle?.of === of ? mirrored(this.handle.at, this.at) : this.at;
  }

  close(): void {
    this.line(this.start);
    this.finish(true);
  }

  finish(closed: boolean): void {
    if (this.curves.length > 0) this.done.push({ curves: this.curves, closed });
    this.curves = [];
  }
}

/** Carry out one command with its numbers. */
function draw(pen: Pen, command: string, n: readonly number[]): void {
  const upper = command.toUpperCase();
  const [ox, oy] = command === upper ? [0, 0] : pen.at;
  const point = (i: number): Pt => [n[i]! + ox, n[i + 1]! + oy];
  if (upper === 'M') pen.move(point(0));
  else if (upper === 'L') pen.line(point(0));
  else if (upper === 'H') pen.line([n[0]! + ox, pen.at[1]]);
  else if (upper === 'V') pen.line([pen.at[0], n[0]! + oy]);
  else if (upper === 'C') pen.cubic(point(0), point(2), point(4));
  else if (upper === 'S') pen.cubic(pen.smooth('C'), point(0), point(2));
  else if (upper === 'Q') pen.quadratic(point(0), point(2));
  else if (upper === 'T') pen.quadratic(pen.smooth('Q'), point(0));
  else if (upper === 'A') pen.arc(n[0]!, n[1]!, n[2]!, n[3] === 1, n[4] === 1, point(5));
  else pen.close();
}

/** Reads numbers, arc flags and commands from path data one after another, in linear time. */
class Scanner {
  private readonly text: string;
  private readonly number = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
  private readonly blank = /[\s,]*/y;
  at = 0;

  constructor(text: string) {
    this.text = text;
  }

  skip(): void {
    this.blank.lastIndex = this.at;
    this.blank.exec(this.text);
    this.at = this.blank.lastIndex;
  }

  get ended(): boolean {
    return this.at >= this.text.length;
  }

  command(): string | null {
    const letter = this.text[this.at] ?? '';
    if (!/[MLHVCSQTAZ]/i.test(letter)) return null;
    this.at += 1;
    return letter;
  }

  get startsNumber(): boolean {
    return /[\d.+-]/.test(this.text[this.at] ?? '');
  }

  /** The next number, or null where there is none or it is too large for a number. */
  value(): number | null {
    this.number.lastIndex = this.at;
    const match = this.number.exec(this.text);
    const value = match ? Number(match[0]) : Number.NaN;
    if (!Number.isFinite(value)) return null;
    this.at = this.number.lastIndex;
    return value;
  }

  /** An arc flag is one digit and may touch the next number. */
  flag(): number | null {
    const digit = this.text[this.at];
    if (digit !== '0' && digit !== '1') return null;
    this.at += 1;
    return Number(digit);
  }

  /** What stands here, for a message. */
  get here(): string {
    const word = this.text.slice(this.at, this.at + 20).split(/[\s,]/)[0];
    return word ? `“${word}”` : 'nothing';
  }
}

/** The numbers of one command, or null at the first that is missing. */
function parameters(scan: Scanner, command: string): number[] | null {
  const upper = command.toUpperCase();
  const numbers: number[] = [];
  for (let i = 0; i < ARITY[upper]!; i += 1) {
    scan.skip();
    const value = upper === 'A' && (i === 3 || i === 4) ? scan.flag() : scan.value();
    if (value === null) return null;
    numbers.push(value);
  }
  return numbers;
}

/**
 * Read the `d` of a path: all commands, absolute and relative, repeated ones included. Lines stay lines, cubics stay
 * cubics, quadratics become cubics (exact), arcs become cubics (see arcs.ts). Stretches without length are dropped.
 * @param most commands after which reading stops with a fault
 */
export function parsePathData(d: string, most: number): PathData {
  const scan = new Scanner(d);
  const pen = new Pen();
  let commands = 0;
  let command: string | null = null;
  const end = (fault: string | null): PathData => {
    pen.finish(false);
    return { subpaths: pen.done, commands, fault };
  };
  for (scan.skip(); !scan.ended; scan.skip()) {
    const letter = scan.command();
    if (letter !== null) command = letter;
    else if (command === null || ARITY[command.toUpperCase()] === 0 || !scan.startsNumber)
      return end(scan.here);
    if (commands === 0 && command!.toUpperCase() !== 'M') return end(`${command} before the first M`);
    const numbers = parameters(scan, command!);
    if (numbers === null) return end(scan.here);
    draw(pen, command!, numbers);
    if (command === 'M') command = 'L';
    if (command === 'm') command = 'l';
    commands += 1;
    if (commands > most) return end(null);
  }
  return end(null);
}
