import { expect, test } from 'vitest';
import { isCubic, pathLength, signedArea } from '../../src/geometry';
import { OUTLINE, piece, read, svg } from './drawing';

const outlineOf = (element: string) => piece(svg(element)).outline;
const line = (d: string) => piece(svg(`${OUTLINE}<path data-role="panel line" d="${d}"/>`)).lines[0]!.path;

test('every basic shape can be an outline, with the area it should have', () => {
  const area = (element: string): number => signedArea(outlineOf(element));
  expect(area('<rect data-role="outline" x="5" y="6" width="100" height="50"/>')).toBeCloseTo(5000, 6);
  expect(area('<circle data-role="outline" cx="90" cy="90" r="80"/>') / (Math.PI * 6400)).toBeCloseTo(1, 5);
  expect(
    area('<ellipse data-role="outline" cx="90" cy="90" rx="80" ry="30"/>') / (Math.PI * 2400),
  ).toBeCloseTo(1, 5);
  expect(area('<polygon data-role="outline" points="0,0 100,0 100,50"/>')).toBeCloseTo(2500, 6);
  expect(area('<polyline data-role="outline" points="0 0 100 0 100 50 0 0.4"/>')).toBeCloseTo(2500, -2);
  expect(area('<path data-role="outline" d="M0 0h100v50h-100z"/>')).toBeCloseTo(5000, 6);
  const rounded = area('<rect data-role="outline" width="100" height="50" rx="10"/>');
  expect(rounded / (5000 - (4 - Math.PI) * 100)).toBeCloseTo(1, 5);
});

test('a rounded rectangle takes a missing radius from the other and no more than half a side', () => {
  const full = '<rect data-role="outline" width="100" height="50" ry="400"/>';
  // rx = 50 and ry = 25: an ellipse
  expect(signedArea(outlineOf(full)) / (Math.PI * 50 * 25)).toBeCloseTo(1, 5);
  expect(outlineOf(full).every(isCubic)).toBe(true);
});

test('lines stay lines, cubics stay cubics, quadratics become cubics', () => {
  expect(line('M1 2 C3 4 5 6 7 8')).toEqual([
    [
      [1, 2],
      [3, 4],
      [5, 6],
      [7, 8],
    ],
  ]);
  expect(line('M0 0 L9 9')).toEqual([
    [
      [0, 0],
      [9, 9],
    ],
  ]);
  expect(line('M0 0 Q 3 6 9 9')).toEqual([
    [
      [0, 0],
      [2, 4],
      [5, 7],
      [9, 9],
    ],
  ]);
});

test('relative, repeated, short and smooth commands are read', () => {
  expect(line('m1,1 2,0 0,2')).toEqual([
    [
      [1, 1],
      [3, 1],
    ],
    [
      [3, 1],
      [3, 3],
    ],
  ]);
  expect(line('M1 1h2v3H0V0')).toEqual([
    [
      [1, 1],
      [3, 1],
    ],
    [
      [3, 1],
      [3, 4],
    ],
    [
      [3, 4],
      [0, 4],
    ],
    [
      [0, 4],
      [0, 0],
    ],
  ]);
  expect(line('M0 0C1 1 2 1 3 0s2 -1 3 0')).toEqual([
    [
      [0, 0],
      [1, 1],
      [2, 1],
      [3, 0],
    ],
    [
      [3, 0],
      [4, -1],
      [5, -1],
      [6, 0],
    ],
  ]);
  expect(line('M0 0S1 1 2 0')[0]).toEqual([
    [0, 0],
    [0, 0],
    [1, 1],
    [2, 0],
  ]);
  const [, second] = line('M0 0Q3 3 6 0T12 0');
  expect(second).toEqual([
    [6, 0],
    [8, -2],
    [10, -2],
    [12, 0],
  ]);
  expect(line('M.5.5-1-1')).toEqual([
    [
      [0.5, 0.5],
      [-1, -1],
    ],
  ]);
  expect(line('M1e1,0 L2E+1 010')).toEqual([
    [
      [10, 0],
      [20, 10],
    ],
  ]);
});

