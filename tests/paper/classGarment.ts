/** A sheath for the tests of this room: half front with darts, half back, sleeve cut as a pair. Invented. */
import { type Garment, deriveGarment } from '../../src/garment';
import { type Curve, type Line, type Path, asOuterRing, pathThrough } from '../../src/geometry';
import type { ColourId, Design, Piece, PieceId } from '../../src/pattern';
import { colour, design, panelLine, piece } from '../making/designs';

const down = (x: number): Line => [
  [x, 200],
  [x, 700],
];

/** Half front: fold along x = 0, neck at the top, hem at y = 950. */
const FRONT: readonly Curve[] = [
  [
    [0, 80],
    [30, 80],
    [66, 40],
    [70, 0],
  ],
  [
    [70, 0],
    [190, 40],
  ],
  [
    [190, 40],
    [165, 100],
    [170, 180],
    [235, 210],
  ],
  [
    [235, 210],
    [222, 300],
    [200, 360],
    [190, 410],
  ],
  [
    [190, 410],
    [205, 500],
    [245, 560],
    [245, 620],
  ],
  [
    [245, 620],
    [235, 950],
  ],
  [
    [235, 950],
    [0, 950],
  ],
  [
    [0, 950],
    [0, 80],
  ],
];

const BACK: readonly Curve[] = [
  [
    [0, 20],
    [40, 20],
    [66, 16],
    [72, 0],
  ],
  [
    [72, 0],
    [190, 42],
  ],
  [
    [190, 42],
    [172, 100],
    [178, 180],
    [228, 210],
  ],
  [
    [228, 210],
    [216, 300],
    [196, 360],
    [188, 410],
  ],
  [
    [188, 410],
    [204, 500],
    [242, 560],
    [242, 620],
  ],
  [
    [242, 620],
    [232, 950],
  ],
  [
    [232, 950],
    [0, 950],
  ],
  [
    [0, 950],
    [0, 20],
  ],
];

const SLEEVE: readonly Curve[] = [
  [
    [0, 150],
    [60, 120],
    [90, 0],
    [170, 0],
  ],
  [
    [170, 0],
    [250, 0],
    [280, 120],
    [340, 150],
  ],
  [
    [340, 150],
    [310, 600],
  ],
  [
    [310, 600],
    [30, 600],
  ],
  [
    [30, 600],
    [0, 150],
  ],
];

const level = (name: string, y: number): { name: string; line: Line } => ({
  name,
  line: [
    [0, y],
    [235, y],
  ],
});

const front: Piece = piece(asOuterRing(FRONT), {
  name: 'front',
  fold: [
    [0, 80],
    [0, 950],
  ],
  grain: down(120),
  darts: [
    {
      kind: 'single',
      legs: null,
      treatment: { kind: 'keep' },
      mouth: [
        [226.5, 268],
        [221.2, 298],
      ],
      point: [182, 270],
    },
    {
      kind: 'double',
      legs: null,
      treatment: { kind: 'keep' },
      points: [
        [100, 300],
        [112, 410],
        [100, 520],
        [88, 410],
      ],
    },
  ],
  notches: [{ at: [178.75, 136.25], inner: [170, 138] }],
  levels: [level('bust', 255), level('waist', 410), level('hip', 620)],
  edgeNames: [
    { name: 'neckline', path: [FRONT[0]!] },
    { name: 'shoulder', path: [FRONT[1]!] },
    { name: 'armhole', path: [FRONT[2]!] },
    { name: 'side seam', path: FRONT.slice(3, 6) },
    { name: 'hem', path: [FRONT[6]!] },
  ],
});

const back: Piece = piece(asOuterRing(BACK), {
  id: 'back' as PieceId,
  name: 'back',
  fold: [
    [0, 20],
    [0, 950],
  ],
  grain: down(120),
  darts: [
    {
      kind: 'double',
      legs: null,
      treatment: { kind: 'keep' },
      points: [
        [90, 420],
        [100, 480],
        [90, 600],
        [80, 480],
      ],
    },
  ],
  levels: [level('waist', 410)],
  edgeNames: [
    { name: 'hem', path: [BACK[6]!] },
    { name: 'shoulder', path: [BACK[1]!] },
  ],
});

const sleeve: Piece = piece(asOuterRing(SLEEVE), {
  id: 'sleeve' as PieceId,
  name: 'sleeve',
  grain: down(170),
  cutting: 'pair',
  notches: [{ at: [77.5, 63.75], inner: [84, 70] }],
  edgeNames: [
    { name: 'sleeve head', path: SLEEVE.slice(0, 2) },
    { name: 'hem', path: [SLEEVE[3]!] },
  ],
});

const lineOn = (name: string, path: Path, index: number, once = false): ReturnType<typeof panelLine> =>
  panelLine(path, index, { piece: name as PieceId, once });

const straight = (a: readonly [number, number], b: readonly [number, number]): Path =>
  pathThrough([a, b], false);

/** The design; `over` replaces parts of it. */
export const classDesign = (over: Partial<Design> = {}): Design =>
  design(
    [front, back, sleeve],
    [
      lineOn('front', straight([0, 230], [240, 230]), 0),
      lineOn('front', straight([150, 230], [160, 960]), 1, true),
      lineOn('front', straight([155, 600], [-260, 600]), 2, true),
      lineOn(
        'back',
        [
          [
            [0, 330],
            [80, 330],
            [140, 370],
            [215, 380],
          ],
        ],
        3,
      ),
      lineOn('back', straight([0, 700], [260, 700]), 4),
      lineOn('sleeve', straight([-20, 420], [360, 420]), 5),
      lineOn('sleeve', straight([-20, 440], [360, 440]), 6),
    ],
    {
      name: 'Half-moon sheath, ⅝ and é',
      colours: [
        colour('rust', '#b5532f'),
        colour('oat', '#e6dcc4'),
        { ...colour('night blue', '#1d2c4a'), nap: true },
      ],
      marks: [
        { piece: 'front' as PieceId, at: [60, 700], colour: 'oat' as ColourId },
        { piece: 'front' as PieceId, at: [200, 700], colour: 'night blue' as ColourId },
        { piece: 'back' as PieceId, at: [60, 500], colour: 'night blue' as ColourId },
        { piece: 'sleeve' as PieceId, at: [170, 430], colour: 'oat' as ColourId },
      ],
      ...over,
    },
  );

export const classGarment = (over: Partial<Design> = {}): Garment => deriveGarment(classDesign(over));
