/** Reads a PDF back with pdf.js, which shares no code with the library that wrote it. All lengths in mm, y down from the upper left corner. */
import { OPS, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Box, Pt } from '../../src/geometry';

const MM = 25.4 / 72;

/** One painted path, its curves as 24 chords each; `clip` is what of it can show. */
export interface ReadPath {
  readonly lines: readonly (readonly Pt[])[];
  readonly isClosed: boolean;
  readonly lineWidth: number;
  readonly strokes: boolean;
  readonly fills: boolean;
  readonly clip: Box;
}

export interface ReadText {
  readonly text: string;
  readonly at: Pt;
  /** em */
  readonly size: number;
  readonly width: number;
  readonly clip: Box;
}

export interface ReadPage {
  /** Exactly as in the file, points. */
  readonly points: readonly [width: number, height: number];
  readonly width: number;
  readonly height: number;
  readonly paths: readonly ReadPath[];
  readonly texts: readonly ReadText[];
  /** All words of the page, a space between items. */
  readonly words: string;
}

type PdfDocument = Awaited<ReturnType<typeof getDocument>['promise']>;
type PdfPage = Awaited<ReturnType<PdfDocument['getPage']>>;

const open = (bytes: Uint8Array): Promise<PdfDocument> =>
  getDocument({ data: bytes.slice(), verbosity: 0, isEvalSupported: false }).promise;

const meet = (a: Box, b: Box): Box => ({
  minX: Math.max(a.minX, b.minX),
  minY: Math.max(a.minY, b.minY),
  maxX: Math.min(a.maxX, b.maxX),
  maxY: Math.min(a.maxY, b.maxY),
});

const STROKES: readonly number[] = [
  OPS.stroke,
  OPS.closeStroke,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
];
const FILLS: readonly number[] = [
  OPS.fill,
  OPS.eoFill,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
];

const CHORDS = 24;

/** Bernstein form, written out here so that it is not ours that measures ours. */
function chords(a: Pt, [b, c, d]: readonly [Pt, Pt, Pt]): Pt[] {
  return Array.from({ length: CHORDS }, (_, i): Pt => {
    const t = (i + 1) / CHORDS;
    const u = 1 - t;
    const at = (k: 0 | 1): number =>
      u ** 3 * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * c[k] + t ** 3 * d[k];
    return [at(0), at(1)];
  });
}

/** Codes of pdf.js: 0 move, 1 line, 2 cubic, 3 quadratic, 4 close. */
function linesOf(
  data: Float32Array,
  toPage: (x: number, y: number) => Pt,
): { lines: Pt[][]; isClosed: boolean } {
  const lines: Pt[][] = [];
  let isClosed = false;
  for (let i = 0; i < data.length;) {
    const code = data[i]!;
    const count = [1, 1, 3, 2, 0][code];
    if (count === undefined) throw new Error(`unknown path code ${code}`);
    if (code === 0) lines.push([]);
    const points = Array.from({ length: count }, (_, k) =>
      toPage(data[i + 1 + 2 * k]!, data[i + 2 + 2 * k]!),
    );
    const last = lines[lines.length - 1]!;
    if (code === 2) last.push(...chords(last[last.length - 1]!, points as [Pt, Pt, Pt]));
    else last.push(...points);
    if (code === 4) isClosed = true;
    i += 1 + 2 * count;
  }
  return { lines, isClosed };
}

async function readPage(page: PdfPage): Promise<ReadPage> {
  const [x0, y0, x1, y1] = page.view as [number, number, number, number];
  const toPage = (x: number, y: number): Pt => [(x - x0) * MM, (y1 - y) * MM];
  const whole: Box = { minX: 0, minY: 0, maxX: (x1 - x0) * MM, maxY: (y1 - y0) * MM };
  const { fnArray, argsArray } = await page.getOperatorList();
  const paths: ReadPath[] = [];
  let state = { clip: whole, lineWidth: MM };
  const saved: (typeof state)[] = [];
  const clips: Box[] = [];
  let isClip = false;
  fnArray.forEach((fn, i) => {
    const args = argsArray[i] as unknown[];
    if (fn === OPS.save) saved.push(state);
    else if (fn === OPS.restore) state = saved.pop() ?? state;
    else if (fn === OPS.setLineWidth) state = { ...state, lineWidth: (args[0] as number) * MM };
    else if (fn === OPS.clip || fn === OPS.eoClip) isClip = true;
    else if (fn === OPS.showText) clips.push(state.clip);
    else if (fn === OPS.transform) throw new Error('no page of ours moves its frame');
    else if (fn === OPS.constructPath) {
      const [paint, [data]] = args as [number, [Float32Array]];
      const read = linesOf(data, toPage);
      if (isClip) {
        const all = read.lines.flat();
        const [xs, ys] = [all.map((p) => p[0]), all.map((p) => p[1])];
        state = {
          ...state,
          clip: meet(state.clip, {
            minX: Math.min(...xs),
            minY: Math.min(...ys),
            maxX: Math.max(...xs),
            maxY: Math.max(...ys),
          }),
        };
        isClip = false;
      } else {
        paths.push({
          ...read,
          lineWidth: state.lineWidth,
          strokes: STROKES.includes(paint),
          fills: FILLS.includes(paint),
          clip: state.clip,
        });
      }
    }
  });
  const texts = await readTexts(page, toPage, clips);
  return {
    points: [x1 - x0, y1 - y0],
    width: whole.maxX,
    height: whole.maxY,
    paths,
    texts,
    words: texts.map((t) => t.text).join(' '),
  };
}

async function readTexts(
  page: PdfPage,
  toPage: (x: number, y: number) => Pt,
  clips: readonly Box[],
): Promise<ReadText[]> {
  const { items } = await page.getTextContent({ disableNormalization: true });
  const shown = items.flatMap((item) => ('str' in item && item.str !== '' ? [item] : []));
  return shown.map((item, i) => ({
    text: item.str,
    at: toPage(item.transform[4] as number, item.transform[5] as number),
    size: (item.transform[3] as number) * MM,
    width: item.width * MM,
    // Every line of lettering is shown by one operator; where pdf.js splits or joins them the whole page is taken.
    clip: clips.length === shown.length ? clips[i]! : clips[0]!,
  }));
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  const pdf = await open(bytes);
  const pages: ReadPage[] = [];
  for (let n = 1; n <= pdf.numPages; n += 1) pages.push(await readPage(await pdf.getPage(n)));
  await pdf.destroy();
  return pages;
}

/** A page as pixels: how dark each is, 0 white to 255 black. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly perMm: number;
  darkness(x: number, y: number): number;
}

/** Rendered by pdf.js at so many dots per inch. */
export async function renderPage(bytes: Uint8Array, number: number, dpi: number): Promise<Picture> {
  const pdf = await open(bytes);
  const page = await pdf.getPage(number);
  const viewport = page.getViewport({ scale: dpi / 72 });
  // The canvas that pdf.js brings along for Node.
  const factory = pdf.canvasFactory as {
    create(w: number, h: number): { canvas: HTMLCanvasElement; context: CanvasRenderingContext2D };
  };
  const { canvas, context } = factory.create(Math.round(viewport.width), Math.round(viewport.height));
  await page.render({ canvas, viewport }).promise;
  const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
  await pdf.destroy();
  return {
    width,
    height,
    perMm: dpi / 25.4,
    darkness: (x, y) => {
      const i = (y * width + x) * 4;
      return 255 - (data[i]! + data[i + 1]! + data[i + 2]!) / 3;
    },
  };
}
