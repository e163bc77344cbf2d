import { expect, test } from 'vitest';
import { OUTLINE, piece, read, svg } from './drawing';

const line = (attributes: string): string => `<path ${attributes} d="M50 0V50"/>`;
const linesOf = (attributes: string): number => piece(svg(OUTLINE + line(attributes))).lines.length;

test('the name of an element is the first it has of data-role, layer label, id and class', () => {
  const all = (role: string, label: string, id: string, className: string): string =>
    `${role && `data-role="${role}"`} ${label && `e:label="${label}"`} ${id && `id="${id}"`} ${className && `class="${className}"`}`;
  expect(linesOf(all('panel line', 'notch', 'grain', 'dart'))).toBe(1);
  expect(linesOf(all('', 'panel line', 'grain', 'dart'))).toBe(1);
  expect(linesOf(all('', '', 'panel-line', 'dart'))).toBe(1);
  expect(linesOf(all('', '', '', 'panel-line'))).toBe(1);
  expect(linesOf(all('scribble', 'panel line', 'panel-line', 'panel-line'))).toBe(0);
  expect(linesOf(all('', 'scribble', 'panel-line', 'panel-line'))).toBe(0);
  expect(linesOf(all('', '', 'scribble', 'panel-line'))).toBe(0);
});

test.each([
  'panel line',
  'Panel Line',
  'PANEL_LINE',
  'panel-line',
  'panel:line',
  'panel.line',
  'panel_x20_line',
  'panel_x20_line_2_',
  'panel-line-12',
  'panel line 3',
  'panelx20line'.replace('x20', '_x20_'),
  'panel_x2D_line',
  'panel_x5F_line_x5F_7',
  ' panel  line ',
  'panel line (2)',
  'panel-line2',
  'panel_line_1_',
])('“%s” is read as panel line', (name) => {
  expect(linesOf(`id="${name}"`)).toBe(1);
});

test.each(['panelline', 'panel lines of old', 'my panel line', 'panel', 'line', ''])(
  '“%s” is not a panel line',
  (name) => {
    expect(linesOf(`id="${name}"`)).toBe(0);
  },
);

test('an id the editor made from the kind of element names nothing, so the class is read', () => {
  expect(linesOf('id="path847" class="panel-line"')).toBe(1);
  expect(linesOf('id="path847" class="st0 panel-line"')).toBe(1);
  expect(linesOf('class="panel line"')).toBe(1);
});

test('groups pass their role down and an inner name goes first', () => {
  const traced = piece(
    svg(`${OUTLINE}<g id="panel-line-once"><g><path d="M20 0V50"/><path id="grain" d="M30 0V50"/></g></g>`),
  );
  expect(traced.lines).toEqual([
    {
      path: [
        [
          [20, 0],
          [20, 50],
        ],
      ],
      once: true,
    },
  ]);
  expect(traced.grain).toEqual([
    [30, 0],
    [30, 50],
  ]);
});

test('levels and edges carry their own name, without a counter', () => {
  const traced = piece(
    svg(
      `${OUTLINE}<path id="level_bust_2" d="M0 20H100"/><path id="Edge-Side-Seam-1" d="M100 0V50"/><g e:label="level high hip"><path d="M0 30H100"/></g>`,
    ),
  );
  expect(traced.levels.map((l) => l.name)).toEqual(['bust', 'high hip']);
  expect(traced.edgeNames.map((e) => e.name)).toEqual(['side seam']);
});

test('a level or an edge without a name of its own is left out and listed', () => {
  const { pieces, ignored } = read(
    svg(`${OUTLINE}<path id="level" d="M0 20H100"/><path id="edge-2" d="M100 0V50"/>`),
  );
  expect(pieces[0]!.levels).toEqual([]);
  expect(ignored).toEqual(['level', 'edge-2']);
});

test('what is not understood is left out and listed by name, each name once, in file order', () => {
  const { ignored } = read(
    svg(
      `${OUTLINE}<text>12</text><path id="logo" d="M0 0H5"/><g id="notes"><path d="M0 0H5"/><path d="M0 3H5"/></g><path d="M1 1H2"/><image id="photo" href="x.png"/>`,
    ),
  );
  expect(ignored.toSorted()).toEqual(['logo', 'notes', 'path', 'photo', 'text']);
});

