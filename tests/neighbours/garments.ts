/** Made-up bodices and sleeves for the neighbours' tests: curves, darts and notches as numbers say. Invented. */
import { type Curve, type Path, type Pt, type Ring, asOuterRing } from '../../src/geometry';
import {
  type Dart,
  type Design,
  type LineId,
  type Notch,
  type PanelLine,
  type Piece,
  type PieceId,
  openOut,
  type WholePiece,
} from '../../src/pattern';
import { dart, design, piece } from '../making/designs';

export interface BodiceNumbers {
  /** Bodice width at the underarm and at the hem, measured from the centre, mm. */
  readonly width: number;
  readonly flare: number;
  /** Depth of the armhole's end below the neck point, and length of the side seam (without dart), mm. */
  readonly armholeDepth: number;
  readonly side: number;
  /** How far the side seam bows inwards at its middle, mm. */
  readonly waistIn: number;
  /** Side dart: distance of its mouth from the underarm and its width, mm; null for none. */
  readonly dart: { readonly from: number; readonly intake: number } | null;
  /** Where the centre is on the drawing, and whether the side seam is on the drawing's right of it. */
  readonly at: Pt;
  readonly isRight: boolean;
}

export const USUAL: BodiceNumbers = {
  width: 240,
  flare: 10,
  armholeDepth: 190,
  side: 380,
  waistIn: 14,
  dart: null,
  at: [0, 0],
  isRight: true,
};

/** The parts of a half bodice's outline from the centre top round to the centre bottom, and the straight centre. */
export function bodiceParts(n: BodiceNumbers): {
  readonly neckline: Path;
  readonly shoulder: Path;
  readonly armhole: Path;
  readonly side: Path;
  readonly hem: Path;
  readonly centre: Path;
  readonly mouth: readonly [Pt, Pt] | null;
} {
  const p = (x: number, y: number): Pt => [n.at[0] + (n.isRight ? x : -x), n.at[1] + y];
  const neckPoint = p(70, 0);
  const shoulderPoint = p(165, 38);
  const underarm = p(n.width, n.armholeDepth);
  const bottom = n.armholeDepth + n.side;
  const hemSide = p(n.width + n.flare, bottom);
  const hemCentre = p(0, bottom);
  const centreTop = p(0, 80);
  const neckline: Path = [[centreTop, p(40, 80), p(70, 50), neckPoint]];
  const armhole: Path = [[shoulderPoint, p(150, 100), p(180, n.armholeDepth), underarm]];
  const { side, mouth } = sideSeam(n, p, underarm, hemSide);
  return {
    neckline,
    shoulder: [[neckPoint, shoulderPoint]],
    armhole,
    side,
    hem: [[hemSide, hemCentre]],
    centre: [[hemCentre, centreTop]],
    mouth,
  };
}

/** Straight to the dart, straight over its mouth, then in one curve to the hem. */
function sideSeam(
  n: BodiceNumbers,
  p: (x: number, y: number) => Pt,
  underarm: Pt,
  hemSide: Pt,
): { side: Path; mouth: readonly [Pt, Pt] | null } {
  const bottom = n.armholeDepth + n.side;
  const bow = (from: number): Curve => [
    p(n.width, from),
    p(n.width - n.waistIn, from + (bottom - from) / 3),
    p(n.width + n.flare - n.waistIn, from + ((bottom - from) * 2) / 3),
    hemSide,
  ];
  if (!n.dart) return { side: [bow(n.armholeDepth)], mouth: null };
  const a = p(n.width, n.armholeDepth + n.dart.from);
  const b = p(n.width, n.armholeDepth + n.dart.from + n.dart.intake);
  return {
    side: [[underarm, a], [a, b], bow(n.armholeDepth + n.dart.from + n.dart.intake)],
    mouth: [a, b],
  };
}

const EDGES = ['neckline', 'shoulder', 'armhole', 'side seam', 'hem'] as const;