test('several subpaths of one element are several lines; after a Z drawing goes on from the start', () => {
  const traced = piece(svg(`${OUTLINE}<path data-role="panel line" d="M10 0V50M20 0V50zl5 5"/>`));
  expect(traced.lines.map((l) => l.path.length)).toEqual([1, 2, 1]);
  expect(traced.lines[2]!.path).toEqual([
    [
      [20, 0],
      [25, 5],
    ],
  ]);
});

test('arc flags may touch the next number and an arc ends exactly where it says', () => {
  const arc = line('M10 10a25 25 0 0150 0');
  expect(arc[0]![0]).toEqual([10, 10]);
  expect(arc.at(-1)!.at(-1)).toEqual([60, 10]);
  expect(pathLength(arc)).toBeCloseTo(Math.PI * 25, 3);
});

test('nested transforms apply from the innermost outwards', () => {
  const traced = piece(
    svg(
      `<g transform="translate(100 50)"><g transform="rotate(90)"><g transform="scale(2 1)">${OUTLINE}</g></g></g>`,
    ),
  );
  // the corner (100, 50): scaled (200, 50), turned (−50, 200), moved (50, 250)
  expect(traced.outline.flat()).toContainEqual([50, 250]);
  expect(signedArea(traced.outline)).toBeCloseTo(10_000, 6);
});

test.each([
  ['translate(3)', [13, 10]],
  ['translate(3,4)', [13, 14]],
  ['scale(2)', [20, 20]],
  ['scale(2 -1)', [20, -10]],
  ['rotate(90)', [-10, 10]],
  ['rotate(90 10 0)', [0, 0]],
  ['rotate(180, 10, 10)', [10, 10]],
  ['skewX(45)', [20, 10]],
  ['skewY(45)', [10, 20]],
  ['matrix(1 2 3 4 5 6)', [45, 66]],
  ['translate(1) scale(2), rotate(90)', [-19, 20]],
])('%s moves the point (10, 10) where the SVG formulas say', (transform, expected) => {
  const traced = piece(
    svg(`${OUTLINE}<g transform="${transform}"><path data-role="panel line" d="M10 10L900 900"/></g>`),
  );
  const [x, y] = traced.lines[0]!.path[0]![0];
  expect(x).toBeCloseTo(expected[0]!, 6);
  expect(y).toBeCloseTo(expected[1]!, 6);
});

test('a transform in a style, with units and an origin, counts like the attribute', () => {
  const traced = piece(
    svg(
      `${OUTLINE}<path data-role="panel line" style="transform: rotate(90deg) translate(5px, 0); transform-origin: 10px 10px" d="M10 10H20"/>`,
    ),
  );
  expect(traced.lines[0]!.path).toEqual([
    [
      [10, 15],
      [10, 25],
    ],
  ]);
});

test('use draws a part of the file again at x, y, and its own name goes before the part’s', () => {
  const traced = piece(
    svg(`<defs><path id="notch" d="M0 0v4"/><path id="stroke" d="M0 0v50"/></defs>${OUTLINE}
      <use href="#notch" x="10"/><use xlink:href="#notch" transform="translate(20)"/><use id="panel-line-1" href="#stroke" x="30" y="0"/><use data-role="panel line" href="#notch" x="40"/>`),
  );
  expect(traced.notches.map((n) => n.at)).toEqual([
    [10, 0],
    [20, 0],
  ]);
  expect(traced.lines.map((l) => l.path[0]![0])).toEqual([
    [30, 0],
    [40, 0],
  ]);
});

test('a symbol is fitted into the width and height of its use', () => {
  const symbol =
    '<symbol id="s" viewBox="0 0 10 10"><rect data-role="outline" width="10" height="5"/></symbol>';
  const fitted = piece(svg(`${symbol}<use href="#s" x="20" y="30" width="100" height="200"/>`));
  // one scale of 10, centred in the 200: 30 + 50
  expect(fitted.outline[0]).toEqual([
    [20, 80],
    [120, 80],
  ]);
});

