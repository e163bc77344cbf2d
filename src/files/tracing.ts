import type { Line, Path, Pt, Ring } from '../geometry';
import type { SizedBy } from './pageScale';
import type { Dart, EdgeName, Level, Notch } from '../pattern';

/** A panel line as traced, in file order. */
export interface TracedLine {
  readonly path: Path;
  /** Never mirrored. */
  readonly once: boolean;
}

/** A filled shape that colours the panel it lies in. */
export interface TracedFill {
  /** Well inside the shape. */
  readonly at: Pt;
  /** #rrggbb, lower case. */
  readonly fill: string;
}

/** One piece as traced; mm on the page. */
export interface TracedPiece {
  readonly name: string;
  /** Simple, signedArea > 0. */
  readonly outline: Ring;
  /** One straight curve of the outline, or null. */
  readonly fold: Line | null;
  readonly grain: Line | null;
  readonly darts: readonly Dart[];
  readonly notches: readonly Notch[];
  readonly levels: readonly Level[];
  readonly edgeNames: readonly EdgeName[];
  readonly lines: readonly TracedLine[];
  readonly fills: readonly TracedFill[];
}

/** A drawn shape that was not understood: the bench asks what it is. */
export interface UnclaimedShape {
  readonly name: string;
  /** The piece it lies in, by name; null outside all pieces. */
  readonly piece: string | null;
  readonly path: Path;
  readonly closed: boolean;
}

/** All that a traced SVG holds. */
export interface Tracing {
  /** File name as given. */
  readonly file: string;
  /** What the drawing calls itself, else its file's name. */
  readonly title: string;
  /** What says how large it is. */
  readonly sizedBy: SizedBy;
  readonly pieces: readonly TracedPiece[];
  readonly unclaimed: readonly UnclaimedShape[];
  /** Names of all that was left out, each once, in file order. */
  readonly ignored: readonly string[];
}
