import type { Garment } from '../garment';
import {
  type LineMeeting,
  type Neighbour,
  LINES_MEET,
  isImageOf,
  isMeantOff,
  sameMeeting,
} from '../neighbours';
import type { EdgeRef } from '../neighbours';

/** A seam between two outline edges in report.json, mm. */
export interface ReportedSeam {
  /** `front/side seam`: piece and edge by name. */
  a: string;
  b: string;
  /** As sewn: darts shut. */
  lengthA: number;
  lengthB: number;
  /** lengthA − lengthB, and between what it is meant to lie. */
  difference: number;
  ease: { least: number; most: number };
  /** Where the walk begins. */
  from: string;
  /** Lines that miss each other: label of a's line, and of b's. */
  mismatches: { line: string; meets: string; mm: number; meant: boolean }[];
}

const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const alike = (one: readonly LineMeeting[], other: readonly LineMeeting[]): boolean =>
  one.length === other.length &&
  one.every((m) => other.some((o) => sameMeeting(o, m) && Math.abs(o.mm - m.mm) < LINES_MEET));

/**
 * Opened-out halves are drawn right side up, so the front's edge on the drawing's right is sewn to the back's on the left. Where both
 * sides of the body are alike, a seam is told by the edges as traced: side seam with side seam, mirrored with mirrored.
 */
function imageOf(seam: Neighbour, garment: Garment): Neighbour | null {
  const { wholes, seams } = garment.neighbours;
  const isMirrored = ({ piece, edge }: EdgeRef): boolean => wholes.get(piece)!.edges[edge]!.mirrored;
  const { a, b } = seam.join;
  const image = seams.find((o) => o !== seam && isImageOf(wholes, o.join, seam.join));
  if (!image || isMirrored(a) === isMirrored(b) || isMirrored(image.join.b) !== isMirrored(a)) return null;
  return alike(seam.meetings, image.meetings) ? image : null;
}

function reportedSeam(seam: Neighbour, garment: Garment): ReportedSeam {
  const image = imageOf(seam, garment);
  const labelOfB = (m: LineMeeting): string =>
    image?.meetings.find((o) => sameMeeting(o, m))?.b.label ?? m.b.label;
  return {
    a: seam.a,
    b: image?.b ?? seam.b,
    lengthA: rounded(seam.walk.lengthA),
    lengthB: rounded(seam.walk.lengthB),
    difference: rounded(seam.walk.difference),
    ease: seam.walk.ease,
    from: seam.join.beginsAt,
    mismatches: seam.meetings
      .filter((m) => m.mm >= LINES_MEET)
      .map((m) => ({
        line: m.a.label,
        meets: labelOfB(m),
        mm: rounded(m.mm),
        meant: isMeantOff(garment.design.meantOff, m),
      })),
  };
}

/** Seams between pieces for the report, in the order of the garment's. */
export const reportedSeams = (garment: Garment): ReportedSeam[] =>
  garment.neighbours.seams.map((seam) => reportedSeam(seam, garment));
