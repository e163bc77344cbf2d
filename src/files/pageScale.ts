import { problem, type Problem } from '../pattern';
import { multiply, type Matrix } from '../geometry';
import { MM_PER_PX, parseLength, parseNumbers, type SvgLength } from './lengths';
import type { XmlElement } from './readXml';
import { refuse } from './refusal';
import { translation } from './transforms';
import type { Viewport } from './shapes';

interface ViewBox extends Viewport {
  readonly x: number;
  readonly y: number;
}

/**
 * What says how large a drawing is: a size in real units, a size in pixels (which few drawing programs mean), or nothing in it, so that
 * somebody said so.
 */
export type SizedBy = 'units' | 'pixels' | 'nothing';

/** How the root maps user units to mm on the page, and the frame percentages refer to. */
export interface PageScale {
  readonly matrix: Matrix;
  readonly viewport: Viewport;
  readonly sizedBy: SizedBy;
  readonly problems: readonly Problem[];
}

/** @throws Refusal for a viewBox that is not four numbers with a size */
export function viewBoxOf(element: XmlElement, file: string): ViewBox | null {
  const text = element.attributes.get('viewBox');
  if (text === undefined || text.trim() === '') return null;
  const [x, y, width, height, ...rest] = parseNumbers(text) ?? [];
  if (x === undefined || y === undefined || !width || !height || rest.length > 0 || width < 0 || height < 0) {
    return refuse('bad-number', { file, where: 'viewBox', what: `“${text.trim().slice(0, 40)}”` });
  }
  return { x, y, width, height };
}

const share = (word: string): number => (word === 'Min' ? 0 : word === 'Mid' ? 0.5 : 1);

/**
 * Fit a viewBox into a frame of width × height (SVG 1.1 section 7.8): one scale for both axes and the aligned place,
 * or two scales where preserveAspectRatio says none.
 */
export function fitViewBox(box: ViewBox, width: number, height: number, aspect: string | undefined): Matrix {
  const [sx, sy] = [width / box.width, height / box.height];
  const match = /^\s*(?:defer\s+)?(none|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?\s*$/.exec(
    aspect ?? '',
  );
  if (match?.[1] === 'none') return [sx, 0, 0, sy, -box.x * sx, -box.y * sy];
  const s = match?.[4] === 'slice' ? Math.max(sx, sy) : Math.min(sx, sy);
  const [ax, ay] = [share(match?.[2] ?? 'Mid'), share(match?.[3] ?? 'Mid')];
  const [dx, dy] = [(width - box.width * s) * ax, (height - box.height * s) * ay];
  return [s, 0, 0, s, dx - box.x * s, dy - box.y * s];
}

/** @throws Refusal for a size that is no length or not above 0 */
function sizeOf(root: XmlElement, name: 'width' | 'height', file: string): SvgLength | null {
  const text = root.attributes.get(name);
  if (text === undefined || text.trim() === '' || text.trim() === 'auto') return null;
  const length = parseLength(text);
  if (length.kind === 'fault' || (length.kind === 'absolute' && length.mm <= 0)) {
    return refuse('bad-number', { file, where: name, what: `“${text.trim().slice(0, 40)}”` });
  }
  return length;
}

/** Whether width or height is given in a unit that has a size of its own. */
const isInRealUnits = (root: XmlElement): boolean =>
  ['width', 'height'].some((name) => /(mm|cm|q|in|pt|pc)\s*$/i.test(root.attributes.get(name) ?? ''));

/**
 * The scale of the page from the root's width, height and viewBox.
 * @param scale mm per user unit, used where the file itself does not say how large it is; null if not given
 * @throws Refusal 'scale-unknown' where neither says, 'bad-number' for sizes that are none
 */
export function pageScale(root: XmlElement, file: string, scale: number | null): PageScale {
  const [width, height] = [sizeOf(root, 'width', file), sizeOf(root, 'height', file)];
  const mm = (l: SvgLength | null): number | null => (l?.kind === 'absolute' ? l.mm : null);
  const [w, h] = [mm(width), mm(height)];
  const box = viewBoxOf(root, file);
  if (box) {
    const viewport = { width: box.width, height: box.height };
    if (w === null && h === null) {
      if (scale === null) return refuse('scale-unknown', { file });
      return {
        matrix: multiply([scale, 0, 0, scale, 0, 0], translation(-box.x, -box.y)),
        viewport,
        sizedBy: 'nothing',
        problems: [],
      };
    }
    // One side given: the other follows from the viewBox.
    const [fullW, fullH] = [w ?? (h! * box.width) / box.height, h ?? (w! * box.height) / box.width];
    return {
      matrix: fitViewBox(box, fullW, fullH, root.attributes.get('preserveAspectRatio')),
      viewport,
      sizedBy: isInRealUnits(root) ? 'units' : 'pixels',
      problems: [],
    };
  }
  const px = (l: SvgLength | null): number => (l?.kind === 'absolute' ? l.px : Number.NaN);
  const saysNothing = w === null && h === null;
  if (saysNothing && scale === null && (width || height)) return refuse('scale-unknown', { file });
  const perUnit = saysNothing && scale !== null ? scale : MM_PER_PX;
  const problems = saysNothing && scale === null ? [problem('scale-assumed', { file })] : [];
  return {
    matrix: [perUnit, 0, 0, perUnit, 0, 0],
    viewport: { width: px(width), height: px(height) },
    // without a viewBox its numbers are pixels, whatever the page is measured in
    sizedBy: saysNothing ? 'nothing' : 'pixels',
    problems,
  };
}
