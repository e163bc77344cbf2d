import {
  curveLength,
  flattenPath,
  nearestOnPath,
  pointAt,
  pointOn,
  reversePath,
  samePoint,
  signedArea,
  type EdgeSource,
  type HalfEdge,
  type Path,
  type Ring,
  type Subdivision,
} from '../../src/geometry';

/** Curves round a face, in order. */
export const ringOf = (sub: Subdivision, ring: readonly HalfEdge[]): Ring =>
  ring.flatMap(({ edge, forward }) =>
    forward ? sub.edges[edge]!.curves : reversePath(sub.edges[edge]!.curves),
  );

/**
 * Everything a subdivision promises whatever was drawn, checked from outside. Returns the broken promises in words.
 * @param slack relative, for the sum of the areas
 */
export function brokenPromises(
  outline: Ring,
  lines: readonly Path[],
  sub: Subdivision,
  slack = 1e-9,
): string[] {
  return [
    ...brokenAreas(outline, sub, slack),
    ...brokenRings(sub),
    ...brokenEdges(outline, lines, sub),
    ...brokenCounts(sub),
    ...brokenLineEdges(lines, sub),
  ];
}

function brokenAreas(outline: Ring, sub: Subdivision, slack: number): string[] {
  const whole = signedArea(outline);
  const sum = sub.faces.reduce((s, f) => s + f.area, 0);
  const broken =
    Math.abs(sum - whole) > slack * Math.max(1, whole) ? [`areas add up to ${sum}, not ${whole}`] : [];
  sub.faces.forEach((f, i) => {
    const own = signedArea(ringOf(sub, f.ring)) + f.holes.reduce((s, h) => s + signedArea(ringOf(sub, h)), 0);
    if (!(f.area > -1e-3)) broken.push(`face ${i} has area ${f.area}`);
    if (Math.abs(own - f.area) > 1e-7 * Math.max(1, whole))
      broken.push(`face ${i} says ${f.area}, its ring ${own}`);
  });
  return broken;
}

/** Rings close to the last bit, and each half-edge is in the one face it says. */
function brokenRings(sub: Subdivision): string[] {
  const broken: string[] = [];
  const seen = new Map<string, number>();
  sub.faces.forEach((face, i) => {
    for (const ring of [face.ring, ...face.holes]) {
      const curves = ringOf(sub, ring);
      curves.forEach((c, k) => {
        const next = curves[(k + 1) % curves.length]!;
        if (!samePoint(c[c.length - 1]!, next[0])) broken.push(`face ${i} has a gap after curve ${k}`);
      });
      for (const { edge, forward } of ring) {
        const key = `${edge} ${forward}`;
        if (seen.has(key)) broken.push(`half-edge ${key} is there twice`);
        seen.set(key, i);
      }
    }
  });
  sub.edges.forEach((e, i) => {
    if ((seen.get(`${i} true`) ?? null) !== e.forwardFace) broken.push(`edge ${i}: forward face`);
    if ((seen.get(`${i} false`) ?? null) !== e.backwardFace) broken.push(`edge ${i}: backward face`);
    const isBorder = e.sources[0]?.path.kind === 'outline';
    if (isBorder && (e.forwardFace === null || e.backwardFace !== null))
      broken.push(`edge ${i}: sides of the outline`);
    if (!isBorder && (e.forwardFace === null || e.backwardFace === null))
      broken.push(`edge ${i}: has an outside`);
  });
  return broken;
}

