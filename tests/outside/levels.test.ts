/**
 * Heights of the body that levels are named after, against published ones.
 */
import { expect, test } from 'vitest';
import { USUAL_WAIST_TO_HIP, levelKey } from '../../src/lines';

test('the hip is proposed at the depth below the waist that drafting tables give', () => {
  // W. Aldrich, Metric Pattern Cutting for Women's Wear, table of standard body measurements: waist to hip 20.0 cm (size 6)
  // to 22.1 cm (size 24). Values from memory.
  expect(USUAL_WAIST_TO_HIP).toBeGreaterThanOrEqual(200);
  expect(USUAL_WAIST_TO_HIP).toBeLessThanOrEqual(221);
});

test('names of levels are told apart as the standard tells girths apart', () => {
  // ISO 8559-1:2017 (Size designation of clothes, part 1: anthropometric definitions) measures bust, underbust, waist and hip
  // girth at four different heights. From memory.
  const names = ['bust', 'underbust', 'waist', 'hip'];
  expect(new Set(names.map(levelKey)).size).toBe(4);
  expect(levelKey('Waist_Level')).toBe(levelKey('waist'));
});
