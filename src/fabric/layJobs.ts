import { type CutPiece, panelSymmetry } from '../allowance';
import type { Pt } from '../geometry';
import { type Panel, leaveOf } from '../panels';
import type { Colour, ColourId, Design, PieceId } from '../pattern';
import type { SewingPlan } from '../sewing';
import { middleOf } from './jobs/middleOf';
import { repeatAnchors } from './jobs/repeatAnchors';
import { turnsWithLeave } from './jobs/turnsWithLeave';
import type { ClothPiece, LayJob } from './layPlan';

/** What is laid: a design, its panels with their cutting lines, and their numbers. A Garment is one. */
export interface ClothSource {
  readonly design: Design;
  readonly panels: readonly Panel[];
  readonly cutPieces: readonly CutPiece[];
  readonly plan: Pick<SewingPlan, 'numbers'>;
  /** Lining and facings: their panels are among `panels` too. Its design's `facings` name its own pieces that are facings. */
  readonly extras?: ClothSource | null;
}

/** How long to search, and from which seed. */
export interface LaySettings {
  /** Nominal search time per colour, s. Default 2. */
  readonly seconds?: number;
  readonly seed?: number;
}

/**
 * Copies of a panel are counted by what they are cut from, so that each is unique by panel and copy whatever the colours: 1 and 2 of
 * its own cloth, 3 and 4 of interfacing. The even one is the mirrored one of a pair.
 */
export const FIRST_OF_INTERFACING = 3;

/** What all panels of one design and its cutting lines have in common. */
interface Home {
  readonly source: ClothSource;
  /** Lining and facings. */
  readonly isExtra: boolean;
  /** Panels that are cut as the mirrored copy of another, and all others with theirs. */
  readonly twins: ReadonlyMap<Panel['id'], Panel['id']>;
  readonly anchors: () => ReadonlyMap<PieceId, Pt>;
  readonly interfacings: ReadonlyMap<PieceId, ColourId>;
}

function homeFrom(source: ClothSource, isExtra: boolean): Home {
  const { design, panels, cutPieces } = source;
  let anchors: ReadonlyMap<PieceId, Pt> | null = null;
  return {
    source,
    isExtra,
    twins: panelSymmetry(design, panels, cutPieces).twins,
    anchors: () => (anchors ??= repeatAnchors(design)),
    interfacings: new Map(
      isExtra
        ? design.facings.flatMap((f) => (f.interfacing ? [[f.piece, f.interfacing] as const] : []))
        : [],
    ),
  };
}

/** How often a panel is cut: once, or twice with the second mirrored; not at all where it is the mirrored copy of its twin. */
function copiesOf({ source, twins }: Home, panel: Panel): 0 | 1 | 2 {
  const { design, plan } = source;
  const numberOf = (id: Panel['id']): number => plan.numbers.get(id) ?? 0;
  const twin = twins.get(panel.id);
  if (twin !== undefined) return numberOf(twin) < numberOf(panel.id) ? 0 : 2;
  return design.pieces.find((p) => p.id === panel.piece)?.cutting === 'pair' ? 2 : 1;
}

/** Leave to lie off the grain, of a panel or of the twin that is cut from the same piece of paper. */
function leaveHere({ source, twins }: Home, panel: Panel): number | null {
  const twin = source.panels.find((p) => p.id === twins.get(panel.id));
  return leaveOf(source.design, panel) ?? (twin ? leaveOf(source.design, twin) : null);
}

/** How a panel may lie on a cloth, besides how often: the optional parts of a cloth piece. */
function layingOf(
  home: Home,
  panel: Panel,
  cut: CutPiece,
  colour: Colour,
): Pick<ClothPiece, 'turns' | 'keepsGrain' | 'anchor' | 'middle'> {
  const leave = leaveHere(home, panel);
  const hasRepeat = colour.repeat.along > 0 || colour.repeat.across > 0;
  const anchor = hasRepeat ? home.anchors().get(panel.piece) : undefined;
  const fold = home.source.design.pieces.find((p) => p.id === panel.piece)?.fold ?? null;
  // the copies of a pair lie over each other on folded cloth, not on its fold
  const middle = copiesOf(home, panel) === 1 ? middleOf(cut, fold) : null;
  return {
    ...(leave === null ? {} : { turns: turnsWithLeave(leave, colour.nap) }),
    ...(home.isExtra ? { keepsGrain: true } : {}),
    ...(anchor ? { anchor } : {}),
    ...(middle ? { middle } : {}),
  };
}

/**
 * A panel's pieces of one cloth: of its own where that is the colour, and once more where its facing's interfacing is cut from it (by the same
 * cutting line, glue side up). A panel cut on the fold lies opened out.
 */
function clothPieces(home: Home, panel: Panel, cut: CutPiece, colour: Colour): ClothPiece[] {
  const firsts = [
    ...(panel.colour === colour.id ? [1] : []),
    ...(home.interfacings.get(panel.piece) === colour.id ? [FIRST_OF_INTERFACING] : []),
  ];
  if (firsts.length === 0) return [];
  const copies = copiesOf(home, panel);
  const laying = layingOf(home, panel, cut, colour);
  return firsts.flatMap((first) =>
    [false, true].slice(0, copies).map((flipped, i): ClothPiece => ({
      panel: panel.id,
      number: home.source.plan.numbers.get(panel.id) ?? 0,
      copy: first + i,
      flipped,
      cutting: cut.cuttingPoints,
      grainAngle: cut.grainAngle,
      ...laying,
    })),
  );
}

/** The cloth of a job as it is when it is cut, after washing: narrower than bought by its shrinkage across, repeats smaller too. */
function washed({
  width,
  shrinkage,
  repeat,
}: Colour): Pick<LayJob, 'width' | 'repeat' | 'shrinkage' | 'shrinksAcross'> {
  const [along, across] = [1 - shrinkage.along / 100, 1 - shrinkage.across / 100];
  return {
    width: width * across,
    repeat: { along: repeat.along * along, across: repeat.across * across },
    shrinkage: shrinkage.along,
    shrinksAcross: shrinkage.across,
  };
}

/**
 * One lay job per colour that has panels or interfacing, in the design's order of colours, pieces by number.
 * Cloth is washed before it is cut.
 */
export function layJobs(source: ClothSource, { seconds = 2, seed = 1 }: LaySettings = {}): LayJob[] {
  const { design, extras } = source;
  const cutOf = new Map(source.cutPieces.map((cut) => [cut.panel, cut]));
  const isExtra = new Set(extras?.panels.map((p) => p.id));
  const own = homeFrom(source, false);
  const extra = extras ? homeFrom(extras, true) : own;
  return design.colours.flatMap((colour): LayJob[] => {
    const pieces = source.panels
      .filter((panel) => cutOf.has(panel.id))
      .flatMap((panel) =>
        clothPieces(isExtra.has(panel.id) ? extra : own, panel, cutOf.get(panel.id)!, colour),
      )
      .sort((a, b) => a.number - b.number || a.copy - b.copy);
    if (pieces.length === 0) return [];
    return [
      {
        colour: colour.id,
        colourName: colour.name,
        ...washed(colour),
        margin: colour.margin,
        layering: colour.layering,
        within: null,
        nap: colour.nap,
        gap: design.cuttingOut.gap,
        reserve: colour.reserve,
        units: design.units,
        pieces,
        seconds,
        seed,
      },
    ];
  });
}
