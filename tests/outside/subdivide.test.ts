import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  reversePath,
  subdivide,
  transformPath,
  type Matrix,
  type Path,
  type Ring,
  type Subdivision,
} from '../../src/geometry';
import { brokenPromises } from '../geometry/checkSubdivision';
import { randomDrawing, type Drawing } from '../geometry/randomDrawings';
import { ambiguityOf } from './nearMisses';
import { facesByJsts, sampled, type ReferenceFace } from './jstsFaces';

/**
 * Subdivision against JTS (jsts 2.12.1): its noding union and Polygonizer share no code with ours. What is compared is
 * the number of faces and the area of each. Set SUBDIVISIONS to try so many of each kind.
 */
const WANTED = process.env['SUBDIVISIONS'];

/** A face thinner than this on average (2·area/perimeter, mm) is a sliver that the two may see differently. */
const SLIVER = 0.05;
/** Lines run 0.3 to 0.4 mm through what they end on, for JTS; what they cut off there is smaller than this, mm². */
const CROSSED_ENDS = 0.15;
/** Points closer than 0.01 mm are one point to us (0.0133 where points merge), not to JTS: a side may differ by that much, mm. */
const DRAWN_TOGETHER = 0.0135;
/** The joining gap, mm, and a little for what an end is moved by; JTS joins nothing. */
const JOINING = 1.1;
/** JTS gets curves as chords that leave them by this at most, mm. */
const SAMPLING = 0.001;

const perimeterOf = (sub: Subdivision, face: number): number => {
  const { ring, holes } = sub.faces[face]!;
  return [...ring, ...holes.flat()].reduce((sum, h) => sum + sub.edges[h.edge]!.length, 0);
};

interface Comparison {
  /** Null where both agree. */
  readonly difference: string | null;
  /** Whether all areas agree to rounding (ours or the reference's grid), for curves to the sampling. */
  readonly isExact: boolean;
  readonly faces: number;
}

function compare(
  ours: readonly ReferenceFace[],
  theirs: readonly ReferenceFace[],
  exact: number,
): Comparison {
  const clear = (faces: readonly ReferenceFace[]): ReferenceFace[] =>
    faces
      .filter((f) => f.area > CROSSED_ENDS && (2 * f.area) / f.perimeter > SLIVER)
      .sort((a, b) => b.area - a.area);
  const [a, b] = [clear(ours), clear(theirs)];
  const areas = (faces: readonly ReferenceFace[]): string => faces.map((f) => f.area.toFixed(2)).join(' ');
  const shown = `ours ${areas(a)} | theirs ${areas(b)}`;
  if (a.length !== b.length) return { difference: shown, isExact: false, faces: b.length };
  const worst = Math.max(0, ...a.map((f, i) => Math.abs(f.area - b[i]!.area) / f.perimeter));
  const isExact = worst < exact;
  return { difference: worst < DRAWN_TOGETHER ? null : shown, isExact, faces: b.length };
}

interface Tally {
  tried: number;
  exact: number;
  faces: number;
  refused: number;
  /** Differ, but the drawing can rightly be read both ways: see nearMisses.ts. */
  ambiguous: number;
  readonly failures: string[];
}

function tryDrawing({ outline, lines, through }: Drawing, name: string, curved: boolean, tally: Tally): void {
  const sub = subdivide(outline, lines);
  const broken = brokenPromises(outline, lines, sub);
  if (broken.length > 0) tally.failures.push(`${name}: ${broken[0]}`);
  const theirs = facesByJsts(
    sampled(outline, SAMPLING),
    through.map((l) => sampled(l, SAMPLING)),
  );
  tally.tried += 1;
  if (!theirs) {
    tally.refused += 1;
    return;
  }
  const ours = sub.faces.map((f, i) => ({ area: f.area, perimeter: perimeterOf(sub, i) }));
  const exact = Math.max(curved ? SAMPLING : 1e-9, theirs.grid);
  const { difference, isExact, faces } = compare(ours, theirs.faces, exact);
  tally.faces += faces;
  if (isExact) tally.exact += 1;
  if (!difference) return;
  const chords = lines.map((l) => sampled(l, SAMPLING));
  if (ambiguityOf(sampled(outline, SAMPLING), chords, JOINING, DRAWN_TOGETHER)) tally.ambiguous += 1;
  else tally.failures.push(`${name}: ${difference}`);
}

