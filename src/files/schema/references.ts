import type { DesignShape } from './designShape';

/** Places in the file where an id is given twice or names nothing, as `path: what`. */
export function brokenReferences(design: DesignShape): { path: string; what: string } | null {
  const repeated = (
    key: 'pieces' | 'lines' | 'colours' | 'trims' | 'closings' | 'remnants',
  ): { path: string; what: string } | null => {
    const seen = new Set<string>();
    const i = design[key].findIndex((x) => seen.size === seen.add(x.id).size);
    return i < 0 ? null : { path: `${key}.${i}.id`, what: 'the id is used twice' };
  };
  const known = {
    piece: new Set(design.pieces.map((p) => p.id)),
    line: new Set(design.lines.map((l) => l.id)),
    colour: new Set(design.colours.map((c) => c.id)),
  };
  const missing = (
    list: readonly object[],
    place: string,
    key: keyof typeof known,
  ): { path: string; what: string } | null => {
    const i = list.findIndex((x) => !known[key].has((x as Record<string, string>)[key]!));
    return i < 0 ? null : { path: `${place}.${i}.${key}`, what: `there is no such ${key}` };
  };
  const missingIn = (
    ids: readonly string[],
    place: string,
    key: keyof typeof known,
  ): { path: string; what: string } | null =>
    ids.some((x) => !known[key].has(x)) ? { path: place, what: `there is no such ${key}` } : null;
  const missingPlace = (key: 'trims' | 'closings'): { path: string; what: string } | null => {
    const places: readonly { on: { kind: string; line?: string; piece?: string } }[] = design[key];
    const i = places.findIndex(({ on }) =>
      on.kind === 'line' ? !known.line.has(on.line!) : !known.piece.has(on.piece!),
    );
    return i < 0 ? null : { path: `${key}.${i}.on`, what: `there is no such ${places[i]!.on.kind}` };
  };
  return (
    repeated('pieces') ??
    repeated('lines') ??
    repeated('colours') ??
    repeated('trims') ??
    repeated('closings') ??
    repeated('remnants') ??
    missing(design.remnants, 'remnants', 'colour') ??
    missing(design.offGrain, 'offGrain', 'piece') ??
    missing(design.lines, 'lines', 'piece') ??
    missing(design.marks, 'marks', 'piece') ??
    missing(design.marks, 'marks', 'colour') ??
    missing(design.allowances.lines, 'allowances.lines', 'line') ??
    missingPlace('trims') ??
    missingPlace('closings') ??
    missing(design.numbers, 'numbers', 'piece') ??
    missing(design.facings, 'facings', 'piece') ??
    missing(design.facings, 'facings', 'colour') ??
    missingIn(
      design.facings.flatMap((f) => f.interfacing ?? []),
      'facings.interfacing',
      'colour',
    ) ??
    missingIn(design.sewing.inTheRound, 'sewing.inTheRound', 'line') ??
    missingIn(design.lining?.pieces ?? [], 'lining.pieces', 'piece') ??
    missingIn(design.lining ? [design.lining.colour] : [], 'lining.colour', 'colour') ??
    missing(design.allowances.edges, 'allowances.edges', 'piece') ??
    missing(design.edgeJobs, 'edgeJobs', 'piece') ??
    missing(design.meantOff, 'meantOff', 'line')
  );
}