test('a whole piece can be used a second time under another name', () => {
  const { pieces } = read(
    svg(`<g id="piece-front">${OUTLINE}</g><use data-role="piece back" href="#piece-front" x="150"/>`),
  );
  expect(pieces.map((p) => [p.name, p.outline[0]![0]])).toEqual([
    ['front', [0, 0]],
    ['back', [150, 0]],
  ]);
});

test('an inner svg has its own place and viewBox', () => {
  const traced = piece(
    svg(
      '<svg x="10" y="20" width="100" height="50" viewBox="0 0 10 10" preserveAspectRatio="none"><rect data-role="outline" width="10" height="10"/></svg>',
    ),
  );
  expect(traced.outline[0]).toEqual([
    [10, 20],
    [110, 20],
  ]);
  expect(signedArea(traced.outline)).toBeCloseTo(5000, 6);
});

test('definitions, clips, masks, patterns and symbols are not drawn', () => {
  const hidden = ['defs', 'symbol', 'clipPath', 'mask', 'marker', 'pattern'].map(
    (tag) => `<${tag}><path data-role="panel line" d="M9 0V50"/></${tag}>`,
  );
  expect(read(svg(OUTLINE + hidden.join('')))).toMatchObject({ pieces: [{ lines: [] }], ignored: [] });
});

test('what is not shown is left out and listed, whether by attribute, style or style rule', () => {
  const { pieces, ignored } = read(
    svg(`<style>.off{display:none} #gone { visibility : hidden } @media print { .seen {display:none} }</style>${OUTLINE}
      <g id="spare layer" style="display:none"><path data-role="panel line" d="M9 0V50"/></g>
      <path id="a" class="off" d="M0 0H9"/><path id="gone" data-role="panel line" d="M9 0V50"/>
      <path data-role="panel line" e:label="b" visibility="hidden" d="M9 0V50"/>
      <g visibility="hidden"><path class="seen" data-role="panel line" visibility="visible" d="M9 0V50"/></g>`),
  );
  expect(pieces[0]!.lines).toHaveLength(1);
  expect(ignored).toEqual(['spare layer', 'a', 'panel line']);
});

test('lengths of shapes may have units and percentages', () => {
  const traced = piece(svg('<rect data-role="outline" x="10%" y="25%" width="1in" height="2.54cm"/>'));
  expect(traced.outline[0]![0]).toEqual([30, 100]);
  // the root's user unit is 1 mm, and an inch is 96 user units
  expect(signedArea(traced.outline)).toBeCloseTo(96 * 96, 3);
});

test.each([
  ['fill="#AbC"', '#aabbcc'],
  ['fill="#a1b2c3"', '#a1b2c3'],
  ['fill="rgb(10, 20, 30)"', '#0a141e'],
  ['fill="rgb(10% 20% 100% / 0.5)"', '#1a33ff'],
  ['fill="hsl(120, 100%, 25%)"', '#008000'],
  ['fill="RebeccaPurple"', '#663399'],
  ['style="fill:#00ff00;fill-opacity:.3" fill="red"', '#00ff00'],
  ['class="navy" fill="red"', '#000080'],
  ['color="#123456" fill="currentColor"', '#123456'],
  ['', '#000000'],
  ['fill="url(#g) #112233"', '#112233'],
])('a colour shape with %s gives %s', (attributes, fill) => {
  const traced = piece(
    svg(
      `<style>.navy{fill:navy}</style>${OUTLINE}<rect data-role="colour" x="10" y="10" width="20" height="20" ${attributes}/>`,
    ),
  );
  expect(traced.fills).toEqual([{ at: [expect.closeTo(20, 0), expect.closeTo(20, 0)], fill }]);
});

test('a fill is passed down by groups, and a colour shape without one is left out and listed', () => {
  const { pieces, ignored } = read(
    svg(
      `${OUTLINE}<g data-role="colour" fill="teal"><rect x="1" y="1" width="9" height="9"/><rect id="x" fill="none" width="9" height="9"/></g>`,
    ),
  );
  expect(pieces[0]!.fills.map((f) => f.fill)).toEqual(['#008080']);
  expect(ignored).toEqual(['x']);
});
