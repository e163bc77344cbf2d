import { designFromTracings, type Tracing } from '../../src/files';
import type { Closing, ClosingId, Design, PieceId } from '../../src/pattern';

/** A fitted sheath needs a way in: a hidden zip in the centre back, as long as is proposed. */
const zipIn = (back: PieceId): Closing => ({
  id: 'closing-1' as ClosingId,
  kind: 'hidden',
  on: { kind: 'edge', piece: back, edge: 'centre back', nth: 0 },
  length: null,
  allowance: null,
  slot: 0,
});

/** The design that the bench opens with: the traced sheath and its zip. */
export function sheathDesign(tracing: Tracing): Design {
  const design = designFromTracings([tracing], { name: 'Fenlight sheath' });
  const back = design.pieces.find((p) => p.name === 'back')!;
  return { ...design, closings: [zipIn(back.id)] };
}
