import { expect, test } from 'vitest';
import { openDesign, saveDesign } from '../../src/files';
import { settleLines, tieLines } from '../../src/lines';
import { design, panelLine, piece, ringThrough } from '../making/designs';

test('a point far beside the tip of a piece is tied by what can be kept in a file', () => {
  const tip = piece(
    ringThrough([
      [100, 0],
      [200, 400],
      [0, 400],
    ]),
  );
  const far = panelLine(
    [
      [400, 4],
      [-50, 300],
    ],
    0,
  );
  const lines = tieLines(design([tip], [far]), new Set([far.id]));
  const tied = lines[0]!;
  expect(tied.ties!.nodes[0]).not.toBeNull();
  const doc = design([tip], lines);
  expect(openDesign(new TextEncoder().encode(saveDesign(doc)), 'tip.json').ok).toBe(true);
  const settledPath = settleLines(doc).lines[0]!.path;
  expect(settledPath[0]![0][0]).toBeCloseTo(400, 6);
  expect(settledPath[0]![0][1]).toBeCloseTo(4, 6);
});
