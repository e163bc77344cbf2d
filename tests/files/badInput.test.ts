import { expect, test } from 'vitest';
import { readTracing } from '../../src/files';
import { sayProblem, severityOf } from '../../src/pattern';
import { OUTLINE, piece, read, refusal, refusedFor, svg, valueOf } from './drawing';

const doctype = (
  inside: string,
  content: string,
  root = 'width="100mm" height="100mm" viewBox="0 0 100 100"',
): string =>
  `<?xml version="1.0"?>\n<!DOCTYPE svg [${inside}]>\n<svg xmlns="http://www.w3.org/2000/svg" ${root}>${content}</svg>`;

test.each([
  ['nothing', '', 'file-empty'],
  ['blanks', ' \n\t ', 'file-empty'],
  ['plain words', 'hello', 'file-not-svg'],
  ['a web page', '<html><body/></html>', 'file-not-svg'],
  ['a root of another vocabulary', '<svg xmlns="urn:other"/>', 'file-not-svg'],
  ['a file cut short', svg(OUTLINE).slice(0, -10), 'file-not-well-formed'],
  ['a file cut inside a tag', svg(OUTLINE).slice(0, 150), 'file-not-well-formed'],
  ['crossed tags', svg('<g><a></g></a>'), 'file-not-well-formed'],
  ['an unknown entity', svg('<text>&nosuch;</text>'), 'file-not-well-formed'],
  ['two roots', svg(OUTLINE) + svg(OUTLINE), 'file-not-well-formed'],
  ['an attribute twice', svg('<g id="a" id="b"/>'), 'file-not-well-formed'],
  ['zero bytes', 'abc\0def', 'file-not-svg'],
  ['an empty drawing', svg(''), 'no-outline'],
  ['roles but no outline', svg('<path id="fold" d="M0 0V9"/><rect width="9" height="9"/>'), 'no-outline'],
  ['only open unnamed lines', svg('<path d="M0 0H9"/><path d="M0 0H9"/>'), 'no-outline'],
  ['an outline without area', svg('<path id="outline" d="M0 0H100Z"/>'), 'outline-without-area'],
  ['an outline that is a point', svg('<path id="outline" d="M5 5Z"/>'), 'outline-without-area'],
  ['an outline without width', svg('<rect id="outline" width="0" height="50"/>'), 'outline-without-area'],
  ['an open outline', svg('<path id="outline" d="M0 0H100V50"/>'), 'outline-open'],
  ['NaN in path data', svg('<path id="outline" d="M0 0L NaN 5Z"/>'), 'bad-number'],
  ['a number too large for a double', svg('<path id="outline" d="M0 0H1e400V9Z"/>'), 'bad-number'],
  ['a number too large for cloth', svg('<path id="outline" d="M0 0H1e300V9Z"/>'), 'bad-number'],
  ['infinity in an attribute', svg('<rect id="outline" width="Infinity" height="5"/>'), 'bad-number'],
  ['NaN in points', svg('<polygon id="outline" points="0 0 NaN 5 7 7"/>'), 'bad-number'],
  ['an odd count of points', svg('<polygon id="outline" points="0 0 5 5 7"/>'), 'bad-number'],
  ['a negative radius', svg('<circle id="outline" r="-5"/>'), 'bad-number'],
  ['a transform that is none', svg(`<g transform="rotate(ninety)">${OUTLINE}</g>`), 'bad-number'],
  ['a transform of NaN', svg(`<g transform="scale(NaN)">${OUTLINE}</g>`), 'bad-number'],
  [
    'a transform without end',
    svg(`<g transform="matrix(1 0 0 1e308 0 0) scale(1e308)">${OUTLINE}</g>`),
    'bad-number',
  ],
  ['a width that is none', svg(OUTLINE, 'width="wide" height="9mm"'), 'bad-number'],
  ['a width of nothing', svg(OUTLINE, 'width="0mm" height="9mm"'), 'bad-number'],
  ['a viewBox of three numbers', svg(OUTLINE, 'width="9mm" height="9mm" viewBox="0 0 9"'), 'bad-number'],
  ['a viewBox without size', svg(OUTLINE, 'width="9mm" height="9mm" viewBox="0 0 0 9"'), 'bad-number'],
  ['a use of itself', svg(`${OUTLINE}<use id="a" href="#a"/>`), 'file-hostile'],
  ['a group that uses itself', svg(`<g id="a">${OUTLINE}<use href="#a"/></g>`), 'file-hostile'],
  [
    'two uses of each other',
    svg(`${OUTLINE}<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`),
    'file-hostile',
  ],
])('%s is refused with the reason', (_, text, code) => {
  expect(refusedFor(text)).toBe(code);
});

