/** Random skirts of two pieces with panel lines, for the laws of corners. Invented. */
import { type Curve, type Path, type Pt, type Ring, pathThrough } from '../../src/geometry';
import type { Design, EdgeName, LineAllowance, PieceId } from '../../src/pattern';
import { design, panelLine, piece } from '../making/designs';

export type Random = () => number;
const between = (random: Random, a: number, b: number): number => a + (b - a) * random();

/** A side from waist to hem, straight or curved. */
function side(random: Random, from: Pt, to: Pt, isStraight: boolean): Curve {
  if (isStraight) return [from, to];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const bow = between(random, -18, 18);
  return [
    from,
    [from[0] + dx * 0.35 + bow, from[1] + dy * 0.35],
    [from[0] + dx * 0.7 + bow / 2, from[1] + dy * 0.7],
    to,
  ];
}

export interface SkirtChoices {
  readonly straightSides: boolean;
  readonly straightHem: boolean;
}

/** One piece: waist, two side seams, hem; flared or tapered. */
function skirtPiece(random: Random, name: string, x: number, { straightSides, straightHem }: SkirtChoices) {
  const [waist, height] = [between(random, 260, 420), between(random, 380, 620)];
  const [left, right] = [between(random, -50, 110), between(random, -50, 110)];
  const dip = straightHem ? between(random, -30, 30) : 0;
  const [a, b, c, d]: Pt[] = [
    [x, 0],
    [x + waist, 0],
    [x + waist + right, height],
    [x - left, height + dip],
  ];
  const sag = between(random, 5, 25);
  const hem: Curve = straightHem
    ? [c!, d!]
    : [c!, [c![0] - waist * 0.3, height + sag], [d![0] + waist * 0.3, height + sag], d!];
  const outline: Ring = [
    [a!, b!],
    side(random, b!, c!, straightSides),
    hem,
    side(random, d!, a!, straightSides),
  ];
  const edgeNames: EdgeName[] = [
    { name: 'waist', path: [outline[0]!] },
    { name: 'left side seam', path: [outline[1]!] },
    { name: 'hem', path: [outline[2]!] },
    { name: 'right side seam', path: [outline[3]!] },
  ];
  return { piece: piece(outline, { name, edgeNames }), waist, height, x };
}

/** Lines that run over the whole piece, or end on an earlier one. */
function linesOf(random: Random, { waist, height, x }: { waist: number; height: number; x: number }): Path[] {
  const over = (y0: number, y1: number): Path =>
    pathThrough(
      [
        [x - 200, y0],
        [x + waist + 200, y1],
      ],
      false,
    );
  const yoke = over(height * between(random, 0.25, 0.4), height * between(random, 0.25, 0.45));
  const lines: Path[] = [yoke];
  const [top, low] = [random() < 0.5, random() < 0.8];
  const middle = (s: number): number => x + waist * s;
  const at = (px: number): Pt => {
    const [p, q] = [yoke[0]![0], yoke[0]![1]!];
    return [px, p[1] + ((px - p[0]) / (q[0] - p[0])) * (q[1] - p[1])];
  };
  if (top) {
    const foot = at(middle(between(random, 0.3, 0.7)));
    lines.push(pathThrough([[foot[0] + between(random, -70, 70), -50], foot], false));
  }
  if (low) {
    const start = at(middle(between(random, 0.25, 0.75)));
    const lean = between(random, -70, 70);
    lines.push(
      random() < 0.5
        ? pathThrough([start, [start[0] + lean, height + 150]], false)
        : [
            [
              start,
              [start[0], start[1] + 80],
              [start[0] + lean, height - 150],
              [start[0] + lean * 1.2, height + 150],
            ],
          ],
    );
  }
  return lines;
}

/** Front and back with their lines, seams of several widths, and a hem of 10 to 50 mm. */
export function randomSkirt(random: Random, choices: SkirtChoices): Design {
  const parts = [skirtPiece(random, 'front', 0, choices), skirtPiece(random, 'back', 1000, choices)];
  const drawn = parts.flatMap((part) =>
    linesOf(random, part).map((path) => ({ path, piece: part.piece.name as PieceId })),
  );
  const lines = drawn.map(({ path, piece: own }, i) => panelLine(path, i, { piece: own, once: true }));
  const widths = lines.flatMap((l): LineAllowance[] =>
    random() < 0.3 ? [{ line: l.id, width: between(random, 6, 25) }] : [],
  );
  const outer = between(random, 8, 20);
  return design(
    parts.map((p) => p.piece),
    lines,
    {
      allowances: {
        tracing: { kind: 'net', outer },
        newSeam: between(random, 8, 20),
        hem: between(random, 10, 50),
        edges: [],
        lines: widths,
      },
    },
  );
}
