import { expect, test } from 'vitest';
import { distance, isClosed, signedArea } from '../../src/geometry';
import { designFromTracings, readTracing } from '../../src/files';
import { panelledPiece } from '../../src/panels';
import { OUTLINE, piece, read, refusal, refusedFor, svg } from './drawing';

const outlineOf = (content: string) => piece(svg(content)).outline;
const marked = (content: string) => piece(svg(OUTLINE + content));

test('an outline drawn either way round is run with positive area', () => {
  for (const d of ['M0 0H100V50H0Z', 'M0 0V50H100V0Z']) {
    expect(signedArea(outlineOf(`<path data-role="outline" d="${d}"/>`))).toBe(5000);
  }
});

test('an outline open by less than 1 mm is closed without a new corner', () => {
  const outline = outlineOf('<path data-role="outline" d="M0 0H100V50H0V0.9"/>');
  expect(isClosed(outline)).toBe(true);
  expect(outline).toHaveLength(4);
});

test('an outline open by 1 mm or more is refused with the gap and its place', () => {
  const [p] = refusal(svg('<path data-role="outline" d="M0 0H100V50H0V3"/>'));
  expect(p).toMatchObject({ code: 'outline-open', facts: { gap: 3 }, at: [0, 3] });
});

test('an outline traced in stretches, in any order and direction, is joined', () => {
  const outline = outlineOf(
    '<g id="outline"><path d="M0 0H100"/><path d="M0 50V0.2"/><path d="M100.3 50C70 60 30 60 0.4 50"/><line x1="100" y1="50" x2="100" y2="0.5"/></g>',
  );
  expect(isClosed(outline)).toBe(true);
  expect(outline).toHaveLength(4);
  expect(signedArea(outline)).toBeGreaterThan(5000);
});

test('a stretch drawn twice counts once', () => {
  const outline = outlineOf(
    '<g id="outline"><path d="M0 0H100V50"/><path d="M100 50H0V0"/><path d="M0 0V50H100"/></g>',
  );
  expect(signedArea(outline)).toBe(5000);
});

test('of several closed outlines the largest is used, with a warning', () => {
  const text = svg('<path data-role="outline" d="M10 10h20v20h-20zM0 0h100v50h-100z"/>');
  expect(signedArea(piece(text).outline)).toBe(5000);
  const { code, facts } = readWarnings(text)[0]!;
  expect([code, facts]).toEqual(['several-outlines', { piece: 'front', count: 2 }]);
});

const readWarnings = (text: string) => {
  const outcome = readTracing(text, 'front.svg');
  if (!outcome.ok) throw new Error('refused');
  return outcome.problems;
};

test('stretches without length and stretches there and back leave the outline as it is', () => {
  const outline = outlineOf('<path data-role="outline" d="M0 0H0H100V20L120 20L100 20V50V50.004H0Z"/>');
  expect(outline.map((c) => c[0])).toEqual(
    [
      [0, 0],
      [100, 0],
      [100, 20],
      [100, 50],
    ]
      .concat([[0, 50]])
      .map(([x, y]) => [x, expect.closeTo(y!, 1)]),
  );
});

test('points along a straight edge are kept: names and lines may begin there', () => {
  expect(outlineOf('<polygon data-role="outline" points="0 0 40 0 60 0 100 0 100 50 0 50"/>')).toHaveLength(
    6,
  );
});

test.each([
  ['a bow tie', 'M0 0L100 50V0L0 50Z'],
  ['a loop in a curve', 'M0 0C200 80 -100 80 100 0V50H0Z'],
  ['a corner touching another edge', 'M0 0H100V50H50L50 0L40 50H0Z'],
  ['an edge running along another', 'M0 0H100V50H80V20H60V20H80V30H0Z'],
])('an outline with %s is refused as crossing itself, with the place', (_, d) => {
  const [p] = refusal(svg(`<path data-role="outline" d="${d}"/>`));
  expect(p!.code).toBe('outline-crosses-itself');
  expect(p!.at).not.toBeNull();
});

test('a fold is laid exactly on the straight stretch it was traced along', () => {
  const { fold, outline } = piece(svg(`${OUTLINE}<path id="fold" d="M0.6 -0.5L0.2 50.7"/>`));
  expect(fold).toEqual([
    [0, 50],
    [0, 0],
  ]);
  expect(outline).toContainEqual(fold);
});

