import { expect, test } from 'vitest';
import { PRESETS, deepestHem, hemExcess, mixedWidths, presetOf, withGeneral } from '../../src/allowance';
import { deriveGarment } from '../../src/garment';
import { type Curve, type Pt, offsetRing, pathLength, reversePath } from '../../src/geometry';
import { MM_PER_INCH, sayProblem, type Allowances, type LineId, type PieceId } from '../../src/pattern';
import { design, piece, rectangle } from '../making/designs';

const plain: Allowances = {
  tracing: { kind: 'net', outer: 15 },
  newSeam: 15,
  hem: 40,
  edges: [],
  lines: [],
};

test('presets: home 1.5 cm and 5/8 in, workroom 1 cm', () => {
  // 5/8 in from the inch of 1959; 1 cm: Lo, Pattern Cutting, Laurence King, 2011
  expect(PRESETS.map((p) => [p.name, p.width])).toEqual([
    ['home cm', 15],
    ['home inch', (5 / 8) * MM_PER_INCH],
    ['workroom', 10],
  ]);
  for (const { name, width } of PRESETS) {
    expect(presetOf(withGeneral(plain, width))).toBe(name);
    expect(withGeneral(plain, width).hem).toBe(40);
  }
  expect(presetOf({ ...plain, newSeam: 12 })).toBe('own');
  expect(presetOf({ ...plain, newSeam: 10 })).toBe('own');
});

test('on a cut tracing a preset is that of the new seams, and what is traced stays', () => {
  const cut: Allowances = { ...plain, tracing: { kind: 'cut', included: 12 } };
  expect(presetOf(cut)).toBe('home cm');
  expect(withGeneral(cut, 10)).toEqual({ ...cut, newSeam: 10 });
});

test('1.5 cm and 5/8 in in one design are pointed out, wherever they are', () => {
  expect(mixedWidths(plain)).toBeNull();
  expect(mixedWidths({ ...plain, newSeam: 15.875 })).toEqual([15, 15.875]);
  expect(mixedWidths({ ...plain, lines: [{ line: 'a' as LineId, width: 15.875 }] })).toEqual([15, 15.875]);
  expect(
    mixedWidths({ ...withGeneral(plain, 9.525), edges: [{ piece: 'a' as PieceId, edge: 'b', width: 10 }] }),
  ).toEqual([10, 9.525]);
  const { problems } = deriveGarment(
    design([piece(rectangle(100, 100))], [], { allowances: { ...plain, newSeam: 15.875 } }),
  );
  const mixed = problems.find((p) => p.code === 'widths-mixed')!;
  expect(sayProblem(mixed, 'cm')).toContain('0.875 mm apart');
});

/** A quarter circle as a cubic: within 0.03 % of it (handle 0.5523 r: common knowledge). */
const quarter = (r: number): Curve => {
  const k = 0.5522847498 * r;
  return [
    [r, 0],
    [r, k],
    [k, r],
    [0, r],
  ];
};

test('a curved hem’s raw edge is longer than where it is sewn by twice its depth times its turning', () => {
  // Steiner's formula for parallel curves: the arc of radius r, 30 mm out and 30 mm in
  const [r, depth] = [500, 30];
  expect(hemExcess([quarter(r)], depth)).toBeCloseTo(2 * depth * (Math.PI / 2), 0);
  // and by measuring both parallels of the same wedge
  const wedge: Curve[] = [
    quarter(r),
    [
      [0, r],
      [0, 0],
    ],
    [
      [0, 0],
      [r, 0],
    ],
  ];
  const total = (width: number): number => {
    const { ring, origins } = offsetRing(wedge, [width, 0, 0])[0]!;
    return pathLength(ring.filter((c, i) => origins[i] === 0 && c.length === 4));
  };
  expect(Math.abs(total(depth) - total(-depth) - hemExcess([quarter(r)], depth))).toBeLessThan(0.5);
});

test('a straight hem takes any depth, a hollow one too, a flared one only a shallow one', () => {
  const line: Curve = [[0, 0] as Pt, [300, 0] as Pt];
  expect(deepestHem([line])).toBe(Infinity);
  expect(deepestHem(reversePath([quarter(500)]))).toBe(Infinity);
  // 5 % of what it is sewn to: by hand (2 d · π/2) = 0.05 (500 − d) π/2, d = 25 / 2.05
  expect(deepestHem([quarter(500)])).toBeCloseTo(25 / 2.05, 1);
});

test('a deep hem on a full skirt is a hint that says how deep it may be', () => {
  const wedge: Curve[] = [
    [
      [0, 100],
      [100, 0],
    ],
    [
      [100, 0],
      [700, 0],
    ],
    quarter(700),
    [
      [0, 700],
      [0, 100],
    ],
  ];
  const full = piece(wedge, { edgeNames: [{ name: 'hem', path: [wedge[2]!] }] });
  const at = (hem: number) =>
    deriveGarment(design([full], [], { allowances: { ...plain, hem } })).problems.filter(
      (p) => p.code === 'hem-too-deep',
    );
  expect(at(40)).toHaveLength(1);
  expect(sayProblem(at(40)[0]!, 'cm')).toContain('1.7 cm');
  expect(at(10)).toHaveLength(0);
});
