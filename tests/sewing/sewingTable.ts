import type { Path, Pt } from '../../src/geometry';
import type { LaidLine, PanelledPiece, Stretch } from '../../src/panels';

/**
 * The sewing table, by exhaustion: from the stretches between panels only it finds the best order by trying every order, and replays given ones. Shares no code with
 * the planning. A seam may be sewn where two groups (or two sides of one group) share one connected line that is whole: it must not pass a
 * point at which something is left unsewn, nor end at a point where it would be the last to close. Leaving part of it open is a partial seam.
 * A join may turn by more than 30 degrees at a point only where no line goes straight on there (common practice, no source).
 */
const BEND = 30;

interface SeamEnd {
  readonly seam: number;
  readonly point: number;
  readonly away: Pt;
}

interface LinedSeam extends Stretch {
  readonly line: LaidLine;
}

interface Table {
  readonly seams: readonly LinedSeam[];
  readonly panels: ReadonlyMap<string, number>;
  readonly ends: readonly (readonly [SeamEnd, SeamEnd])[];
  /** Ends by point; null for a point of the outline. */
  readonly points: readonly (readonly SeamEnd[] | null)[];
  readonly lineOf: ReadonlyMap<LaidLine, LaidLine>;
}

function awayFrom(path: Path, fromStart: boolean): Pt {
  const c = fromStart ? path[0]! : path.at(-1)!;
  const [p, q] = fromStart ? [c[0], c[1]!] : [c.at(-1)!, c.at(-2)!];
  const l = Math.hypot(q[0] - p[0], q[1] - p[1]);
  return [(q[0] - p[0]) / l, (q[1] - p[1]) / l];
}

const bend = (a: Pt, b: Pt): number =>
  (Math.acos(Math.min(1, Math.max(-1, -(a[0] * b[0] + a[1] * b[1])))) * 180) / Math.PI;

export function layOut(piece: PanelledPiece): Table {
  const seams = piece.runs.flatMap((r) => r.stretches.map((s): LinedSeam => ({ ...s, line: r.line })));
  const ends = seams.map(({ path, from, to }, seam): [SeamEnd, SeamEnd] => [
    { seam, point: from, away: awayFrom(path, true) },
    { seam, point: to, away: awayFrom(path, false) },
  ]);
  const points = piece.nodePoints.map((_, i) =>
    piece.outlineNodes.has(i) ? null : ends.flat().filter((e) => e.point === i),
  );
  const panels = new Map(piece.panels.map((p, i) => [p.id as string, i]));
  return { seams, panels, ends, points, lineOf: sameLines(seams, points) };
}

/** Lines that meet end to end with nothing else there count as one: for each line the first of its like. */
function sameLines(seams: readonly LinedSeam[], points: Table['points']): ReadonlyMap<LaidLine, LaidLine> {
  const first = new Map(seams.map((s) => [s.line, s.line]));
  for (const here of points) {
    if (here?.length !== 2) continue;
    const [p, q] = here.map((e) => first.get(seams[e.seam]!.line)!);
    for (const [line, as] of first) if (as === q) first.set(line, p!);
  }
  return first;
}

/**
 * Whether a join may run from one end to another at a point. Where a line ends on another, that one runs straight through; a line
 * that comes back to itself may be sewn as a round and a stem.
 */
function mayRunOn({ seams, lineOf }: Table, here: readonly SeamEnd[], p: SeamEnd, q: SeamEnd): boolean {
  const line = (e: SeamEnd): LaidLine => seams[e.seam]!.line;
  const pairs = here.flatMap((a, i) => here.slice(i + 1).map((b) => [a, b] as const));
  const straight = pairs.filter(([a, b]) => bend(a.away, b.away) <= BEND);
  const isStraight = bend(p.away, q.away) <= BEND;
  if (straight.length === 0) return true;
  if (here.length === 3) {
    const drawn = straight.filter(([a, b]) => line(a) === line(b));
    const lines = new Set(here.map((e) => lineOf.get(line(e)))).size;
    if (lines < (drawn.length > 0 ? 2 : 3)) return true;
    return drawn.length > 0 ? isStraight && line(p) === line(q) : isStraight;
  }
  const isCrossing = straight.some(([a, b]) =>
    straight.some(([c, d]) => ![a, b].includes(c) && ![a, b].includes(d)),
  );
  return isStraight || line(p) === line(q) || isCrossing;
}

export interface State {
  readonly sewn: ReadonlySet<number>;
  /** Ends at which a begun seam stops short, by point. */
  readonly open: ReadonlyMap<number, SeamEnd>;
}

export const NOTHING_SEWN: State = { sewn: new Set(), open: new Map() };

function groupsOf({ seams, panels }: Table, sewn: ReadonlySet<number>): number[] {
  const group = [...panels.values()];
  for (const s of sewn) {
    const [a, b] = [group[panels.get(seams[s]!.a)!]!, group[panels.get(seams[s]!.b)!]!];
    if (a !== b) group.forEach((g, i) => g === b && (group[i] = a));
  }
  return group;
}

