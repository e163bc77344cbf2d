import {
  IDENTITY,
  CHORD_SAGITTA,
  chordCount,
  multiply,
  PLACE_STEP,
  type Curve,
  type Matrix,
  type Pt,
} from '../geometry';
import { problem, type Problem } from '../pattern';
import { parseColour } from './colourValue';
import type { Drawing, DrawnPath, DrawnShape } from './drawnShape';
import { LIMITS } from './limits';
import { parseLength } from './lengths';
import { fitViewBox, pageScale, viewBoxOf } from './pageScale';
import type { XmlElement } from './readXml';
import { refuse } from './refusal';
import { nameOf, type ElementName } from './roles';
import { SHAPE_TAGS, shapeOf, type Viewport } from './shapes';
import { declarationsOf, parseStyleSheet, type Declarations, type StyleSheet } from './styles';
import { aboutPoint, parseTransform, translation } from './transforms';

/** What an element hands down to the ones inside it. */
interface Frame {
  readonly matrix: Matrix;
  readonly viewport: Viewport;
  readonly role: DrawnShape['role'];
  readonly piece: number | null;
  /** Name of the nearest named group that is no piece, for the list of what is left out. */
  readonly group: string | null;
  readonly fill: string;
  readonly colour: string;
  readonly visible: boolean;
  readonly depth: number;
  /** `use` targets being drawn: meeting one again would go on for ever. */
  readonly within: readonly XmlElement[];
}

/** Lengths in user units; null where not given. */
interface Place {
  readonly x: number | null;
  readonly y: number | null;
  readonly width: number | null;
  readonly height: number | null;
}

/** What a `use` says of the element it stands for. */
interface Copy {
  readonly name: ElementName;
  /** The `use` has begun a piece already. */
  readonly inPiece: boolean;
  readonly width: number | null;
  readonly height: number | null;
}

const GROUPS: ReadonlySet<string> = new Set(['svg', 'g', 'a', 'switch']);
/** Parts that are drawn only where something else refers to them, and notes; they are no drawing. */
const SILENT: ReadonlySet<string> = new Set([
  'defs',
  'symbol',
  'clipPath',
  'mask',
  'marker',
  'pattern',
  'linearGradient',
  'radialGradient',
  'filter',
  'title',
  'desc',
  'metadata',
  'style',
  'view',
  'cursor',
  'font',
  'font-face',
  'color-profile',
  'solidColor',
  'hatch',
  'mesh',
]);

/** Walks the tree once, collecting shapes; every limit is checked here. */
class Walk {
  readonly shapes: DrawnShape[] = [];
  readonly pieces: { name: string; full: string }[] = [];
  readonly ignored = new Set<string>();
  private readonly file: string;
  private readonly byId = new Map<string, XmlElement>();
  private readonly sheet: StyleSheet;
  private drawn = 0;
  private commands = 0;
  private chords = 0;

  constructor(root: XmlElement, file: string) {
    this.file = file;
    let css = '';
    // In document order; the first element of an id has it.
    const ahead = [root];
    for (let element = ahead.pop(); element; element = ahead.pop()) {
      const id = element.attributes.get('id');
      if (id !== undefined && !this.byId.has(id)) this.byId.set(id, element);
      if (element.tag === 'style' && element.vocabulary === 'svg') css += `${element.text}\n`;
      for (let i = element.children.length - 1; i >= 0; i -= 1) ahead.push(element.children[i]!);
    }
    this.sheet = parseStyleSheet(css);
    if (this.sheet.overfull) refuse('file-hostile', { file, what: 'its style sheet has far too many rules' });
  }

  /** Draw one element and all inside it. `copy` is what a `use` that stands for it says. */
  draw(element: XmlElement, frame: Frame, copy: Copy | null = null): void {
    if (element.vocabulary === 'foreign') return;
    const own = nameOf(element);
    const name = copy?.name.role
      ? copy.name
      : copy?.inPiece && own.role?.kind === 'piece'
        ? { ...own, role: null }
        : own;
    const label = name.written ?? copy?.name.written ?? element.tag;
    this.listHandlers(element);
    if (element.vocabulary === 'html') return this.leaveOut(label);
    // A symbol is drawn where a `use` stands for it, never in its own place.
    if (SILENT.has(element.tag) && !(element.tag === 'symbol' && copy)) return;
    this.drawn += 1;
    if (this.drawn > LIMITS.drawn)
      refuse('file-too-large', { file: this.file, size: this.drawn, most: LIMITS.drawn });
    if (frame.depth > LIMITS.drawnDepth)
      refuse('file-hostile', { file: this.file, what: 'its groups and copies are nested too deep' });
    const said = declarationsOf(this.sheet, element.tag, element.attributes);
    if (said.get('display') === 'none') return this.leaveOut(label);
    const inner = this.enter(element, frame, name, said, label);
    if (SHAPE_TAGS.has(element.tag))
      this.shape(element, inner, name.written ?? copy?.name.written ?? frame.group ?? element.tag);
    else if (element.tag === 'use') this.use(element, inner, name, label);
    else if (GROUPS.has(element.tag) || element.tag === 'symbol') {
      const isFrame = element.tag === 'symbol' || (element.tag === 'svg' && frame.depth > 0);
      const within = isFrame ? this.intoViewport(element, inner, copy, label) : inner;
      for (const child of element.children) this.draw(child, within);
    } else this.leaveOut(label);
  }