test('a fold over several stretches of one straight edge makes them one, even where it was traced short', () => {
  const text = (fold: string) =>
    svg(
      `<polygon data-role="outline" points="0 0 100 0 100 90 0 90 0 60 0.4 30"/><path id="fold" d="${fold}"/>`,
    );
  expect(piece(text('M0 0V90')).fold).toEqual([
    [0, 90],
    [0, 0],
  ]);
  const short = svg(
    '<polygon data-role="outline" points="0 0 100 0 100 90 0 90 0 60 0 30"/><path id="fold" d="M0 35V55"/>',
  );
  expect(piece(short).fold).toEqual([
    [0, 90],
    [0, 0],
  ]);
});

test('a fold that is not on the outline, or where it is not straight, is refused with its place', () => {
  const [off] = refusal(svg(`${OUTLINE}<path id="fold" d="M3 0V50"/>`));
  expect(off).toMatchObject({ code: 'fold-off-outline', piece: 'front' });
  expect((off!.facts as { gap: number }).gap).toBeCloseTo(3, 6);
  const bowed =
    '<path data-role="outline" d="M0 0H100V100H0C12 70 12 30 0 0Z"/><path id="fold" d="M0 0C12 30 12 70 0 100"/>';
  expect(refusedFor(svg(bowed))).toBe('fold-not-straight');
  expect(refusedFor(svg(`${OUTLINE}<path id="fold" d="M0 0H100V50"/>`))).toBe('fold-not-straight');
});

test('a fold along a slanted edge with hand-traced ends lands on the corners', () => {
  const { fold } = piece(
    svg(
      '<polygon data-role="outline" points="10 10 110 60 90 160 0 120"/><path id="fold" d="M10.5 10.6L109.6 59.4"/>',
    ),
  );
  expect(fold).toEqual([
    [10, 10],
    [110, 60],
  ]);
});

test('a dart is read from three points, a triangle in any order, or four corners', () => {
  const single = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [40, 0],
      [60, 0],
    ],
    point: [50, 30],
  };
  expect(marked('<path id="dart" d="M40 0L50 30L60 0"/>').darts).toEqual([single]);
  expect(marked('<polyline id="dart-2" points="40 0 50 30 60 0"/>').darts).toEqual([single]);
  for (const points of ['40 0 50 30 60 0', '50 30 60 0 40 0', '60 0 40 0 50 30', '60 0 50 30 40 0']) {
    const [dart] = marked(`<polygon id="dart" points="${points}"/>`).darts;
    expect(dart).toMatchObject({ kind: 'single', point: [50, 30] });
    expect(dart!.kind === 'single' && [...dart!.mouth].sort((a, b) => a[0] - b[0])).toEqual(single.mouth);
  }
  const double = {
    kind: 'double',
    legs: null,
    treatment: { kind: 'keep' },
    points: [
      [50, 5],
      [55, 25],
      [50, 45],
      [45, 25],
    ],
  };
  expect(marked('<polygon id="dart" points="50 5 55 25 50 45 45 25"/>').darts).toEqual([double]);
  expect(marked('<polygon id="dart" points="45 25 50 5 55 25 50 45"/>').darts).toEqual([double]);
});

test('extra nodes on straight dart legs, and a triangle closed by hand, change nothing', () => {
  const [dart] = marked('<path id="dart" d="M40 0L45 15L50 30L55 15L60 0"/>').darts;
  expect(dart).toEqual({
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [40, 0],
      [60, 0],
    ],
    point: [50, 30],
  });
  const [triangle] = marked('<path id="dart" d="M60 0L40 0L50 30L60 0.3"/>').darts;
  expect(triangle).toMatchObject({ point: [50, 30] });
});

test('a dart drawn point first is still read by its mouth on the outline', () => {
  expect(marked('<path id="dart" d="M50 30L40 0L60 0"/>').darts[0]).toMatchObject({
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    point: [50, 30],
  });
});

test('a dart with too few or too many corners is left out and listed', () => {
  const { pieces, ignored } = read(
    svg(
      `${OUTLINE}<path id="dart-5" d="M40 0L50 30"/><polygon id="dart-6" points="40 1 50 9 60 1 60 20 40 20"/>`,
    ),
  );
  expect(pieces[0]!.darts).toEqual([]);
  expect(ignored).toEqual(['dart-5', 'dart-6']);
});

test('a notch touches the outline where its line ends on it, crosses it, or stands on it as a V', () => {
  expect(marked('<path id="notch" d="M30 0.7V6"/>').notches).toEqual([{ at: [30, 0], inner: [30, 6] }]);
  expect(marked('<path id="notch" d="M30 6V0"/>').notches).toEqual([{ at: [30, 0], inner: [30, 6] }]);
  expect(marked('<path id="notch" d="M30 -5V6"/>').notches).toEqual([{ at: [30, 0], inner: [30, 6] }]);
  expect(marked('<path id="notch" d="M28 0L30 5L32 0"/>').notches).toEqual([{ at: [30, 0], inner: [30, 5] }]);
});