/** Why these seams cannot be sewn now as one; null if they can. `openAt`: where it is left open on purpose. */
export function faultOf(
  table: Table,
  { sewn, open }: State,
  run: readonly number[],
  openAt: number | null,
  group: readonly number[] = groupsOf(table, sewn),
): string | null {
  const sides = run.map((s) => {
    const { a, b } = table.seams[s]!;
    const own = [group[table.panels.get(a)!]!, group[table.panels.get(b)!]!];
    return own.sort((x, y) => x - y).join();
  });
  if (new Set(sides).size !== 1) return 'not between two groups';
  if (run.some((s) => sewn.has(s))) return 'sewn twice';
  const at = new Map<number, SeamEnd[]>();
  for (const s of run) for (const e of table.ends[s]!) at.set(e.point, [...(at.get(e.point) ?? []), e]);
  let loose = 0;
  // A loop may start and end at one point that something else runs through later.
  let startsAt: number | null = null;
  for (const [point, own] of at) {
    const here = table.points[point]!;
    if (here === null) {
      loose += own.length;
      continue;
    }
    if (own.length > 2) return 'not a line';
    const left = here.filter((e) => !sewn.has(e.seam) && !run.includes(e.seam));
    if (own.length === 2) {
      if (left.length >= 2 && startsAt === null) {
        startsAt = point;
        continue;
      }
      if (left.length > 0) return 'something is left that ends on it';
      if (!mayRunOn(table, here, own[0]!, own[1]!)) return 'bent where a line runs straight on';
      continue;
    }
    loose += 1;
    const begun = open.get(point);
    const goesOn = (e: SeamEnd): boolean => begun !== undefined && mayRunOn(table, here, begun, e);
    const staysOpen = point === openAt && left.some((e) => mayRunOn(table, here, own[0]!, e));
    const isFine =
      staysOpen ||
      left.length >= 2 ||
      (left.length === 1 && goesOn(left[0]!)) ||
      (left.length === 0 && goesOn(own[0]!));
    if (!isFine) return 'trapped';
    if (point === openAt && !staysOpen) return 'left open where nothing goes on';
  }
  const count = run.length;
  if (startsAt !== null && loose > 0) return 'something is left that ends on it';
  if (loose !== 0 && loose !== 2) return 'not one connected line';
  const reached = new Set([run[0]!]);
  for (const s of reached)
    for (const e of table.ends[s]!)
      if (table.points[e.point] !== null) for (const o of at.get(e.point)!) reached.add(o.seam);
  return reached.size === count ? null : 'not one connected line';
}

export function sew(
  table: Table,
  { sewn, open }: State,
  run: readonly number[],
  openAt: number | null,
): State {
  const now = new Map(open);
  for (const s of run) for (const e of table.ends[s]!) now.delete(e.point);
  if (openAt !== null)
    now.set(
      openAt,
      run.flatMap((s) => table.ends[s]!).find((e) => e.point === openAt)!,
    );
  // What only ends at an open point leaves it open; the last seam there finishes it.
  for (const [point, e] of open) {
    const left = table.points[point]!.filter((o) => !sewn.has(o.seam) && !run.includes(o.seam)).length;
    if (left > 0 && point !== openAt) now.set(point, e);
  }
  return { sewn: new Set([...sewn, ...run]), open: now };
}

/** Corners where a join turns at points between its seams. */
export function cornersOf(table: Table, run: readonly number[]): number {
  const all = run.flatMap((s) => table.ends[s]!).filter((e) => table.points[e.point] !== null);
  return all.filter((e, i) => all.some((o, k) => k > i && o.point === e.point && bend(o.away, e.away) > BEND))
    .length;
}

/** Every way to sew something next, and the point at which it stays open. */
function moves(
  table: Table,
  state: State,
  mayLeaveOpen: boolean,
): { run: number[]; openAt: number | null }[] {
  const group = groupsOf(table, state.sewn);
  const bySides = new Map<string, number[]>();
  table.seams.forEach(({ a, b }, s) => {
    if (state.sewn.has(s)) return;
    const key = [group[table.panels.get(a)!]!, group[table.panels.get(b)!]!].sort((p, q) => p - q).join();
    bySides.set(key, [...(bySides.get(key) ?? []), s]);
  });
  const found: { run: number[]; openAt: number | null }[] = [];
  for (const shared of bySides.values()) {
    const inParts = mayLeaveOpen || state.open.size > 0;
    for (const run of inParts ? connectedLines(table, shared) : wholeLines(table, shared)) {
      if (faultOf(table, state, run, null, group) === null) found.push({ run, openAt: null });
      if (!mayLeaveOpen) continue;
      const points = new Set(run.flatMap((s) => table.ends[s]!.map((e) => e.point)));
      for (const p of points)
        if (table.points[p] !== null && faultOf(table, state, run, p, group) === null)
          found.push({ run, openAt: p });
    }
  }
  return found;
}