test('every refusal is one line that names the file', () => {
  for (const text of ['', 'x', svg(''), svg('<g>').slice(0, -6), svg('<path id="outline" d="M0 0 Q"/>')]) {
    for (const p of refusal(text)) {
      expect(severityOf(p)).toBe('error');
      expect(sayProblem(p, 'mm')).toMatch(/^[^\n]*front\.svg[^\n]*\.$/);
    }
  }
});

test('a fault in the XML is told with line and column', () => {
  expect(refusal('<svg xmlns="http://www.w3.org/2000/svg">\n<g>\n</svg>')[0]).toMatchObject({
    code: 'file-not-well-formed',
    facts: { line: 3 },
  });
});

test('every piece that cannot be used says why', () => {
  const problems = refusal(
    svg(
      '<g id="piece-front"><path id="outline" d="M0 0H9"/></g><g id="piece-back"><path id="fold" d="M0 0H9"/></g>',
    ),
  );
  expect(problems.map((p) => [p.code, p.piece])).toEqual([
    ['outline-open', 'front'],
    ['no-outline', 'back'],
  ]);
});

test('a broken shape that nobody named does no harm and is listed', () => {
  const { ignored } = read(
    svg(`${OUTLINE}<path id="scribble" d="M0 0 L nonsense"/><circle id="dot" r="-1"/>`),
  );
  expect(ignored).toEqual(['scribble', 'dot']);
});

test('bytes in UTF-8 and UTF-16, with and without a byte order mark, and in Latin-1 are read', () => {
  const text = svg(`<g id="piece-Rücken">${OUTLINE}</g>`);
  const utf16 = (swap: boolean, mark: boolean): Uint8Array => {
    const bytes = new Uint8Array(Buffer.from((mark ? '\uFEFF' : '') + text, 'utf16le'));
    return swap ? new Uint8Array(Buffer.from(bytes).swap16()) : bytes;
  };
  const latin = `<?xml version="1.0" encoding="ISO-8859-1"?>${text}`;
  const inputs = [
    new TextEncoder().encode(text),
    new TextEncoder().encode(`\uFEFF${text}`),
    utf16(false, true),
    utf16(true, true),
    utf16(false, false),
    new Uint8Array(Buffer.from(latin, 'latin1')),
    new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-16"?>${text}`),
  ];
  for (const bytes of inputs) expect(valueOf(readTracing(bytes, 'x.svg')).pieces[0]!.name).toBe('Rücken');
});

test('binary files, wrong encodings and compressed drawings are refused', () => {
  expect(refusedFor(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0]))).toBe('file-not-text');
  expect(refusedFor(new Uint8Array([0x1f, 0x8b, 8, 0, 0, 0, 0, 0]))).toBe('file-not-text');
  expect(refusedFor(new TextEncoder().encode('<?xml version="1.0" encoding="klingon"?><svg/>'))).toBe(
    'file-not-text',
  );
  expect(refusedFor(new Uint8Array([0x3c, 0x73, 0xff, 0xff, 0x3e]))).toBe('file-not-text');
  expect(refusedFor(new Uint8Array(0))).toBe('file-empty');
});

test('plain entities used as text, as some editors write their namespaces, are read', () => {
  const text = doctype(
    '<!ENTITY ns_svg "http://www.w3.org/2000/svg"><!ENTITY w "50">',
    '<rect id="outline" width="&w;" height="10"/>',
  ).replace('xmlns="http://www.w3.org/2000/svg"', 'xmlns="&ns_svg;"');
  expect(piece(text).outline[0]).toEqual([
    [0, 0],
    [50, 0],
  ]);
});