test('a notch that does not reach the outline keeps its place, so that the pattern can say how far it is off', () => {
  expect(marked('<path id="notch" d="M30 3V9"/>').notches).toEqual([{ at: [30, 3], inner: [30, 9] }]);
});

test('a grain keeps its direction, and of an arrow the shaft counts', () => {
  expect(marked('<path id="grain" d="M50 40V10"/>').grain).toEqual([
    [50, 40],
    [50, 10],
  ]);
  expect(marked('<path id="grain" d="M50 10V40M47 36L50 40L53 36"/>').grain).toEqual([
    [50, 10],
    [50, 40],
  ]);
  expect(marked('').grain).toBeNull();
});

test('a second grain or fold is left out and listed', () => {
  const { pieces, ignored } = read(
    svg(
      `${OUTLINE}<path id="grain" d="M50 10V40"/><path id="grain-2" d="M10 10H40"/><path id="fold" d="M0 0V50"/><path id="fold-2" d="M100 0V50"/>`,
    ),
  );
  expect(pieces[0]!.grain).toEqual([
    [50, 10],
    [50, 40],
  ]);
  expect(ignored).toEqual(['grain-2', 'fold-2']);
});

test('panel lines keep the order of the file, whether mirrored or not', () => {
  const { lines } = marked(
    '<path id="panel-line-9" d="M10 0V50"/><path id="panel-line-once" d="M20 0V50"/><path id="panel-line-1" d="M30 0V50"/>',
  );
  expect(lines.map((l) => [l.path[0]![0][0], l.once])).toEqual([
    [10, false],
    [20, true],
    [30, false],
  ]);
});

test('a colour mark lies inside its shape even where the shape’s middle does not', () => {
  const [fill] = marked('<path id="colour" fill="red" d="M0 0H90V50H70V20H20V50H0Z"/>').fills;
  const [x, y] = fill!.at;
  expect(y < 20 || x < 20 || x > 70).toBe(true);
  expect(distance(fill!.at, [45, 35])).toBeGreaterThan(10);
});

test('an automatic tracing of very many short stretches is thinned out, moved by no more than 0.002 mm', () => {
  const corners = Array.from({ length: 8000 }, (_, i) => {
    const a = (2 * Math.PI * i) / 8000;
    return `${(150 + 140 * Math.cos(a)).toFixed(6)} ${(150 + 100 * Math.sin(a)).toFixed(6)}`;
  });
  const outline = outlineOf(`<polygon data-role="outline" points="${corners.join(' ')}"/>`);
  expect(outline.length).toBeLessThan(1000);
  expect(isClosed(outline)).toBe(true);
  expect(Math.abs(signedArea(outline) / (Math.PI * 140 * 100) - 1)).toBeLessThan(3e-5);
  const few = outlineOf(
    `<polygon data-role="outline" points="${corners.filter((_, i) => i % 10 === 0).join(' ')}"/>`,
  );
  expect(few).toHaveLength(800);
});

test('a fill beside the piece colours nothing and is left out; on a half piece the other half counts', () => {
  const beside = '<circle id="colour" fill="red" cx="150" cy="20" r="5"/>';
  const { pieces, ignored } = read(svg(OUTLINE + beside));
  expect(pieces[0]!.fills).toEqual([]);
  expect(ignored).toEqual(['colour']);
  const half = read(svg(`${OUTLINE}<path id="fold" d="M100 0V50"/>${beside}`));
  expect(half.pieces[0]!.fills).toHaveLength(1);
  expect(half.ignored).toEqual([]);
});

test('panels without a fill are of a plain cloth where others are filled', () => {
  const drawing = (marks: string) =>
    designFromTracings([read(svg(`${OUTLINE}<path id="panel-line" d="M50 0V50"/>${marks}`))]);
  const red = '<circle data-role="colour" fill="#ff0000" cx="20" cy="20" r="5"/>';
  const blue = '<circle data-role="colour" fill="#0000ff" cx="80" cy="20" r="5"/>';
  const coloursOf = (marks: string): string[] => {
    const design = drawing(marks);
    const fillOf = new Map(design.colours.map((c) => [c.id, c.fill]));
    return panelledPiece(design.pieces[0]!, design)
      .panels.map((p) => fillOf.get(p.colour)!)
      .sort();
  };
  expect(coloursOf(red + blue)).toEqual(['#0000ff', '#ff0000']);
  expect(drawing(red + blue).colours).toHaveLength(2);
  const some = coloursOf(red);
  expect(some).toContain('#ff0000');
  expect(new Set(some).size).toBe(2);
  expect(drawing('').colours).toHaveLength(1);
});