  private leaveOut(label: string): void {
    this.ignored.add(label);
  }

  private listHandlers(element: XmlElement): void {
    for (const attribute of element.attributes.keys()) {
      if (/^on[a-z]+$/.test(attribute)) this.leaveOut(attribute);
    }
  }

  /** The frame inside an element: its transform, role, piece and styles. */
  private enter(
    element: XmlElement,
    frame: Frame,
    name: ElementName,
    said: Declarations,
    label: string,
  ): Frame {
    const colour = said.get('color') ?? frame.colour;
    const fill = said.get('fill');
    const isGroup = !SHAPE_TAGS.has(element.tag);
    const startsPiece = name.role?.kind === 'piece' && isGroup ? name.role : null;
    const role = startsPiece ? null : name.role?.kind === 'piece' ? frame.role : (name.role ?? frame.role);
    return {
      ...frame,
      matrix: multiply(frame.matrix, this.transformOf(said, frame, label)),
      role,
      piece: startsPiece
        ? this.pieces.push({ name: startsPiece.name, full: startsPiece.full }) - 1
        : frame.piece,
      group:
        startsPiece || (isGroup && role)
          ? null
          : ((isGroup && frame.depth > 0 ? name.written : null) ?? frame.group),
      fill:
        fill === undefined || fill === 'inherit'
          ? frame.fill
          : fill.toLowerCase() === 'currentcolor'
            ? colour
            : fill,
      colour,
      visible:
        said.has('visibility') && said.get('visibility') !== 'inherit'
          ? said.get('visibility') === 'visible'
          : frame.visible,
      depth: frame.depth + 1,
    };
  }

  private transformOf(said: Declarations, frame: Frame, label: string): Matrix {
    const text = said.get('transform');
    if (text === undefined) return IDENTITY;
    const matrix = parseTransform(text);
    if (!matrix)
      return refuse('bad-number', {
        file: this.file,
        where: `the transform of “${label}”`,
        what: `“${text.slice(0, 40)}”`,
      });
    const origin = said.get('transform-origin');
    return origin === undefined ? matrix : aboutPoint(matrix, this.originOf(origin, frame.viewport, label));
  }

  /** transform-origin as one or two lengths or percentages of the frame. */
  private originOf(text: string, { width, height }: Viewport, label: string): Pt {
    const words: Record<string, string> = {
      left: '0%',
      top: '0%',
      center: '50%',
      right: '100%',
      bottom: '100%',
    };
    const [x = '50%', y = '50%'] = text
      .trim()
      .split(/[\s,]+/)
      .map((word) => words[word] ?? word);
    const measured = [parseLength(x), parseLength(y)].map((length, i) =>
      length.kind === 'absolute'
        ? length.px
        : length.kind === 'percent'
          ? length.share * (i === 0 ? width : height)
          : Number.NaN,
    );
    if (!measured.every(Number.isFinite))
      refuse('bad-number', {
        file: this.file,
        where: `the transform origin of “${label}”`,
        what: `“${text.slice(0, 40)}”`,
      });
    return [measured[0]!, measured[1]!];
  }

  private shape(element: XmlElement, frame: Frame, label: string): void {
    if (!frame.visible) return this.leaveOut(label);
    const { subpaths, commands, fault } = shapeOf(element, frame.viewport, LIMITS.commands - this.commands);
    this.commands += commands;
    if (this.commands > LIMITS.commands)
      refuse('file-too-large', { file: this.file, size: this.commands, most: LIMITS.commands });
    const paths = subpaths
      .map(({ curves, closed }): DrawnPath => ({ path: placedPath(curves, frame.matrix, closed), closed }))
      .filter(({ path }) => path.length > 0);
    const tooFar = paths.some(({ path }) =>
      path.some((c) =>
        c.some((p) => !(Math.abs(p[0]) <= LIMITS.drawnReach && Math.abs(p[1]) <= LIMITS.drawnReach)),
      ),
    );
    if (!tooFar)
      for (const { path } of paths) for (const c of path) this.chords += chordCount(c, CHORD_SAGITTA);
    if (this.chords > LIMITS.chords)
      refuse('file-too-large', { file: this.file, size: this.chords, most: LIMITS.chords });
    this.shapes.push({
      label,
      role: frame.role,
      piece: frame.piece,
      paths: tooFar ? [] : paths,
      fill: parseColour(frame.fill),
      fault: fault
        ? this.fault(label, fault.where, fault.what)
        : tooFar
          ? this.fault(label, 'the size or place', 'a value far too large')
          : null,
    });
  }

