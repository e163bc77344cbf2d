import { type CutPiece, panelSymmetry } from '../allowance';
import type { Panel } from '../panels';
import type { Design } from '../pattern';
import type { SewingPlan } from '../sewing';
import type { ClothPiece, LayJob } from './layPlan';

/** What is laid: a design, its panels with their cutting lines, and their numbers. A Garment is one. */
export interface ClothSource {
  readonly design: Design;
  readonly panels: readonly Panel[];
  readonly cutPieces: readonly CutPiece[];
  readonly plan: Pick<SewingPlan, 'numbers'>;
  /** Lining and facings: their panels are among `panels` too. */
  readonly extras?: ClothSource | null;
}

export interface LaySettings {
  /** Nominal search time per colour, s. Default 2. */
  readonly seconds?: number;
  readonly seed?: number;
}

/**
 * A panel's cloth pieces: one, or two with the second mirrored where its piece is cut as a pair or it stands for its mirror image too; none
 * where it is cut as such a copy. A panel cut on the fold lies opened out: the lay is of one layer of cloth.
 */
function clothPieces(all: ClothSource, panel: Panel, cut: CutPiece): ClothPiece[] {
  const isExtra = all.extras?.panels.some((p) => p.id === panel.id);
  const source = isExtra ? all.extras! : all;
  const { design, plan } = source;
  const isPair = design.pieces.find((p) => p.id === panel.piece)?.cutting === 'pair';
  const twin = panelSymmetry(design, source.panels, source.cutPieces).twins.get(panel.id);
  const numberOf = (id: Panel['id']): number => plan.numbers.get(id) ?? 0;
  if (twin !== undefined && numberOf(twin) < numberOf(panel.id)) return [];
  return (isPair || twin !== undefined ? [false, true] : [false]).map((flipped, i) => ({
    panel: panel.id,
    number: numberOf(panel.id),
    copy: i + 1,
    flipped,
    cutting: cut.cuttingPoints,
    grainAngle: cut.grainAngle,
  }));
}

/**
 * One lay job per colour that has panels, in the design's order of colours, pieces by number.
 * Cloth is washed before it is cut: a job's width is the colour's usable width less its shrinkage across.
 */
export function layJobs(source: ClothSource, { seconds = 2, seed = 1 }: LaySettings = {}): LayJob[] {
  const cutOf = new Map(source.cutPieces.map((cut) => [cut.panel, cut]));
  return source.design.colours.flatMap((colour): LayJob[] => {
    const pieces = source.panels
      .filter((panel) => panel.colour === colour.id && cutOf.has(panel.id))
      .flatMap((panel) => clothPieces(source, panel, cutOf.get(panel.id)!))
      .sort((a, b) => a.number - b.number || a.copy - b.copy);
    if (pieces.length === 0) return [];
    return [
      {
        colour: colour.id,
        colourName: colour.name,
        width: colour.width * (1 - colour.shrinkage.across / 100),
        margin: colour.margin,
        layering: colour.layering,
        repeat: {
          along: colour.repeat.along * (1 - colour.shrinkage.along / 100),
          across: colour.repeat.across * (1 - colour.shrinkage.across / 100),
        },
        within: null,
        nap: colour.nap,
        gap: source.design.cuttingOut.gap,
        shrinkage: colour.shrinkage.along,
        reserve: colour.reserve,
        units: source.design.units,
        pieces,
        seconds,
        seed,
      },
    ];
  });
}
