import { expect, test } from 'vitest';
import type { Path } from '../../src/geometry';
import { claimShape, possibleClaims } from '../../src/workbench/store/claimEdits';
import { design, piece, rectangle } from '../making/designs';

const sheet = piece(rectangle(200, 300));
const claimed = (path: Path, closed: boolean) =>
  claimShape(sheet.id, 'dart', path, closed)(design([sheet], [])).pieces[0]!.darts;

test('a shape with curved sides can be named a dart, and keeps its curves', () => {
  const open: Path = [
    [
      [200, 90],
      [170, 92],
      [140, 97],
      [120, 100],
    ],
    [
      [120, 100],
      [140, 103],
      [170, 108],
      [200, 110],
    ],
  ];
  expect(possibleClaims(open, false)).toContain('dart');
  expect(claimed(open, false)).toEqual([
    {
      kind: 'single',
      mouth: [
        [200, 90],
        [200, 110],
      ],
      point: [120, 100],
      legs: [[open[0]], [open[1]]],
      treatment: { kind: 'keep' },
    },
  ]);
  const lens: Path = [
    [
      [100, 50],
      [112, 90],
      [112, 110],
      [100, 150],
    ],
    [
      [100, 150],
      [88, 110],
      [88, 90],
      [100, 50],
    ],
  ];
  expect(possibleClaims(lens, true)).toContain('dart');
  expect(claimed(lens, true)[0]).toMatchObject({ kind: 'double' });
});

test('a triangle named a dart has its point inside, whichever corner was drawn first', () => {
  const triangle: Path = [
    [
      [120, 100],
      [200, 110],
    ],
    [
      [200, 110],
      [200, 90],
    ],
    [
      [200, 90],
      [120, 100],
    ],
  ];
  expect(claimed(triangle, true)[0]).toMatchObject({ kind: 'single', point: [120, 100], legs: null });
});

test('a round shape is no dart', () => {
  const round: Path = [
    [
      [100, 80],
      [111, 80],
      [120, 89],
      [120, 100],
    ],
    [
      [120, 100],
      [120, 111],
      [111, 120],
      [100, 120],
    ],
    [
      [100, 120],
      [89, 120],
      [80, 111],
      [80, 100],
    ],
    [
      [80, 100],
      [80, 89],
      [89, 80],
      [100, 80],
    ],
  ];
  expect(possibleClaims(round, true)).not.toContain('dart');
});
