import type { LayPlan } from '../../fabric';
import type { Garment } from '../../garment';
import { designFile } from './designFile';
import { fileNameOf, type MadeFile } from './giveFile';

/** Who lays the cloths, for what needs them. */
export interface LaysCloths {
  finished(garment: Garment): Promise<readonly LayPlan[]>;
}

const loadPaper = async (): Promise<
  typeof import('../../paper') & { fonts: import('../../paper').PaperFonts }
> => {
  const [paper, { fontsFromAsset }] = await Promise.all([
    import('../../paper'),
    import('../../paper/fontsFromAsset'),
  ]);
  return { ...paper, fonts: await fontsFromAsset() };
};

/** The true-scale cutting pieces. */
export async function makePieces(garment: Garment): Promise<MadeFile> {
  const { piecesPdf, fonts } = await loadPaper();
  const { bytes, sheets } = await piecesPdf(garment, { fonts });
  return {
    name: `${fileNameOf(garment.design.name)}-pieces.pdf`,
    type: 'application/pdf',
    data: bytes,
    pages: sheets.pages,
  };
}

/** The handout, with the cloth to buy from finished lay plans and a table over the usual widths. */
export async function makeHandout(garment: Garment, lays: LaysCloths): Promise<MadeFile> {
  const [{ handoutPdf, fonts }, { withWidthTables }, plans] = await Promise.all([
    loadPaper(),
    import('./widthTables'),
    lays.finished(garment),
  ]);
  const { layPlans, widthTables } = await withWidthTables(garment, plans);
  const bytes = await handoutPdf(garment, layPlans, { fonts, widthTables });
  return { name: `${fileNameOf(garment.design.name)}-handout.pdf`, type: 'application/pdf', data: bytes };
}

/** The lay plans alone, to take to the table. */
export async function makeLayPlans(garment: Garment, lays: LaysCloths): Promise<MadeFile> {
  const [{ layPlansPdf, fonts }, plans] = await Promise.all([loadPaper(), lays.finished(garment)]);
  const { bytes, pages } = await layPlansPdf(garment, plans, { fonts });
  return {
    name: `${fileNameOf(garment.design.name)}-lay-plans.pdf`,
    type: 'application/pdf',
    data: bytes,
    pages,
  };
}

/** The pieces as one SVG drawing in mm. */
export async function makeSvg(garment: Garment): Promise<MadeFile> {
  const { piecesSvg } = await import('./piecesDrawing');
  return {
    name: `${fileNameOf(garment.design.name)}-pieces.svg`,
    type: 'image/svg+xml',
    data: piecesSvg(garment),
  };
}

export const makeDesignFile = (garment: Garment): Promise<MadeFile> =>
  Promise.resolve(designFile(garment.design));
