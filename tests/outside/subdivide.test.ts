import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { subdivide, type Path, type Ring, type Subdivision } from '../../src/geometry';
import { brokenPromises } from '../geometry/checkSubdivision';
import { randomDrawing, type Drawing } from '../geometry/randomDrawings';
import { ambiguityOf } from './nearMisses';
import { facesByJsts, sampled, type ReferenceFace } from './jstsFaces';

/**
 * Subdivision against JTS (jsts 2.12.1): its noding union and Polygonizer share no code with ours. What is compared is
 * the number of faces and the area of each. Set SUBDIVISIONS to try more than the usual number.
 */
const TRIED_EACH = Number(process.env['SUBDIVISIONS'] ?? 1000);

/** A face thinner than this on average (2·area/perimeter, mm) is a sliver that the two may see differently. */
const SLIVER = 0.05;
/** Lines run 0.3 to 0.4 mm through what they end on, for JTS; what they cut off there is smaller than this, mm². */
const CROSSED_ENDS = 0.15;
/** Points closer than 0.01 mm are one point to us (0.0133 where points merge), not to JTS: a side may differ by that much, mm. */
const DRAWN_TOGETHER = 0.0135;
/** The joining gap, mm, and a little for what an end is moved by; JTS joins nothing. */
const JOINING = 1.1;
/** JTS gets curves as chords of about 1 mm; they leave the curve by about this at most, mm. */
const SAMPLING = 0.002;

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
    sampled(outline, 1),
    through.map((l) => sampled(l, 1)),
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
  const chords = lines.map((l) => sampled(l, 1));
  if (ambiguityOf(sampled(outline, 1), chords, JOINING, DRAWN_TOGETHER)) tally.ambiguous += 1;
  else tally.failures.push(`${name}: ${difference}`);
}

describe.each([
  { kind: 'straight', curved: false },
  { kind: 'curved', curved: true },
])('random $kind drawings', ({ kind, curved }) => {
  test(
    `have the faces the reference library finds, ${TRIED_EACH} tried`,
    { timeout: 60_000 + TRIED_EACH * 200 },
    () => {
      const tally: Tally = { tried: 0, exact: 0, faces: 0, refused: 0, ambiguous: 0, failures: [] };
      for (let seed = 0; seed < TRIED_EACH; seed += 1)
        tryDrawing(randomDrawing(seed, curved), `seed ${seed}`, curved, tally);
      console.log(
        `${kind}: ${tally.tried} drawings, ${tally.faces} faces compared with jsts; ` +
          `${tally.exact} drawings agree to rounding (curves: to the sampling); jsts gave up on ${tally.refused}; ${tally.ambiguous} can be read both ways; ${tally.failures.length} differ`,
      );
      expect(tally.failures).toEqual([]);
      expect(tally.ambiguous).toBeLessThan(TRIED_EACH / 200 + 1);
      expect(tally.refused).toBeLessThan(TRIED_EACH / 100 + 1);
      expect(tally.exact).toBeGreaterThan(0.95 * (TRIED_EACH - tally.refused));
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

describe('drawings that once went wrong', () => {
  test.each(readdirSync(cases).filter((f) => f.endsWith('.json')))('%s', (file) => {
    const found = JSON.parse(readFileSync(new URL(file, cases), 'utf8')) as FoundCase;
    const sub = subdivide(found.outline, found.lines);
    expect(brokenPromises(found.outline, found.lines, sub)).toEqual([]);
    const areas = sub.faces.map((f) => f.area).sort((a, b) => b - a);
    const whole = areas.reduce((s, a) => s + a, 0);
    expect(areas.length).toBe(found.areas.length);
    areas.forEach((area, i) => expect(Math.abs(area - found.areas[i]!)).toBeLessThan(1e-6 * whole));
  });
});