test('a file without piece groups is one piece named after the file', () => {
  expect(piece(svg(OUTLINE), 'my drawings/Back half.svg').name).toBe('Back half');
  expect(piece(svg(OUTLINE), 'C:\\patterns\\sleeve.SVG').name).toBe('sleeve');
});

test('piece groups make pieces and keep the words of their name', () => {
  const { pieces } = read(
    svg(`<g id="piece-front">${OUTLINE}</g><g e:label="piece Left Sleeve">${OUTLINE}</g>`),
  );
  expect(pieces.map((p) => p.name)).toEqual(['front', 'Left Sleeve']);
});

test('a counter is dropped from a piece name unless it tells two pieces apart', () => {
  const names = (...labels: string[]): string[] =>
    read(svg(labels.map((l) => `<g e:label="${l}">${OUTLINE}</g>`).join(''))).pieces.map((p) => p.name);
  expect(names('piece front 2')).toEqual(['front']);
  expect(names('piece front', 'piece front 2', 'piece back-1')).toEqual(['front', 'front 2', 'back']);
  expect(names('piece front', 'piece front', 'piece Front')).toEqual(['front', 'front 2', 'Front 3']);
  expect(names('piece 1', 'piece 2')).toEqual(['piece 1', 'piece 2']);
});

test('named shapes outside the only piece group belong to it; outside several they are left out', () => {
  const beside = '<path id="panel-line-9" d="M50 0V50"/>';
  expect(piece(svg(`<g id="piece-front">${OUTLINE}</g>${beside}`)).lines).toHaveLength(1);
  const { pieces, ignored } = read(
    svg(`<g id="piece-front">${OUTLINE}</g><g id="piece-back">${OUTLINE}</g>${beside}`),
  );
  expect(pieces.map((p) => p.lines.length)).toEqual([0, 0]);
  expect(ignored).toEqual(['panel-line-9']);
});

test('an empty piece layer does not stop the others from being read', () => {
  expect(
    read(svg(`<g id="piece-front">${OUTLINE}</g><g id="piece-sleeve"/>`)).pieces.map((p) => p.name),
  ).toEqual(['front']);
});

test('with no roles at all the largest closed path is the outline and the bench can ask about the rest', () => {
  const { pieces, unclaimed, ignored } = read(
    svg(
      '<rect id="a" width="10" height="10"/><circle id="b" cx="50" cy="50" r="40"/><path id="c" d="M0 0H250"/>',
    ),
  );
  expect(pieces[0]!.outline[0]![0]).toEqual([90, 50]);
  expect(unclaimed.map((u) => [u.name, u.closed, u.piece])).toEqual([
    ['a', true, 'front'],
    ['c', false, 'front'],
  ]);
  expect(ignored).toEqual(['a', 'c']);
});

test('plurals and both spellings of colour are understood', () => {
  const traced = piece(
    svg(
      `${OUTLINE}<g id="panel-lines"><path d="M50 0V50"/></g><g id="notches"><path d="M10 0V4"/></g><g id="colors"><rect x="5" y="5" width="9" height="9" fill="#abc"/></g>`,
    ),
  );
  expect([traced.lines.length, traced.notches.length, traced.fills.length]).toEqual([1, 1, 1]);
});

test('piece, level and edge standing alone take the next name the element has', () => {
  const { pieces } = read(
    svg(
      `<g data-role="piece" id="left-front">${OUTLINE}<path data-role="level" id="bust-1" d="M0 9H99"/><path data-role="edge" e:label="hem" id="x" d="M0 50H100"/></g>`,
    ),
  );
  expect(pieces[0]).toMatchObject({
    name: 'left front',
    levels: [{ name: 'bust' }],
    edgeNames: [{ name: 'hem' }],
  });
});

test('the name of the whole drawing is not the name of a shape in it', () => {
  expect(
    read(svg(`${OUTLINE}<path d="M0 0H5"/>`, 'id="svg8" width="300mm" height="400mm" viewBox="0 0 300 400"'))
      .ignored,
  ).toEqual(['path']);
});
