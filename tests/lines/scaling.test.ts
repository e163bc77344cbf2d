import { expect, test } from 'vitest';
import { distance } from '../../src/geometry';
import { settle } from '../../src/lines';
import { scaleDesign } from '../../src/pattern';
import { USUAL, front, line, tiedAll } from './ground';

test('a tracing put to its right size keeps its tied lines where they were drawn: both ways alike, or not', () => {
  const lines = [
    line(
      [
        [
          [0, 465],
          [195.34, 465],
        ],
      ],
      1,
    ),
    line(
      [
        [
          [0, USUAL.waistAt],
          [USUAL.waist, USUAL.waistAt],
        ],
      ],
      2,
    ),
    line(
      [
        [
          [60, USUAL.waistAt],
          [60, USUAL.length],
        ],
      ],
      3,
    ),
    line(
      [
        [
          [90, USUAL.waistAt],
          [90, USUAL.hipAt],
        ],
      ],
      4,
    ),
  ];
  const drawn = settle(tiedAll(front(USUAL, lines))).design;
  for (const [sx, sy] of [
    [25.4 / 10, 25.4 / 10],
    [1.01, 0.98],
  ] as const) {
    const { design, problems } = settle(scaleDesign(drawn, sx, sy));
    expect(problems).toEqual([]);
    design.lines.forEach((l, i) =>
      l.path.flat().forEach((p, k) => {
        const was = drawn.lines[i]!.path.flat()[k]!;
        expect(distance(p, [was[0] * sx, was[1] * sy])).toBeLessThan(1e-5);
      }),
    );
  }
});
