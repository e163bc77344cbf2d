import fc from 'fast-check';
import svgpath from 'svgpath';
import { expect, test } from 'vitest';
import { flattenPath, nearestOnPath, pathLength, signedArea, type Path, type Pt } from '../../src/geometry';
import { readTracing } from '../../src/files';

/** A path read through the whole reader, on a page whose user unit is 1 mm. */
function readPath(d: string, transform = ''): Path {
  const outcome = readTracing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><rect id="outline" width="9" height="9"/>` +
      `<g transform="${transform}"><path id="panel-line" d="${d}"/></g></svg>`,
    'path.svg',
  );
  if (!outcome.ok) throw new Error(outcome.problems[0].code);
  return outcome.value.pieces[0]!.lines.flatMap((l) => l.path);
}

const number = fc.integer({ min: -900, max: 900 }).map((n) => n / 10);
const positive = fc.integer({ min: 50, max: 900 }).map((n) => n / 10);
const flag = fc.constantFrom(0, 1);
const command = fc.oneof(
  fc.tuple(fc.constantFrom('L', 'l', 'T', 't'), number, number),
  fc.tuple(fc.constantFrom('H', 'h', 'V', 'v'), number),
  fc.tuple(fc.constantFrom('C', 'c'), number, number, number, number, number, number),
  fc.tuple(fc.constantFrom('S', 's', 'Q', 'q'), number, number, number, number),
);
const pathText = fc
  .tuple(number, number, fc.array(command, { minLength: 1, maxLength: 8 }))
  .map(([x, y, commands]) => `M${x} ${y}${commands.map((c) => c.join(' ')).join('')}`);
const transformText = fc
  .array(
    fc.oneof(
      fc.tuple(number, number).map(([a, b]) => `translate(${a} ${b})`),
      fc.tuple(positive, positive).map(([a, b]) => `scale(${a / 40} ${-b / 40})`),
      fc.tuple(number, number, number).map(([a, b, c]) => `rotate(${a},${b},${c})`),
      number.map((a) => `rotate(${a})`),
      number.map((a) => `skewX(${a / 2})`),
      number.map((a) => `skewY(${a / 2})`),
      fc
        .tuple(positive, number, number, positive, number, number)
        .map((m) => `matrix(${m.map((v) => v / 30).join(' ')})`),
    ),
    { maxLength: 3 },
  )
  .map((list) => list.join(' '));

/** The path as svgpath 2.6.0 (shares no code with ours) has it: absolute, short forms and transforms worked out. */
function oracle(d: string, transform: string): number[][] {
  const segments: number[][] = [];
  svgpath(d)
    .abs()
    .unshort()
    .transform(transform)
    .iterate((segment, _, x, y) => {
      const [name, ...n] = segment as [string, ...number[]];
      if (name === 'M') return;
      if (name === 'H') segments.push([x, y, n[0]!, y]);
      else if (name === 'V') segments.push([x, y, x, n[0]!]);
      else if (name === 'Q') {
        const [bx, by, cx, cy] = n as [number, number, number, number];
        segments.push([
          x,
          y,
          x + (2 / 3) * (bx - x),
          y + (2 / 3) * (by - y),
          cx + (2 / 3) * (bx - cx),
          cy + (2 / 3) * (by - cy),
          cx,
          cy,
        ]);
      } else segments.push([x, y, ...n]);
    });
  return segments.filter((s) => s.some((v, i) => Math.abs(v - s[i % 2]!) > 1e-9));
}

test('random paths under random transforms are the curves that svgpath makes of them', () => {
  let compared = 0;
  fc.assert(
    fc.property(pathText, transformText, (d, transform) => {
      const expected = oracle(d, transform);
      // beyond 100 m the reader refuses; below its grid (1e-6 mm) a stretch has no length
      fc.pre(
        expected.every(
          (s) => s.every((v) => Math.abs(v) < 9e4) && s.some((v, i) => Math.abs(v - s[i % 2]!) > 1e-4),
        ),
      );
      fc.pre(
        expected.length > 0 &&
          expected.reduce((sum, s) => sum + Math.hypot(s.at(-2)! - s[0]!, s.at(-1)! - s[1]!), 0) > 1,
      );
      const ours = readPath(d, transform).map((c) => c.flat());
      expect(ours).toHaveLength(expected.length);
      ours.forEach((c, i) =>
        c.forEach((v, k) => expect(Math.abs(v - expected[i]![k]!)).toBeLessThan(2e-6 + 1e-11 * Math.abs(v))),
      );
      compared += 1;
    }),
    { numRuns: 1500, seed: 4711 },
  );
  expect(compared).toBeGreaterThan(1000);
}, 60_000);

/** Signed distance factor of a point from the ellipse: 1 on it. */
const onEllipse = ([x, y]: Pt, [cx, cy]: Pt, rx: number, ry: number): number =>
  Math.hypot((x - cx) / rx, (y - cy) / ry);

// Mortensen, "Approximate a circle with cubic Bézier curves": an arc of an eighth of a turn with handles 4/3·tan(θ/4)
// leaves the circle by about 4.2e-6 of the radius; a quarter by 2.7e-4 (table of outside checks, group 7).
test('circles and ellipses lie on the true curve', () => {
  for (const [rx, ry] of [
    [200, 200],
    [300, 40],
    [5, 700],
  ] as const) {
    const outcome = readTracing(
      `<svg xmlns="http://www.w3.org/2000/svg" width="1mm" height="1mm" viewBox="0 0 1 1"><ellipse id="outline" cx="3" cy="4" rx="${rx}" ry="${ry}"/></svg>`,
      'ring.svg',
    );
    if (!outcome.ok) throw new Error('refused');
    const { outline } = outcome.value.pieces[0]!;
    for (const p of flattenPath(outline, 0.001).points)
      expect(Math.abs(onEllipse(p, [3, 4], rx, ry) - 1)).toBeLessThan(5e-6);
    expect(Math.abs(signedArea(outline) / (Math.PI * rx * ry) - 1)).toBeLessThan(5e-6);
  }
});

test('the four arcs between two points lie on circles of their radius, on the side their flags say', () => {
  // chord 60 on radius 50: centres at (30, ±40); SVG 1.1 section 8.3.8: sweep 1 turns from +x towards +y
  for (const [large, sweep, centreY] of [
    [0, 1, 40],
    [0, 0, -40],
    [1, 1, -40],
    [1, 0, 40],
  ] as const) {
    const arc = readPath(`M0 0A50 50 0 ${large} ${sweep} 60 0`);
    for (const p of flattenPath(arc, 0.001).points)
      expect(Math.abs(Math.hypot(p[0] - 30, p[1] - centreY) / 50 - 1)).toBeLessThan(5e-6);
    const small = 50 * 2 * Math.asin(0.6);
    expect(pathLength(arc)).toBeCloseTo(large ? 100 * Math.PI - small : small, 3);
    // sweep 1 from left to right runs above the chord (smaller y)
    const middle = arc[Math.floor((arc.length - 1) / 2)]!.at(-1)!;
    expect(Math.sign(middle[1])).toBe(sweep ? -1 : 1);
  }
});

test('turned and too small arcs are the ones svgpath makes, to its own accuracy', () => {
  fc.assert(
    fc.property(
      number,
      number,
      positive,
      positive,
      number,
      flag,
      flag,
      (x, y, rx, ry, turn, large, sweep) => {
        fc.pre(Math.hypot(x, y) > 1);
        // near the half turn both flags give nearly the same arc, and rounding decides which
        const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
        const fit = ((c * x + s * y) / 2 / rx) ** 2 + ((-s * x + c * y) / 2 / ry) ** 2;
        fc.pre(Math.abs(fit - 1) > 1e-3);
        const d = `M0 0A${rx} ${ry} ${turn} ${large} ${sweep} ${x} ${y}`;
        const ours = readPath(d);
        const theirs: Pt[] = [];
        svgpath(d)
          .unarc()
          .iterate((segment) => {
            const n = segment.slice(1) as number[];
            theirs.push([n.at(-2)!, n.at(-1)!]);
          });
        const size = Math.max(rx, ry, Math.hypot(x, y));
        for (const p of theirs) expect(nearestOnPath(ours, p).distance).toBeLessThan(size * 1e-4);
      },
    ),
    { numRuns: 500, seed: 31 },
  );
}, 60_000);