test('entities made of entities, too many, too long, or used without end are refused at once', () => {
  const lol = Array.from({ length: 9 }, (_, i) => `<!ENTITY l${i + 1} "${`&l${i};`.repeat(10)}">`).join('');
  expect(refusedFor(doctype(`<!ENTITY l0 "lol">${lol}`, `<text>&l9;</text>${OUTLINE}`))).toBe('file-hostile');
  expect(refusedFor(doctype('<!ENTITY % p "x">', OUTLINE))).toBe('file-hostile');
  expect(refusedFor(doctype(`<!ENTITY a "${'x'.repeat(1001)}">`, OUTLINE))).toBe('file-hostile');
  expect(
    refusedFor(doctype(Array.from({ length: 101 }, (_, i) => `<!ENTITY a${i} "x">`).join(''), OUTLINE)),
  ).toBe('file-hostile');
  expect(
    refusedFor(doctype(`<!ENTITY a "${'x'.repeat(1000)}">`, `<text>${'&a;'.repeat(1001)}</text>${OUTLINE}`)),
  ).toBe('file-hostile');
});

test('outside entities and document types are never loaded and do no harm unless used', () => {
  const system = '<!ENTITY secret SYSTEM "file:///etc/passwd">';
  expect(piece(doctype(system, OUTLINE)).outline).toHaveLength(4);
  expect(refusedFor(doctype(system, `<text>&secret;</text>${OUTLINE}`))).toBe('file-hostile');
  const dtd =
    '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">';
  expect(piece(dtd + svg(OUTLINE)).outline).toHaveLength(4);
});

test('scripts, event handlers, web content, pictures and links outside are not run or loaded, and are listed', () => {
  const { ignored } = read(
    svg(`${OUTLINE}<script>throw 1</script><g onclick="alert(1)"/><foreignObject><body xmlns="http://www.w3.org/1999/xhtml"/></foreignObject>
      <image id="photo" href="https://example.org/x.png"/><use id="far" href="https://example.org/x.svg#a"/><use id="none" href="#nothing"/>
      <style>@import url("https://example.org/x.css");</style><h:iframe xmlns:h="http://www.w3.org/1999/xhtml" src="x"/>`),
  );
  expect(ignored.toSorted()).toEqual([
    'far',
    'foreignObject',
    'iframe',
    'none',
    'onclick',
    'photo',
    'script',
  ]);
});

test('an editor’s own notes are passed over without a word', () => {
  expect(
    read(svg(`<e:view zoom="2"><e:grid/></e:view>${OUTLINE}<metadata><e:rdf/></metadata><title>x</title>`))
      .ignored,
  ).toEqual([]);
});

test('deep nesting, copies of copies, too many elements and too many commands are refused, not worked through', () => {
  expect(refusedFor(svg('<g>'.repeat(300) + '</g>'.repeat(300)))).toBe('file-hostile');
  expect(refusedFor(svg('<g>'.repeat(1_000_000)))).toBe('file-hostile');
  const copies = Array.from(
    { length: 12 },
    (_, i) => `<g id="c${i + 1}">${`<use href="#c${i}"/>`.repeat(10)}</g>`,
  ).join('');
  expect(
    refusedFor(svg(`<defs><g id="c0"><path d="M0 0H1"/></g>${copies}</defs>${OUTLINE}<use href="#c12"/>`)),
  ).toBe('file-too-large');
  const chain = Array.from({ length: 500 }, (_, i) => `<g id="c${i + 1}"><use href="#c${i}"/></g>`).join('');
  expect(refusedFor(svg(`<defs><g id="c0"/>${chain}</defs><use href="#c500"/>`))).toBe('file-hostile');
  expect(refusedFor(svg('<path d="M0 0h1"/>'.repeat(300_000)))).toBe('file-too-large');
  expect(refusedFor(svg(`<path d="M0 0${'l1 1'.repeat(300_000)}"/>`))).toBe('file-too-large');
  expect(refusedFor(' '.repeat(30_000_001))).toBe('file-too-large');
});

