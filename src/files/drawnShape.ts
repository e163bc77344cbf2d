import type { SizedBy } from './pageScale';
import type { Path } from '../geometry';
import type { Problem } from '../pattern';
import type { Role } from './roles';

/** One subpath of a drawn shape, mm on the page. A closed one ends exactly where it starts. */
export interface DrawnPath {
  readonly path: Path;
  /** Said to be closed (Z, or a shape that always is). An open one may still end where it starts. */
  readonly closed: boolean;
}

/** A shape as it lies on the page, in file order. */
export interface DrawnShape {
  /** For people: its own name as written, else that of the group it lies in, else its kind. */
  readonly label: string;
  /** Its own, or passed down by a group; null if not understood. Never a piece. */
  readonly role: Exclude<Role, { kind: 'piece' }> | null;
  /** Index into Drawing.pieces; null outside all of them. */
  readonly piece: number | null;
  readonly paths: readonly DrawnPath[];
  /** #rrggbb, or null if it has no plain fill. */
  readonly fill: string | null;
  /** Why the shape cannot be read in full. */
  readonly fault: Problem | null;
}

/** Everything drawn in a file. */
export interface Drawing {
  readonly shapes: readonly DrawnShape[];
  /** The piece groups in file order. */
  readonly pieces: readonly { readonly name: string; readonly full: string }[];
  /** Names of what was left out, in file order, each once. */
  readonly ignored: readonly string[];
  readonly sizedBy: SizedBy;
  readonly problems: readonly Problem[];
}