/** A half bodice: on the fold (`fold`), or with a centre edge and cut as a pair. */
export function bodice(
  name: string,
  numbers: Partial<BodiceNumbers> = {},
  over: Partial<Piece> & { readonly onFold?: boolean; readonly named?: boolean } = {},
): Piece {
  const n = { ...USUAL, ...numbers };
  const { onFold = true, named = true, ...more } = over;
  const parts = bodiceParts(n);
  const paths = [parts.neckline, parts.shoulder, parts.armhole, parts.side, parts.hem];
  const outline: Ring = asOuterRing([...paths.flat(), ...parts.centre]);
  const names = EDGES.map((edge, i) => ({ name: edge as string, path: paths[i]! }));
  const part = /back/.test(name) ? 'centre back' : 'centre front';
  const point: Pt = [n.at[0] + (n.isRight ? 1 : -1) * (n.width - 130), (parts.mouth?.[0][1] ?? 0) + 6];
  const darts: Dart[] = parts.mouth ? [dart(parts.mouth[0], point, parts.mouth[1])] : [];
  return piece(outline, {
    name,
    id: name as PieceId,
    fold: onFold ? [parts.centre[0]![0], parts.centre[0]![1]] : null,
    grain: [
      [n.at[0] + (n.isRight ? 30 : -30), n.at[1] + 300],
      [n.at[0] + (n.isRight ? 30 : -30), n.at[1] + 200],
    ],
    darts,
    cutting: onFold ? 'once' : 'pair',
    edgeNames: named ? [...names, ...(onFold ? [] : [{ name: part, path: parts.centre }])] : [],
    ...more,
  });
}

/** A sleeve whose cap is one curve each side of its top, front on the drawing's right. */
export function sleeve(
  at: Pt,
  over: Partial<Piece> & { readonly cap?: number; readonly named?: boolean } = {},
): Piece {
  const { cap = 120, named = true, ...more } = over;
  const p = (x: number, y: number): Pt => [at[0] + x, at[1] + y];
  const [left, right, top] = [p(-160, 0), p(160, 0), p(0, -cap)];
  const capPath: Path = [
    [left, p(-90, 0), p(-80, -cap), top],
    [top, p(80, -cap), p(90, 0), right],
  ];
  const [underRight, hem, underLeft]: [Path, Path, Path] = [
    [[right, p(130, 300)]],
    [[p(130, 300), p(-130, 300)]],
    [[p(-130, 300), left]],
  ];
  return piece(asOuterRing([...capPath, ...underRight, ...hem, ...underLeft]), {
    name: 'sleeve',
    id: 'sleeve' as PieceId,
    cutting: 'pair',
    grain: [p(0, 0), p(0, 200)],
    edgeNames: named
      ? [
          { name: 'sleeve cap', path: capPath },
          { name: 'underarm seam', path: underRight },
          { name: 'hem', path: hem },
          { name: 'underarm seam', path: underLeft },
        ]
      : [],
    ...more,
  });
}

export const notch = (at: Pt): Notch => ({ at, inner: [at[0] - 5, at[1]] });

export const line = (
  id: string,
  onPiece: string,
  points: readonly [Pt, Pt],
  over: Partial<PanelLine> = {},
): PanelLine => ({
  id: id as LineId,
  piece: onPiece as PieceId,
  path: [[points[0], points[1]]],
  once: false,
  overDarts: 'flat',
  ties: null,
  ...over,
});

export const garmentDesign = (
  pieces: readonly Piece[],
  lines: readonly PanelLine[] = [],
  over: Partial<Design> = {},
): Design => design(pieces, lines, over);

export const opened = (p: Piece): WholePiece => openOut(p, null).whole;
export const byId = (wholes: readonly WholePiece[]): Map<PieceId, WholePiece> =>
  new Map(wholes.map((w) => [w.piece.id, w] as const));

/** Point of a curve, by its own formula: nothing of the code under test. */
export function bezier(c: Curve, t: number): Pt {
  const u = 1 - t;
  if (c.length === 2) return [c[0][0] * u + c[1][0] * t, c[0][1] * u + c[1][1] * t];
  const [a, b, d, e] = c;
  const at = (k: 0 | 1): number =>
    u * u * u * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * d[k] + t * t * t * e[k];
  return [at(0), at(1)];
}

/** Chords of a path, `steps` to a curve. */
export const dense = (path: Path, steps = 4000): Pt[] =>
  path.flatMap((c, i) =>
    Array.from({ length: steps + (i === 0 ? 1 : 0) }, (_, k) => bezier(c, (k + (i === 0 ? 0 : 1)) / steps)),
  );
