import fc from 'fast-check';
import { beforeAll, expect, test, vi } from 'vitest';
import { markLines, notchAt } from '../../src/allowance';
import { type Box, distance } from '../../src/geometry';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { type DrawnPanel, drawPanel } from '../../src/paper/drawPanel';
import { holdsBox, holdsPoint, sidesEnterBox } from '../../src/paper/inside';
import { type Lettering, type TextMark, overlaps, textBox } from '../../src/paper/marks';
import { openPen } from '../../src/paper/pen';
import { classGarment } from './classGarment';
import { box, handGarment } from './handGarment';

// Whole files are made, read back and rendered here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let lettering: Lettering;
beforeAll(async () => {
  lettering = (await openPen(await fontsFromDisk(), 'test')).lettering;
});

const texts = (d: DrawnPanel): TextMark[] => d.marks.filter((m): m is TextMark => m.kind === 'text');
const all = (d: DrawnPanel): string =>
  texts(d)
    .map((t) => t.text)
    .join(' | ');

test('lettering lies inside the panel and never over other lettering', () => {
  const garment = classGarment();
  garment.panels.forEach((_, index) => {
    for (const turned of [false, true]) {
      const drawn = drawPanel(garment, index, turned, lettering);
      const boxes = texts(drawn).map((t) => ({ text: t.text, box: textBox(t) }));
      for (const { text, box: b } of boxes) {
        const isBeside =
          !sidesEnterBox(drawn.panel.inside, b) && !holdsPoint(drawn.panel.inside, [b.minX, b.minY]);
        expect(holdsBox(drawn.panel.inside, b) || isBeside, `${text} of panel ${index + 1}`).toBe(true);
        // Only a panel too small for its label, or turned so that it is, has any beside it.
        if (isBeside) expect(drawn.panel.label.radius).toBeLessThan(12);
      }
      boxes.forEach((p, i) => {
        for (const q of boxes.slice(i + 1))
          expect(overlaps(shrunk(p.box), shrunk(q.box)), `${p.text} over ${q.text}`).toBe(false);
      });
    }
  });
});

// Lines of one label stand close; their letters do not reach the full height of the box.
const shrunk = (b: Box): Box => ({ minX: b.minX, minY: b.minY + 0.5, maxX: b.maxX, maxY: b.maxY - 0.5 });

test('a panel says its number, piece, colour, how to cut it, its mates and its allowances', () => {
  const garment = classGarment();
  const index = garment.panels.findIndex(
    (p) => p.piece === 'sleeve' && garment.seams.some((s) => s.a === p.id || s.b === p.id),
  );
  const words = all(drawPanel(garment, index, false, lettering));
  expect(words).toContain('sleeve');
  expect(words).toContain('Cut 2, one mirrored');
  expect(words).toMatch(/to \d+/);
  expect(words).toContain('1.5 cm');
});

test('a single arrow head says that the cloth has a nap', () => {
  const plain = handGarment([{ points: box(200, 200) }]);
  const [cloth] = plain.design.colours;
  const nap = handGarment([{ points: box(200, 200) }], { colours: [{ ...cloth!, nap: true }] });
  const heads = (d: DrawnPanel): number =>
    d.marks.filter((m) => m.kind === 'path' && m.fill === '#23262d' && m.paths[0]!.length === 3).length;
  expect(heads(drawPanel(plain, 0, false, lettering))).toBe(2);
  expect(heads(drawPanel(nap, 0, false, lettering))).toBe(1);
});

test('in a tiny panel the label moves beside it, with a leader, and still says everything', () => {
  const garment = handGarment([{ points: box(14, 9) }, { points: box(100, 100) }]);
  const drawn = drawPanel(garment, 0, false, lettering);
  for (const word of ['1', 'front', 'rust', 'Cut 1, right side up'])
    expect(texts(drawn).some((t) => t.text === word)).toBe(true);
  expect(all(drawn)).toContain('to 2');
  expect(drawn.outside.length).toBeGreaterThan(3);
  expect(drawn.box.maxY).toBeGreaterThan(drawn.panel.box.maxY);
});

test('turning a panel keeps its size and its number upright', () => {
  const garment = handGarment([{ points: box(120, 300) }]);
  const [upright, turned] = [drawPanel(garment, 0, false, lettering), drawPanel(garment, 0, true, lettering)];
  expect(turned.panel.box.maxX).toBeCloseTo(upright.panel.box.maxY, 9);
  expect(turned.panel.box.maxY).toBeCloseTo(upright.panel.box.maxX, 9);
  const [a, b] = turned.panel.grain;
  expect(a[1]).toBeCloseTo(b[1], 9);
});

test('a notch starts on the cutting line, is square to it, and stays 3 mm off the stitching line', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      fc.constantFrom(1 as const, 2 as const, 3 as const),
      (allowance, angle, marks) => {
        const notch = notchAt({
          at: [10, 20],
          outward: [Math.cos(angle), Math.sin(angle)],
          allowance,
          marks,
          seam: null,
          along: null,
          ease: null,
        });
        const lines = markLines(notch);
        expect(lines.length).toBe(marks);
        for (const [start, end] of lines) {
          const reach = (p: readonly [number, number]): number =>
            (p[0] - 10) * notch.outward[0] + (p[1] - 20) * notch.outward[1];
          expect(reach(start)).toBeCloseTo(allowance, 9);
          // Inwards no deeper than allowance − 3; in a narrow allowance outwards instead.
          if (reach(end) < allowance) expect(reach(end)).toBeGreaterThanOrEqual(3 - 1e-9);
          expect(distance(start, end)).toBeGreaterThanOrEqual(1.5 - 1e-9);
          expect(Math.abs(Math.abs(reach(end) - reach(start)) - distance(start, end))).toBeLessThan(1e-9);
        }
      },
    ),
    { seed: 7, numRuns: 300 },
  );
});
