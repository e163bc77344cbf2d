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
  /** Entities a file may define, the length of one, and of all their uses together. */
  entities: 100,
  entityLength: 1_000,
  entityText: 1_000_000,
  /** Style rules for one id, class or kind of element; class names read of one element. */
  rulesPerName: 50,
  classes: 20,
  /** Open stretches that are joined to one outline. */
  outlineParts: 5_000,
  /** Distance of any point from the page's corner, mm (1 km). */
  reach: 1_000_000,
} as const;

/** Largest file that is read, bytes: callers check it before they read. */
export const LARGEST_FILE = LIMITS.bytes;
