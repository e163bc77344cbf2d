import type { jsPDF } from 'jspdf';
import { isCubic } from '../geometry';
import type { Box, Path, Pt } from '../geometry';
import { cleanText, documentTitle } from './cleanText';
import { stampFileId } from './fileId';
import type { PaperFonts } from './fonts';
import type { Lettering, Mark, PathMark, Stroke, TextMark } from './marks';

const POINTS_PER_MM = 72 / 25.4;
const FACE = 'panelwright';
/** Fixed, so that the same design gives the same bytes; given as text because a Date would print the local time zone. */
const CREATION_DATE = "D:20200101000000+00'00'";

/** Draws marks on pages of a PDF. The only place that knows the PDF library. */
export interface Pen {
  readonly lettering: Lettering;
  /** Start a page of this size, mm. */
  page(width: number, height: number): void;
  /** Put marks on the current page, moved by `by`; with `within`, only what lies in that box of the page shows. */
  draw(marks: readonly Mark[], by?: Pt, within?: Box): void;
  /** The file. Same marks, same bytes. */
  finish(): Uint8Array;
}

/** Open a new PDF. The library is loaded on first use, so that the app starts without it. */
export async function openPen(fonts: PaperFonts, title: string): Promise<Pen> {
  const { jsPDF: Pdf } = await import('jspdf');
  const doc = new Pdf({
    unit: 'mm',
    format: [210, 297],
    compress: true,
    precision: 3,
    putOnlyUsedFonts: true,
  });
  for (const [style, data] of [
    ['normal', fonts.regular],
    ['bold', fonts.bold],
  ] as const) {
    doc.addFileToVFS(`${FACE}-${style}.ttf`, data);
    doc.addFont(`${FACE}-${style}.ttf`, FACE, style);
  }
  doc.setCreationDate(CREATION_DATE as unknown as Date);
  doc.setFileId('0'.repeat(32));
  doc.setProperties({ title: documentTitle(title), creator: 'Panelwright' });
  // PDF Reference 1.6, viewer preferences: asks the print dialog to start without page scaling.
  doc.viewerPreferences({ PrintScaling: 'None', DisplayDocTitle: true });
  return new PdfPen(doc);
}

interface FontTables {
  readonly cmap: { readonly unicode: { readonly codeMap: Readonly<Record<number, number>> } };
  widthOfGlyph(glyph: number): number;
}

class PdfPen implements Pen {
  readonly lettering: Lettering;
  private readonly doc: jsPDF;
  private pages = 0;
  /** What the page's graphics state is set to, so that nothing is written twice. */
  private state = new Map<string, string>();

  constructor(doc: jsPDF) {
    this.doc = doc;
    this.lettering = letteringOf(doc);
  }

  page(width: number, height: number): void {
    // Without a matching orientation the library would swap the sides.
    this.doc.addPage([width, height], width > height ? 'l' : 'p');
    // The library opens with a page of its own; the first real one replaces it.
    if (this.pages === 0) this.doc.deletePage(1);
    this.pages += 1;
    this.state = new Map();
  }

  draw(marks: readonly Mark[], by: Pt = [0, 0], within?: Box): void {
    const { doc } = this;
    if (within) {
      doc.saveGraphicsState();
      const { minX, minY, maxX, maxY } = within;
      doc
        .rect(minX, minY, maxX - minX, maxY - minY, null)
        .clip()
        .discardPath();
      this.state = new Map();
    }
    for (const mark of marks) {
      if (mark.kind === 'text') this.letter(mark, by);
      else this.path(mark, by);
    }
    if (within) {
      doc.restoreGraphicsState();
      this.state = new Map();
    }
  }

  finish(): Uint8Array {
    return stampFileId(new Uint8Array(this.doc.output('arraybuffer')));
  }

  private set(what: string, value: string, apply: () => void): void {
    if (this.state.get(what) === value) return;
    this.state.set(what, value);
    apply();
  }

  private letter(mark: TextMark, by: Pt): void {
    if (mark.text.trim() === '') return;
    const { doc } = this;
    doc.setFont(FACE, mark.bold ? 'bold' : 'normal');
    doc.setFontSize(mark.size * POINTS_PER_MM);
    doc.setTextColor(mark.colour);
    doc.text(mark.text, mark.at[0] + by[0], mark.at[1] + by[1]);
    // Lettering sets its own fill colour.
    this.state.delete('fill');
  }

  private path(mark: PathMark, by: Pt): void {
    const { doc } = this;
    if (mark.fill) this.set('fill', mark.fill, () => doc.setFillColor(mark.fill!));
    if (mark.stroke) this.setStroke(mark.stroke);
    for (const path of mark.paths) this.trace(path, mark.closed, by);
    if (mark.fill && mark.stroke) doc.fillStrokeEvenOdd();
    else if (mark.fill) doc.fillEvenOdd();
    else if (mark.stroke) doc.stroke();
    else doc.discardPath();
  }

  private setStroke({ width, colour, dash = [] }: Stroke): void {
    const { doc } = this;
    this.set('width', `${width}`, () => doc.setLineWidth(width));
    this.set('stroke', colour, () => doc.setDrawColor(colour));
    this.set('dash', dash.join(' '), () => doc.setLineDashPattern([...dash], 0));
    const cap = dash.length > 0 ? 'butt' : 'round';
    this.set('cap', cap, () => doc.setLineCap(cap));
    this.set('join', 'round', () => doc.setLineJoin('round'));
  }

  private trace(path: Path, closed: boolean, [dx, dy]: Pt): void {
    const { doc } = this;
    path.forEach((c, i) => {
      if (i === 0) doc.moveTo(c[0][0] + dx, c[0][1] + dy);
      if (isCubic(c))
        doc.curveTo(c[1][0] + dx, c[1][1] + dy, c[2][0] + dx, c[2][1] + dy, c[3][0] + dx, c[3][1] + dy);
      // The close operator draws the last straight side itself.
      else if (!(closed && i === path.length - 1)) doc.lineTo(c[1][0] + dx, c[1][1] + dy);
    });
    if (closed && path.length > 0) doc.close();
  }
}

/** Measures with the advance widths of the embedded faces. */
function letteringOf(doc: jsPDF): Lettering {
  const tables = (style: 'normal' | 'bold'): FontTables =>
    (doc.setFont(FACE, style).getFont() as unknown as { metadata: FontTables }).metadata;
  const faces = { normal: tables('normal'), bold: tables('bold') };
  const known = new Map<string, number>();
  const ems = (text: string, bold: boolean): number => {
    const face = faces[bold ? 'bold' : 'normal'];
    let sum = 0;
    for (const c of text) sum += face.widthOfGlyph(face.cmap.unicode.codeMap[c.charCodeAt(0)] ?? 0);
    return sum / 1000;
  };
  return {
    width: (text, size, bold) => {
      const key = `${bold ? 'b' : 'r'}${text}`;
      const em = known.get(key) ?? ems(text, bold);
      known.set(key, em);
      return em * size;
    },
    clean: (text) => cleanText(text, (code) => (faces.normal.cmap.unicode.codeMap[code] ?? 0) > 0),
  };
}
