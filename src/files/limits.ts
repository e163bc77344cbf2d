/**
 * How much of a file is read. Far above any traced garment, low enough that a hostile or runaway file is refused in
 * well under a second of work per limit.
 */
export const LIMITS = {
  /** Bytes of one file. */
  bytes: 30_000_000,
  /** XML elements in one file. */
  elements: 200_000,
  /** Elements nested in each other in one file. */
  depth: 200,
  /** Shapes and groups drawn, `use` copies counted each time. */
  drawn: 100_000,
  /** Groups and `use` copies nested in each other when drawn. */
  drawnDepth: 400,
  /** Path commands in one file, copies counted each time. */
  commands: 200_000,
  /** Characters of a document type declaration. */
  doctype: 50_000,
  /** Chords that the curves of one file come to, copies counted each time. */
  chords: 500_000,
  /** Curves of one outline or line after very dense straight stretches were thinned out. */
  curves: 10_000,
  /** Entities a file may define, the length of one, and of all their uses together. */
  entities: 100,
  entityLength: 1_000,
  entityText: 1_000_000,
  /** Style rules for one id, class or kind of element; class names read of one element. */
  rulesPerName: 50,
  classes: 20,
  /** Open stretches that are joined to one outline. */
  outlineParts: 5_000,
  /** Most of each thing in one design: far above any garment. Marks are notches, levels and names, each, of one piece. */
  pieces: 200,
  darts: 200,
  /** Places one dart is split between. */
  dartParts: 10,
  marks: 2_000,
  lines: 2_000,
  /** Places where panel lines of one piece cross each other: each makes a panel. */
  crossings: 3_000,
  colours: 200,
  fills: 20_000,
  trims: 500,
  remnants: 500,
  remnantCorners: 2_000,
  /** Characters of a name. */
  name: 200,
  /** Distance of any drawn point from the page's corner, mm (100 m); a design may mirror it farther. */
  drawnReach: 100_000,
  reach: 1_000_000,
} as const;

/** Largest file that is read, bytes: callers check it before they read. */
export const LARGEST_FILE = LIMITS.bytes;