test.each([
  [
    'one name of ten million digits',
    () => svg(`${OUTLINE}<path id="${'1'.repeat(10_000_000)}x" d="M0 0H9"/>`),
  ],
  [
    'a list of numbers that ends in a letter',
    () => svg(`${OUTLINE}<polygon points="${'1 '.repeat(1_000_000)}x"/>`),
  ],
  [
    'a million digits in one number',
    () => svg(`${OUTLINE}<rect width="${'1'.repeat(1_000_000)}q" height="1"/>`),
  ],
  ['path data of commas', () => svg(`${OUTLINE}<path d="M0 0${','.repeat(5_000_000)}"/>`)],
  ['a transform of brackets', () => svg(`<g transform="${'('.repeat(1_000_000)}">${OUTLINE}</g>`)],
  ['a transform of commas', () => svg(`<g transform="scale(1)${','.repeat(1_000_000)}(">${OUTLINE}</g>`)],
  ['a style sheet of open comments', () => svg(`<style>${'/*'.repeat(2_000_000)}</style>${OUTLINE}`)],
  ['a style sheet of open blocks', () => svg(`<style>${'a{fill:red;'.repeat(500_000)}</style>${OUTLINE}`)],
  [
    'a hundred thousand rules for one class',
    () => svg(`<style>${'.a{fill:red}'.repeat(100_000)}</style>${OUTLINE}${'<g class="a"/>'.repeat(50_000)}`),
  ],
  [
    'a document type of open comments',
    () => `<!DOCTYPE svg [${'<!ATTLIST a "<!--">'.repeat(500_000)}]>${svg(OUTLINE)}`,
  ],
  [
    'fifty thousand loose ends on one spot',
    () => svg(`<g id="outline">${'<path d="M0 0h.4"/>'.repeat(50_000)}</g>`),
  ],
  [
    'an outline of a hundred thousand corners',
    () =>
      svg(
        `<polygon id="outline" points="${Array.from({ length: 100_000 }, (_, i) => `${150 + 140 * Math.cos(i / 15915.5)} ${150 + 140 * Math.sin(i / 15915.5)}`).join(' ')}"/>`,
      ),
  ],
])(
  '%s is worked off in time',
  (_, text) => {
    // no outcome is asked for but one that comes: the runner stops a test that hangs
    expect(typeof readTracing(text(), 'front.svg').ok).toBe('boolean');
  },
  10_000,
);

test('curves and corners beyond what can be worked with are refused', () => {
  const far = `M0 0${'C9e4 9e4 -9e4 9e4 5 5'.repeat(2000)}`;
  expect(refusedFor(svg(`${OUTLINE}<path data-role="panel line" d="${far}"/>`))).toBe('file-too-large');
  const zigzag = Array.from({ length: 12_000 }, (_, i) => `${i / 50} ${i % 2 ? 300 : 290}`).join(' ');
  expect(refusedFor(svg(`<polygon id="outline" points="0 0 240 0 ${zigzag}"/>`))).toBe('file-too-large');
  expect(refusedFor(svg(`${OUTLINE}<g id="notch">${'<path d="M9 0v5"/>'.repeat(2001)}</g>`))).toBe(
    'file-too-large',
  );
});

test('characters that cannot be shown are dropped from names', () => {
  const { pieces } = read(
    svg(
      `<g e:label="piece fro\u0085nt&#x9;half">${OUTLINE}<path e:label="level_x0007_ bust" d="M0 9H9"/></g>`,
    ),
  );
  expect(pieces[0]!.name).toBe('front half');
  expect(pieces[0]!.levels).toHaveLength(1);
  expect(piece(svg(OUTLINE), `a${'b'.repeat(500)}\n.svg`).name.length).toBeLessThanOrEqual(200);
});

test('panel lines that cross at thousands of places are refused before anything is sliced', () => {
  // 100 lines, each of which crosses every other: 4950 crossings, no two at one place.
  const tangle = Array.from(
    { length: 100 },
    (_, i) => `<path class="panel-line" d="M${i} 0L${100 - i - i * i * 1e-4} 50"/>`,
  );
  const [first] = refusal(svg(OUTLINE + tangle.join('')));
  expect(first).toMatchObject({ code: 'lines-too-tangled', piece: 'front' });
  expect(read(svg(OUTLINE + tangle.slice(0, 20).join(''))).pieces[0]!.lines).toHaveLength(20);
});

test('an outline that crosses itself says where', () => {
  const [first] = refusal(svg('<path id="outline" d="M0 0L100 100V0L0 100Z"/>'));
  expect(first).toMatchObject({ code: 'outline-crosses-itself', at: [50, 50] });
});
