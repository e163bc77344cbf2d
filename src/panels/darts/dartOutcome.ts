import { type Design, type PieceId, type PlacedDart, dartAngle, dartIntake } from '../../pattern';
import type { Panel } from '../panel';
import { slicedPiece } from '../slicedPieces';
import { placedDarts } from './dartChoices';
import { passagesThrough } from './passage';

/** A dart that is still sewn after what is done. mm, radians. */
export interface SewnDart {
  readonly angle: number;
  /** Width where it is widest: at the mouth, or at the line that cuts the rest of it off. */
  readonly intake: number;
}

/** What becomes of one traced dart, on its traced side. */
export interface DartOutcome {
  /** As traced. */
  readonly angle: number;
  readonly intake: number;
  /** What is still sewn as a dart; more than one where it was split. */
  readonly sewn: readonly SewnDart[];
  /** The angle that went into seams, radians. */
  readonly swallowed: number;
  /** Eased in where a line passes beside the point, mm. */
  readonly eased: number;
}

/** Width of a dart where panel lines cut it, mm; its whole intake where none does. */
function intakeIn(panel: Panel, dart: PlacedDart): number {
  const widths = panel.boundary
    .filter((e) => e.origin.kind === 'seam')
    .flatMap((e) => passagesThrough(e.path, dart).map((p) => p.leave.along - p.enter.along));
  return widths.length > 0 ? Math.max(...widths) : dartIntake(dart);
}

/** What is done with a dart in the design as it is: numbers for the choice, the report and the handout. */
export function dartOutcome(design: Design, piece: PieceId, traced: number): DartOutcome | null {
  const own = design.pieces.find((p) => p.id === piece);
  const shape = own?.darts[traced];
  if (!own || !shape) return null;
  const { panels } = slicedPiece(own, design);
  const sewn = placedDarts(design, own, traced)
    .filter((d) => !d.mirrored)
    .flatMap((dart): SewnDart[] => {
      const parts = panels.flatMap((p) => p.darts.filter((d) => isPartOf(d, dart)).map((d) => ({ p, d })));
      if (parts.length === 0) return [];
      const isCut = dart.close !== null && panels.some((p) => p.closings.some((c) => isPartOf(c.dart, dart)));
      const intake = isCut ? Math.max(...parts.map(({ p, d }) => intakeIn(p, d))) : dartIntake(dart);
      return [{ angle: dartAngle(dart), intake }];
    });
  const closings = panels
    .flatMap((p) => p.closings)
    .filter((c) => c.dart.traced === traced && !c.dart.mirrored);
  const isTaken = closings.some((c) => c.how !== 'eased');
  return {
    angle: dartAngle(shape),
    intake: dartIntake(shape),
    sewn,
    swallowed: isTaken
      ? Math.max(
          0,
          ...placedDarts(design, own, traced)
            .filter((d) => d.close !== null && !d.mirrored)
            .map(dartAngle),
        )
      : 0,
    eased: closings.reduce((most, c) => Math.max(most, c.width), 0),
  };
}

const isPartOf = (part: PlacedDart, dart: PlacedDart): boolean =>
  part.traced === dart.traced &&
  part.mirrored === dart.mirrored &&
  Math.abs(dartAngle(part) - dartAngle(dart)) < 1e-9;
