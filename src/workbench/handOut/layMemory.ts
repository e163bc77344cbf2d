import type { ClothPlan } from '../../fabric';

/** How long the cloth had to be, and after how many seconds of searching that was known. */
export interface LengthAt {
  readonly seconds: number;
  /** mm to be bought, before rounding. */
  readonly length: number;
}

/** What is known of one set of pieces on one cloth. */
export interface KnownLay {
  readonly plan: ClothPlan;
  readonly history: readonly LengthAt[];
  /** Seconds searched. */
  readonly searched: number;
  readonly lastSeed: number;
  /** The same pieces laid the other way, folded or in one layer; null: not known. */
  readonly other: ClothPlan | null;
  /** Whether as much was searched as was asked for. */
  readonly isFinished: boolean;
}

/** As many as somebody takes back and does again in one go, for a design of several cloths. */
const KEPT = 60;

/** Lay plans by what was laid, so that undo and redo bring them back at once. The one not asked for longest is forgotten first. */
export class LayMemory {
  private readonly known = new Map<string, KnownLay>();

  get(signature: string): KnownLay | null {
    const lay = this.known.get(signature);
    if (!lay) return null;
    this.known.delete(signature);
    this.known.set(signature, lay);
    return lay;
  }

  put(signature: string, lay: KnownLay): void {
    this.known.delete(signature);
    this.known.set(signature, lay);
    for (const oldest of this.known.keys()) {
      if (this.known.size <= KEPT) return;
      this.known.delete(oldest);
    }
  }

  get size(): number {
    return this.known.size;
  }
}