describe.each([
  { kind: 'straight', curved: false, tried: Number(WANTED ?? 1500) },
  { kind: 'curved', curved: true, tried: Number(WANTED ?? 600) },
])('random $kind drawings', ({ kind, curved, tried }) => {
  test(
    `have the faces the reference library finds, ${tried} tried`,
    { timeout: 60_000 + tried * 200 },
    () => {
      const tally: Tally = { tried: 0, exact: 0, faces: 0, refused: 0, ambiguous: 0, failures: [] };
      for (let seed = 0; seed < tried; seed += 1)
        tryDrawing(randomDrawing(seed, curved), `seed ${seed}`, curved, tally);
      console.log(
        `${kind}: ${tally.tried} drawings, ${tally.faces} faces compared with jsts; ` +
          `${tally.exact} drawings agree to rounding (curves: to the sampling); jsts gave up on ${tally.refused}; ${tally.ambiguous} can be read both ways; ${tally.failures.length} differ`,
      );
      expect(tally.failures).toEqual([]);
      expect(tally.ambiguous).toBeLessThan(tried / 200 + 1);
      expect(tally.refused).toBeLessThan(tried / 100 + 1);
      expect(tally.exact).toBeGreaterThan(0.95 * (tried - tally.refused));
    },
  );
});

/** A drawing that once went wrong, with what is right by hand or by jsts. */
interface FoundCase {
  readonly situation: string;
  readonly outline: Ring;
  readonly lines: readonly Path[];
  /** mm², largest first; agreement to a millionth of the whole. */
  readonly areas: readonly number[];
}

const cases = new URL('../cases/subdivide/', import.meta.url);

/** The drawing as found, and mirrored, turned, moved and started from another corner. */
const VARIANTS: readonly {
  name: string;
  of: (found: FoundCase) => { outline: Ring; lines: readonly Path[] };
}[] = [
  { name: 'as found', of: (f) => f },
  {
    name: 'mirrored',
    of: (f) => ({
      outline: reversePath(transformPath(f.outline, [-1, 0, 0, 1, 0, 0])),
      lines: transformed(f, [-1, 0, 0, 1, 0, 0]),
    }),
  },
  {
    name: 'turned',
    of: (f) => ({
      outline: transformPath(f.outline, [0, 1, -1, 0, 0, 0]),
      lines: transformed(f, [0, 1, -1, 0, 0, 0]),
    }),
  },
  {
    name: 'moved',
    of: (f) => ({
      outline: transformPath(f.outline, [1, 0, 0, 1, 512, -256]),
      lines: transformed(f, [1, 0, 0, 1, 512, -256]),
    }),
  },
  {
    name: 'started from another corner',
    of: (f) => ({ outline: [...f.outline.slice(1), f.outline[0]!], lines: f.lines }),
  },
];
const transformed = (f: FoundCase, m: Matrix): readonly Path[] => f.lines.map((l) => transformPath(l, m));

describe('drawings that once went wrong', () => {
  const files = readdirSync(cases).filter((f) => f.endsWith('.json'));
  test.each(files.flatMap((file) => VARIANTS.map((v) => [file, v.name, v.of] as const)))(
    '%s %s',
    (file, _, of) => {
      const found = JSON.parse(readFileSync(new URL(file, cases), 'utf8')) as FoundCase;
      const { outline, lines } = of(found);
      const sub = subdivide(outline, lines);
      expect(brokenPromises(outline, lines, sub)).toEqual([]);
      const areas = sub.faces.map((f) => f.area).sort((a, b) => b - a);
      const whole = areas.reduce((s, a) => s + a, 0);
      expect(areas.length).toBe(found.areas.length);
      areas.forEach((area, i) => expect(Math.abs(area - found.areas[i]!)).toBeLessThan(1e-6 * whole));
    },
  );
});