  private fault(label: string, where: string, what: string): Problem {
    return problem('bad-number', { file: this.file, where: `${where} of “${label}”`, what });
  }

  /** Draw what a `use` stands for in its place. Only parts of the same file are looked up. */
  private use(element: XmlElement, frame: Frame, name: ElementName, label: string): void {
    const target = element.href?.startsWith('#') ? this.byId.get(element.href.slice(1)) : undefined;
    if (!target) return this.leaveOut(label);
    if (frame.within.includes(target))
      refuse('file-hostile', { file: this.file, what: `the copy “${label}” contains itself` });
    const { x, y, width, height } = this.placeOf(element, frame, label);
    const inner = {
      ...frame,
      matrix: multiply(frame.matrix, translation(x ?? 0, y ?? 0)),
      within: [...frame.within, target],
    };
    // A piece has begun at the `use` itself; its target does not begin another one.
    const inPiece = name.role?.kind === 'piece';
    this.draw(target, inner, { name: inPiece ? { ...name, role: null } : name, inPiece, width, height });
  }

  /** x, y, width and height of a `use` or inner `svg`, user units; a size not given is null. */
  private placeOf(element: XmlElement, frame: Frame, label: string): Place {
    const read = (attribute: string, whole: number): number | null => {
      const text = element.attributes.get(attribute);
      if (text === undefined || text.trim() === '' || text.trim() === 'auto') return null;
      const length = parseLength(text);
      const value =
        length.kind === 'absolute'
          ? length.px
          : length.kind === 'percent'
            ? length.share * whole
            : Number.NaN;
      if (!Number.isFinite(value))
        refuse('bad-number', {
          file: this.file,
          where: `${attribute} of “${label}”`,
          what: `“${text.slice(0, 40)}”`,
        });
      return value;
    };
    const { width, height } = frame.viewport;
    return {
      x: read('x', width),
      y: read('y', height),
      width: read('width', width),
      height: read('height', height),
    };
  }

  /** The frame inside a symbol or inner svg; the size a `use` gives goes before its own, then its parent's. */
  private intoViewport(element: XmlElement, frame: Frame, copy: Copy | null, label: string): Frame {
    const own = this.placeOf(element, frame, label);
    const width = copy?.width ?? own.width ?? frame.viewport.width;
    const height = copy?.height ?? own.height ?? frame.viewport.height;
    const matrix = multiply(frame.matrix, translation(own.x ?? 0, own.y ?? 0));
    const box = viewBoxOf(element, this.file);
    if (!box) return { ...frame, matrix, viewport: { width, height } };
    const known = Number.isFinite(width) && Number.isFinite(height);
    const fitted = known
      ? fitViewBox(box, width, height, element.attributes.get('preserveAspectRatio'))
      : translation(-box.x, -box.y);
    return { ...frame, matrix: multiply(matrix, fitted), viewport: { width: box.width, height: box.height } };
  }
}

const onGrid = (value: number): number => Math.round(value / PLACE_STEP) / (1 / PLACE_STEP) + 0;

/** Curves brought to the page, joined exactly, those without length dropped; a closed path ends exactly at its start. */
function placedPath(curves: readonly Curve[], m: Matrix, closed: boolean): Curve[] {
  const place = ([x, y]: Pt): Pt => [onGrid(m[0] * x + m[2] * y + m[4]), onGrid(m[1] * x + m[3] * y + m[5])];
  const placed = curves
    .map((c) => c.map(place) as unknown as Curve)
    .filter((c) => c.some((p) => p[0] !== c[0][0] || p[1] !== c[0][1]));
  const [first, last] = [placed[0], placed.at(-1)];
  if (closed && first && last)
    placed[placed.length - 1] = [...last.slice(0, -1), first[0]] as unknown as Curve;
  return placed;
}

/**
 * Everything an SVG draws, in mm on the page, in file order, each shape with its role and piece.
 * @param scale mm per user unit for files that do not say how large they are; null if not given
 * @throws Refusal for what cannot be used at all
 */
export function readDrawing(root: XmlElement, file: string, scale: number | null): Drawing {
  const page = pageScale(root, file, scale);
  const walk = new Walk(root, file);
  walk.draw(root, {
    matrix: page.matrix,
    viewport: page.viewport,
    role: null,
    piece: null,
    group: null,
    fill: 'black',
    colour: 'black',
    visible: true,
    depth: 0,
    within: [],
  });
  return {
    shapes: walk.shapes,
    pieces: walk.pieces,
    ignored: [...walk.ignored],
    sizedBy: page.sizedBy,
    problems: page.problems,
  };
}