const touches = (table: Table, run: readonly number[], s: number): boolean =>
  table.ends[s]!.some(
    (e) => table.points[e.point] !== null && run.some((r) => table.ends[r]!.some((o) => o.point === e.point)),
  );

/** Seams gathered into connected lines, each as long as it goes. */
function wholeLines(table: Table, shared: readonly number[]): number[][] {
  const left = new Set(shared);
  const lines: number[][] = [];
  for (const s of shared) {
    if (!left.delete(s)) continue;
    const run = [s];
    for (let found = true; found;) {
      found = false;
      for (const o of left) if (touches(table, run, o)) found = run.push(o) > 0 && left.delete(o);
    }
    lines.push(run);
  }
  return lines;
}

/** Every connected part of the seams. */
function connectedLines(table: Table, shared: readonly number[]): number[][] {
  const lines = new Map<string, number[]>();
  const grow = (run: number[]): void => {
    const key = run.toSorted((a, b) => a - b).join();
    if (lines.has(key)) return;
    lines.set(key, run);
    for (const s of shared) {
      if (run.includes(s)) continue;
      if (touches(table, run, s)) grow([...run, s]);
    }
  };
  for (const s of shared) grow([s]);
  return [...lines.values()];
}

/** States of the table looked at before a search is given up. */
const MOST_STATES = 3000;

/** Partial seams, seams in all, corners set in at points where seams meet. */
export type Best = readonly [partial: number, seams: number, corners: number];

const nameOf = ({ sewn, open }: State): string =>
  `${[...sewn].sort((a, b) => a - b).join()}/${[...open]
    .map(([p, e]) => `${p}:${e.seam}`)
    .sort()
    .join()}`;

/** The best way to sew everything without partial seams, by trying all; null if there is none, `too many` where that would take long. */
export function bestOrder(table: Table): Best | null | 'too many' {
  const known = new Map<string, Best | null>();
  const from = (state: State): Best | null => {
    if (known.size > MOST_STATES) return null;
    if (state.sewn.size === table.seams.length) return [0, 0, 0];
    const key = nameOf(state);
    const hit = known.get(key);
    if (hit !== undefined) return hit;
    let best: Best | null = null;
    for (const { run } of moves(table, state, false)) {
      const rest = from(sew(table, state, run, null));
      if (!rest) continue;
      const all: Best = [0, rest[1] + 1, rest[2] + cornersOf(table, run)];
      const less = best ? all[1] - best[1] || all[2] - best[2] : -1;
      if (less < 0) best = all;
    }
    known.set(key, best);
    return best;
  };
  const best = from(NOTHING_SEWN);
  return known.size > MOST_STATES ? 'too many' : best;
}

/** Whether everything can be sewn with at most so many partial seams, by trying all. */
export function canBeSewn(table: Table, partial: number): boolean | 'too many' {
  const hopeless = new Set<string>();
  const from = (state: State, left: number): boolean => {
    if (hopeless.size > MOST_STATES) return false;
    if (state.sewn.size === table.seams.length) return state.open.size === 0;
    const key = `${nameOf(state)}/${left}`;
    if (hopeless.has(key)) return false;
    for (const { run, openAt } of moves(table, state, left > 0))
      if (from(sew(table, state, run, openAt), openAt === null ? left : left - 1)) return true;
    hopeless.add(key);
    return false;
  };
  const can = from(NOTHING_SEWN, partial);
  return !can && hopeless.size > MOST_STATES ? 'too many' : can;
}

/** A run as the planning gives it. */
export interface GivenRun {
  readonly stretches: readonly Stretch[];
  readonly openAt: number | null;
}

/** A path's points, whichever way it runs. */
const shapeOf = (path: Path): string => path.flat().map(String).sort().join(' ');

/** Replay runs in their order: what is wrong, and how many partial seams, seams and corners there were. */
export function replay(table: Table, runs: readonly GivenRun[]): { faults: string[]; best: Best } {
  let state = NOTHING_SEWN;
  const faults: string[] = [];
  let [partial, corners] = [0, 0];
  for (const { stretches, openAt } of runs) {
    const run = stretches.map((q) =>
      table.seams.findIndex((s) => s.seam === q.seam && shapeOf(s.path) === shapeOf(q.path)),
    );
    const fault = run.length === 0 ? 'nothing to sew' : faultOf(table, state, run, openAt);
    if (fault) faults.push(`${stretches.map((q) => q.seam).join(' ')}: ${fault}`);
    if (openAt !== null) partial += 1;
    corners += cornersOf(table, run);
    state = sew(table, state, run, openAt);
  }
  if (state.sewn.size < table.seams.length) faults.push('not all is sewn');
  return { faults, best: [partial, runs.length, corners] };
}