function brokenEdges(outline: Ring, lines: readonly Path[], sub: Subdivision): string[] {
  const broken: string[] = [];
  sub.edges.forEach((e, i) => {
    const joints = [sub.nodes[e.from]!, ...e.curves.map((c) => c[c.length - 1]!)];
    e.curves.forEach((c, k) => {
      if (!samePoint(joints[k]!, c[0])) broken.push(`edge ${i} is torn before curve ${k}`);
    });
    if (!samePoint(joints.at(-1)!, sub.nodes[e.to]!)) broken.push(`edge ${i} misses its last node`);
    const length = e.curves.reduce((s, c) => s + curveLength(c), 0);
    if (Math.abs(length - e.length) > 1e-6) broken.push(`edge ${i} says length ${e.length}, is ${length}`);
    if (!(e.length > 1e-4)) broken.push(`edge ${i} has length ${e.length}`);
    if (e.sources.length === 0) broken.push(`edge ${i} comes from nowhere`);
    for (const s of e.sources)
      if (!liesOn(s, e.curves, outline, lines)) broken.push(`edge ${i} is off ${JSON.stringify(s)}`);
  });
  return broken;
}

/** Edge and source are at the same places; an end drawn on over the gap (1 mm) may be off by that. */
function liesOn(s: EdgeSource, curves: Path, outline: Ring, lines: readonly Path[]): boolean {
  const path = s.path.kind === 'outline' ? outline : lines[s.path.line]!;
  const inRange = [s.start, s.end].every(
    (r) => r.index >= 0 && r.index < path.length && r.t >= 0 && r.t <= 1,
  );
  if (!inRange) return false;
  const [first, last] = [curves[0]!, curves.at(-1)!];
  const far = (a: readonly [number, number], b: readonly [number, number]): number =>
    Math.hypot(a[0] - b[0], a[1] - b[1]);
  const allowed = s.path.kind === 'outline' ? 0.03 : 1.1;
  if (
    far(pointOn(path, s.start), first[0]) > allowed ||
    far(pointOn(path, s.end), last[last.length - 1]!) > allowed
  )
    return false;
  return curves.every((c) => nearestOnPath(path, pointAt(c, 0.5)).distance <= allowed);
}

/** Euler: nodes − edges + faces = components. */
function brokenCounts(sub: Subdivision): string[] {
  const parent = sub.nodes.map((_, i) => i);
  const root = (v: number): number => (parent[v] === v ? v : (parent[v] = root(parent[v]!)));
  for (const e of sub.edges) parent[root(e.from)] = root(e.to);
  const components = new Set(parent.map((_, i) => root(i))).size;
  const sum = sub.nodes.length - sub.edges.length + sub.faces.length;
  return sum === components
    ? []
    : [`Euler: ${sub.nodes.length} − ${sub.edges.length} + ${sub.faces.length} ≠ ${components}`];
}

/** Line edges are the inner edges with that line as a source, in order along it. */
function brokenLineEdges(lines: readonly Path[], sub: Subdivision): string[] {
  const broken: string[] = [];
  if (sub.lineEdges.length !== lines.length) broken.push('line edges of another number of lines');
  lines.forEach((_, line) => {
    const listed = sub.lineEdges[line]!;
    let last = -Infinity;
    for (const { edge, forward } of listed) {
      const own = sub.edges[edge]!.sources.find((s) => s.path.kind === 'line' && s.path.line === line);
      if (!own) {
        broken.push(`line ${line} does not run along edge ${edge}`);
        continue;
      }
      const [a, b] = [own.start.index + own.start.t, own.end.index + own.end.t];
      if (a !== b && forward !== b > a) broken.push(`line ${line}: edge ${edge} the wrong way round`);
      if (Math.min(a, b) < last - 1e-9) broken.push(`line ${line}: edges out of order`);
      last = Math.min(a, b);
    }
    const expected = sub.edges.filter(
      (e) => e.backwardFace !== null && e.sources.some((s) => s.path.kind === 'line' && s.path.line === line),
    ).length;
    if (listed.length !== expected) broken.push(`line ${line} lists ${listed.length} of ${expected} edges`);
    const divides = listed.some(({ edge }) => sub.edges[edge]!.forwardFace !== sub.edges[edge]!.backwardFace);
    if (divides === sub.idleLines.includes(line)) broken.push(`line ${line}: idle or not`);
  });
  return broken;
}

/** Corner points of an edge for a drawing of the result. */
export const edgePoints = (sub: Subdivision, edge: number): readonly (readonly [number, number])[] =>
  flattenPath(sub.edges[edge]!.curves).points;
