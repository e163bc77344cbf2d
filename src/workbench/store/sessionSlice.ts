import type { StateCreator } from 'zustand/vanilla';
import type { UnclaimedShape } from '../../files';
import type { Path, Pt } from '../../geometry';
import type { PanelId, SeamId } from '../../panels';
import type { ColourId, Design, LineId, PieceId, Problem, TrimId } from '../../pattern';
import type { SizeDoubt } from '../bringIn/readTracings';
import type { CostReading } from '../cost/costReading';
import type { Caught } from '../drawing/catchPoint';
import type { Stroke } from '../drawing/stroke';

/** The places of the job, in its own order. */
export const PLACES = ['pattern', 'lines', 'colours', 'order', 'cloth', 'paper'] as const;
export type Place = (typeof PLACES)[number];

export type Selected =
  { readonly kind: 'line'; readonly line: LineId } | { readonly kind: 'panel'; readonly panel: PanelId };

/** A stroke under way: the piece it is drawn on, and how it lies now. */
export interface StrokeUnderWay {
  readonly piece: PieceId;
  /** Where the hand came down; the stroke's own start may have been drawn back to an edge. */
  readonly from: Caught;
  readonly stroke: Stroke;
}

/** What the hand is over or holding: shown at the tip. */
export interface Tip {
  readonly piece: PieceId;
  readonly caught: Caught;
  /** `4.5 cm below waist level`; null where nothing can be measured. */
  readonly reading: string | null;
}

/** A traced dart of a piece. */
export interface DartOf {
  readonly piece: PieceId;
  readonly dart: number;
}

/** How the last save went. `failed` stays until a save succeeds. */
export type Keeping =
  { readonly state: 'unsaved' | 'saving' | 'kept' } | { readonly state: 'failed'; readonly why: string };

export interface Notice {
  readonly tone: 'good' | 'bad';
  readonly title: string;
  readonly lines: readonly string[];
  /** The design it speaks of: taken back, it need not be said any more. */
  readonly of?: Design;
  /** Offer to choose another file. */
  readonly again?: boolean;
}

/** A place to look at for a moment. */
export interface Pointing {
  readonly piece: PieceId;
  readonly at: Pt;
  /** Counts up, so that pointing twice at one place is noticed. */
  readonly turn: number;
}

/** A tracing that does not say how large it is, waiting for an answer. */
export interface ScaleQuestion {
  readonly files: readonly { readonly name: string; readonly data: Uint8Array | string }[];
  readonly problems: readonly Problem[];
}

/** Looking a tracing over: what its outline is, and whether it has the right size. */
export interface LookOver {
  /** Why its size is doubtful; none where the drawing says it in real units and it can be a garment. */
  readonly doubts: readonly SizeDoubt[];
}

/** Seams and panels of a step, held up to the light. */
export interface Lit {
  readonly seams: ReadonlySet<SeamId>;
  readonly panels: ReadonlySet<PanelId>;
  /** Outer edges, darts and whatever else is sewn, on their pieces. */
  readonly paths: readonly { readonly piece: PieceId; readonly path: Path }[];
}

/** State of this sitting: neither saved nor taken back by undo. */
export interface SessionSlice {
  readonly place: Place;
  readonly sheetOpen: boolean;
  readonly selected: Selected | null;
  /** The dart whose choices are laid open in the list of darts. */
  readonly openDart: DartOf | null;
  /** The dart that is shown folded shut on its piece, to draw over it as it will be sewn. */
  readonly shutDart: DartOf | null;
  readonly held: ColourId | null;
  /** The cloth whose lay plan lies in the middle of the bench; null: the first one. */
  readonly shownCloth: ColourId | null;
  /** The trim that is laid open in the list of trims, with handles at its ends on the table. */
  readonly openTrim: TrimId | null;
  readonly anyAngle: boolean;
  readonly catching: boolean;
  readonly mirroring: boolean;
  readonly bothSides: boolean;
  readonly showAllowances: boolean;
  readonly underWay: StrokeUnderWay | null;
  readonly tip: Tip | null;
  readonly keeping: Keeping;
  readonly notice: Notice | null;
  readonly pointing: Pointing | null;
  readonly question: ScaleQuestion | null;
  /** Shapes of the last tracing that nobody has named yet. */
  readonly unclaimed: readonly UnclaimedShape[];
  /** The design as it came from that tracing. */
  readonly unclaimedOf: Design | null;
  /** What was said of them: the design as it was with the answer, or that they are left out. */
  readonly answered: ReadonlyMap<UnclaimedShape, Design | 'left out'>;
  /** The questions asked of a tracing just brought in, while they are open. */
  readonly lookOver: LookOver | null;
  readonly lit: Lit | null;
  /** What a movement of a line does to the cloth that is bought; null while no line is chosen or drawn. */
  readonly cost: CostReading | null;
  /** Read out by screen readers. */
  readonly spoken: string;
  set(patch: Partial<Omit<SessionSlice, 'set' | 'pointAt'>>): void;
  pointAt(piece: PieceId, at: Pt): void;
}

/** The sitting as it begins: at the lines, ready to draw. */
export const sessionSlice =
  <S extends SessionSlice>(): StateCreator<S, [], [], SessionSlice> =>
  (set) => ({
    place: 'lines',
    sheetOpen: true,
    selected: null,
    openDart: null,
    shutDart: null,
    held: null,
    shownCloth: null,
    openTrim: null,
    anyAngle: false,
    catching: true,
    mirroring: true,
    bothSides: true,
    showAllowances: true,
    underWay: null,
    tip: null,
    keeping: { state: 'unsaved' },
    notice: null,
    pointing: null,
    question: null,
    unclaimed: [],
    unclaimedOf: null,
    answered: new Map(),
    lookOver: null,
    lit: null,
    cost: null,
    spoken: '',
    set: (patch) => set(patch as Partial<S>),
    pointAt: (piece, at) =>
      set((s) => ({ pointing: { piece, at, turn: (s.pointing?.turn ?? 0) + 1 } }) as Partial<S>),
  });
