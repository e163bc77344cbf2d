/** A half front with a flared, curved side, named edges and levels, for tests of ties. Invented. */
import fc from 'fast-check';
import { type Path, type Pt, asOuterRing } from '../../src/geometry';
import type { Design, LineId, PanelLine, Piece, PieceId } from '../../src/pattern';
import { tied } from '../../src/lines';
import { design, panelLine, piece } from '../making/designs';

/** Measures of a half front, mm. */
export interface Measures {
  readonly neck: number;
  readonly shoulder: number;
  readonly bust: number;
  readonly waist: number;
  readonly hip: number;
  readonly hem: number;
  /** Heights below the neck point. */
  readonly underarm: number;
  readonly waistAt: number;
  readonly hipAt: number;
  readonly length: number;
}

export const USUAL: Measures = {
  neck: 70,
  shoulder: 190,
  bust: 240,
  waist: 190,
  hip: 250,
  hem: 280,
  underarm: 210,
  waistAt: 420,
  hipAt: 620,
  length: 1000,
};

/** Measures of all sorts of wearers, waist narrower than bust and hip. */
export const measures: fc.Arbitrary<Measures> = fc
  .record({
    neck: fc.double({ min: 55, max: 90, noNaN: true }),
    shoulder: fc.double({ min: 150, max: 210, noNaN: true }),
    bust: fc.double({ min: 220, max: 320, noNaN: true }),
    waist: fc.double({ min: 160, max: 210, noNaN: true }),
    hip: fc.double({ min: 225, max: 330, noNaN: true }),
    hem: fc.double({ min: 225, max: 400, noNaN: true }),
    underarm: fc.double({ min: 180, max: 240, noNaN: true }),
    waistAt: fc.double({ min: 380, max: 460, noNaN: true }),
    hipAt: fc.double({ min: 560, max: 680, noNaN: true }),
    length: fc.double({ min: 800, max: 1200, noNaN: true }),
  })
  .map((m) => m);

const level = (name: string, y: number, width: number, k: number, [x0, y0]: Pt) => ({
  name,
  line: [
    [x0, y0 + y * k],
    [x0 + width * k, y0 + y * k],
  ] as const,
});

/** The half front on the fold at x = 0, grown by `k` and moved. Grain straight down. */
export function halfFront(m: Measures = USUAL, k = 1, at: Pt = [0, 0]): Piece {
  const p = (x: number, y: number): Pt => [at[0] + x * k, at[1] + y * k];
  const neckPoint = p(m.neck, 0);
  const neckline: Path = [[p(0, 80), p(m.neck * 0.6, 80), p(m.neck, 50), neckPoint]];
  const shoulder: Path = [[neckPoint, p(m.shoulder, 45)]];
  const armhole: Path = [
    [p(m.shoulder, 45), p(m.shoulder - 15, 120), p(m.shoulder - 10, m.underarm), p(m.bust, m.underarm)],
  ];
  const side: Path = [
    [
      p(m.bust, m.underarm),
      p(m.bust - 10, m.underarm + 70),
      p(m.waist, m.waistAt - 70),
      p(m.waist, m.waistAt),
    ],
    [p(m.waist, m.waistAt), p(m.waist, m.waistAt + 70), p(m.hip, m.hipAt - 70), p(m.hip, m.hipAt)],
    [p(m.hip, m.hipAt), p(m.hem, m.length)],
  ];
  const hem: Path = [[p(m.hem, m.length), p(0, m.length)]];
  const fold: Path = [[p(0, m.length), p(0, 80)]];
  return piece(asOuterRing([...neckline, ...shoulder, ...armhole, ...side, ...hem, ...fold]), {
    name: 'front',
    fold: [p(0, m.length), p(0, 80)],
    grain: [p(20, 100), p(20, 400)],
    levels: [
      level('bust', m.underarm + 30, m.bust, k, at),
      level('waist', m.waistAt, m.waist, k, at),
      level('hip', m.hipAt, m.hip, k, at),
    ],
    edgeNames: [
      { name: 'neckline', path: neckline },
      { name: 'shoulder', path: shoulder },
      { name: 'armhole', path: armhole },
      { name: 'side seam', path: side },
      { name: 'hem', path: hem },
    ],
  });
}

export const FRONT = 'front' as PieceId;
export const line = (path: Path, n = 1, over: Partial<PanelLine> = {}): PanelLine =>
  panelLine(path, n - 1, { piece: FRONT, ...over });

/** A design of one half front with lines on it. */
export const front = (m: Measures, lines: readonly PanelLine[], k = 1, at: Pt = [0, 0]): Design =>
  design([halfFront(m, k, at)], lines);

/** The design with every line tied where it lies, each after those before it. */
export const tiedAll = (d: Design): Design =>
  d.lines.reduce<Design>((now, l) => {
    const own = now.lines.find((x) => x.id === l.id)!;
    return { ...now, lines: now.lines.map((x) => (x.id === l.id ? tied(now, own) : x)) };
  }, d);

export const pathOf = (d: Design, n = 1): Path => d.lines.find((l) => l.id === (`line-${n}` as LineId))!.path;
