import { CHORD_SAGITTA, subdivide, type Curve, type Path, type Pt, type Ring } from '../../src/geometry';
import { randomFrom, smoothRing } from '../geometry/randomDrawings';
import { facesByJsts, sampled } from '../outside/jstsFaces';
import { median, sayTimes, timesOf } from './timing';

/** An outline of 20 cubics about as large as a whole dress front, mm. */
function front(): Ring {
  const random = randomFrom(20);
  const corners = Array.from({ length: 20 }, (_, i): Pt => {
    const angle = (i / 20) * 2 * Math.PI;
    return [(230 + 25 * random()) * Math.cos(angle), (420 + 25 * random()) * Math.sin(angle)];
  });
  return smoothRing(corners);
}

/** Eight gently curved lines: four across, two down, two that end on others. */
function fashionLines(): Path[] {
  const bent = (a: Pt, b: Pt, bend: number): Path => [
    [
      a,
      [a[0] + (b[0] - a[0]) / 3, a[1] + (b[1] - a[1]) / 3 + bend],
      [a[0] + ((b[0] - a[0]) * 2) / 3, a[1] + ((b[1] - a[1]) * 2) / 3 + bend],
      b,
    ],
  ];
  return [
    ...[-250, -90, 60, 230].map((y, i) => bent([-300, y], [300, y + 20], 15 - 8 * i)),
    bent([-80, -500], [-60, 500], 30),
    bent([90, -500], [110, 500], -25),
    [
      [
        [-72, -20],
        [93, 30],
      ],
    ],
    [
      [
        [101, 150],
        [300, 120],
      ],
    ],
  ];
}

/** A comb of n curved teeth on a strip that grows with n. */
function comb(n: number): { outline: Ring; lines: Path[] } {
  const width = 20 * (n + 1);
  const outline: Curve[] = [
    [
      [0, 0],
      [width / 3, -15],
      [(width * 2) / 3, 15],
      [width, 0],
    ],
    [
      [width, 0],
      [width, 300],
    ],
    [
      [width, 300],
      [(width * 2) / 3, 310],
      [width / 3, 290],
      [0, 300],
    ],
    [
      [0, 300],
      [0, 0],
    ],
  ];
  const lines = Array.from({ length: n }, (_, i): Path => {
    const x = 20 * (i + 1);
    return [
      [
        [x, -20],
        [x + 8, 100],
        [x - 8, 200],
        [x, 320],
      ],
    ];
  });
  return { outline, lines };
}

const moved = (path: Path, by: number): Path =>
  path.map((c) => c.map((p): Pt => [p[0], p[1] + by]) as unknown as Curve);

function demoLike(): void {
  const [outline, lines] = [front(), fashionLines()];
  const ours = timesOf(
    (run) => subdivide(outline, [...lines.slice(0, 7), moved(lines[7]!, (run % 20) / 10)]),
    300,
    100,
  );
  // The reference gets the same drawing as chords of the same fineness.
  const ring = sampled(outline, CHORD_SAGITTA);
  const theirs = timesOf(
    () =>
      facesByJsts(
        ring,
        lines.map((l) => sampled(l, CHORD_SAGITTA)),
      ),
    40,
    10,
  );
  console.log(
    `outline of 20 cubics, 8 lines, ${subdivide(outline, lines).faces.length} faces: ${sayTimes(ours)}`,
  );
  console.log(`jsts, noding and polygonizing the same as chords: ${sayTimes(theirs)}`);
  console.log(`ratio jsts / ours: ${(median(theirs) / median(ours)).toFixed(1)}`);
}

function growth(): void {
  let before = 0;
  for (const n of [25, 50, 100, 200]) {
    const { outline, lines } = comb(n);
    const times = timesOf(
      (run) => subdivide(outline, [...lines.slice(1), moved(lines[0]!, (run % 20) / 10)]),
      60,
      30,
    );
    const now = median(times);
    const factor = before > 0 ? `, ${(now / before).toFixed(2)} times the one before` : '';
    console.log(`comb of ${n} curved lines, ${n + 1} faces: ${sayTimes(times)}${factor}`);
    before = now;
  }
}

/** Medians of subdividing a garment-sized drawing, its growth with the number of lines, and the ratio to jsts. */
export default function benchSubdivide(): void {
  demoLike();
  growth();
}
