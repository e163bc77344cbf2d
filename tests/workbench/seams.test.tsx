// @vitest-environment jsdom
import { screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { sayMiss } from '../../src/workbench/drawing/seamWords';
import { ContinueCard } from '../../src/workbench/sheets/ContinueCard';
import { EdgesPart } from '../../src/workbench/sheets/EdgesPart';
import MeetPart from '../../src/workbench/sheets/MeetPart';
import { bodice, garmentDesign, line } from '../neighbours/garments';
import { piece, rectangle } from '../making/designs';
import { onStage } from './stage';

const STRAIGHT = { waistIn: 0, flare: 0 } as const;
const front = bodice('front', STRAIGHT);
const back = bodice('back', { ...STRAIGHT, at: [900, 0] }, { onFold: false });
const lineOn = (name: 'front' | 'back', y: number) =>
  line(
    name === 'front' ? 'line-1' : 'line-2',
    name,
    name === 'front'
      ? [
          [0, y],
          [240, y],
        ]
      : [
          [900, y],
          [1140, y],
        ],
  );
const off: Design = garmentDesign([front, back], [lineOn('front', 400), lineOn('back', 402.3)]);

test('where the user works in inches, so does the seam table: to 1/16, and never nothing for what misses', () => {
  onStage(<MeetPart />, { ...off, units: 'in' });
  const rows = screen.getAllByRole('row').map((r) => r.textContent);
  // 25.4 mm to the inch by definition: 102 mm is 4 1/64 in, 10 mm is 6.3 sixteenths, 2.3 mm is 1.4 sixteenths
  expect(rows).toContain('4 in4 innoneto 3/8 in');
  expect(screen.getByText('1/16 in off')).toBeTruthy();
  expect(sayMiss(0.6, 'in')).toBe('under 1/16 in');
  expect(sayMiss(-0.6, 'cm')).toBe('0.6 mm');
});

test('the seam table says both lengths, the difference, the ease meant, and what misses by how much', () => {
  onStage(<MeetPart />, off);
  const rows = screen.getAllByRole('row').map((r) => r.textContent);
  expect(rows).toContain('side seam front and back');
  expect(rows).toContain('38 cm38 cmnonenone');
  expect(rows).toContain('10.2 cm10.2 cmnoneto 10 mm');
  const lines = screen.getByRole('list', { name: 'Lines over the side seam of front and back' });
  expect(within(lines).getByText('2.3 mm off')).toBeTruthy();
});

test('a miss is said to be meant, by keyboard, and taken back', async () => {
  const { store } = onStage(<MeetPart />, off);
  const meant = screen.getByLabelText('meant to be off');
  meant.focus();
  await userEvent.keyboard(' ');
  expect(store.getState().doc.meantOff).toEqual([
    { line: 'line-1', end: 'end' },
    { line: 'line-2', end: 'end' },
  ]);
  expect(store.getState().spoken).toBe('L1 and L2 are meant to be off.');
  expect(deriveGarment(store.getState().doc).problems.some((p) => p.code.startsWith('lines-'))).toBe(false);
  await userEvent.click(screen.getByLabelText('meant to be off'));
  expect(store.getState().doc.meantOff).toEqual([]);
});

test('a line that stops at a seam is continued in one step, and follows from then on', async () => {
  const design = garmentDesign([front, back], [lineOn('front', 400)]);
  const { store } = onStage(<ContinueCard line={design.lines[0]!} />, design);
  await userEvent.click(screen.getByRole('button', { name: 'Continue on back over the side seam' }));
  const { doc } = store.getState();
  expect(doc.lines).toHaveLength(2);
  expect(doc.lines[1]!.ties?.nodes[0]?.kind).toBe('neighbour');
  expect(store.getState().selected).toEqual({ kind: 'line', line: doc.lines[1]!.id });
  store.getState().commit('Move it', (d) => ({
    ...d,
    lines: d.lines.map((l) =>
      l.id === 'line-1'
        ? {
            ...l,
            path: [
              [
                [0, 430],
                [240, 430],
              ],
            ],
          }
        : l,
    ),
  }));
  expect(store.getState().doc.lines[1]!.path[0]![0][1]).toBeCloseTo(430, 6);
});

test('edges without a sure job are asked once, with what is likely filled in', async () => {
  const box = piece(rectangle(200, 300), { name: 'pocket' });
  const { store } = onStage(<EdgesPart piece={box} />, garmentDesign([box]));
  const asked = screen.getByRole('group', { name: 'What becomes of these edges of pocket?' });
  await userEvent.selectOptions(within(asked).getByLabelText('edge 1'), 'hemmed');
  expect(store.getState().doc.edgeJobs).toEqual([{ piece: 'pocket', edge: 'edge 1', job: { kind: 'hem' } }]);
  await userEvent.click(screen.getByRole('button', { name: 'All right' }));
  expect(store.getState().doc.edgeJobs.map((a) => [a.edge, a.job.kind])).toEqual([
    ['edge 1', 'hem'],
    ['edge 2', 'left'],
    ['edge 3', 'left'],
    ['edge 4', 'left'],
  ]);
  expect(deriveGarment(store.getState().doc).problems.map((p) => p.code)).not.toContain('edge-job-unknown');
  expect(screen.queryByRole('button', { name: 'All right' })).toBeNull();
});

test('an edge is bound: it gets no allowance, until a width is given by hand', async () => {
  const { store } = onStage(<EdgesPart piece={front} />, garmentDesign([front, back]));
  await userEvent.click(screen.getByRole('button', { name: /^neckline/, hidden: true }));
  await userEvent.selectOptions(screen.getByLabelText('It is'), 'bound');
  const widthOf = (): number => {
    const { panels, cutPieces } = deriveGarment(store.getState().doc);
    const own = panels.filter((p) => p.piece === front.id).map((p) => p.id);
    const cut = cutPieces.find((c) => own.includes(c.panel))!;
    return cut.edgeLabels.find((l) => l.edgeName === 'neckline')!.allowance;
  };
  expect(widthOf()).toBe(0);
  const field = screen.getByLabelText('Allowance');
  await userEvent.clear(field);
  await userEvent.type(field, '0.6{Enter}');
  expect(widthOf()).toBe(6);
  await userEvent.click(screen.getByRole('button', { name: 'As proposed' }));
  expect(store.getState().doc.edgeJobs).toEqual([]);
});

test('an edge is renamed by hand, and what was kept under its old name goes along', async () => {
  const bare = bodice('front', STRAIGHT, { named: false });
  const start = garmentDesign([bare, back], [lineOn('front', 400)]);
  const design: Design = {
    ...start,
    allowances: { ...start.allowances, edges: [{ piece: bare.id, edge: 'edge 2', width: 22 }] },
    edgeJobs: [{ piece: bare.id, edge: 'side seam', job: { kind: 'left' } }],
  };
  const { store } = onStage(<EdgesPart piece={bare} />, design);
  await userEvent.click(screen.getByRole('button', { name: /^side seam/, hidden: true }));
  const name = screen.getByLabelText('Name');
  await userEvent.clear(name);
  await userEvent.type(name, 'side vent{Enter}');
  const { doc } = store.getState();
  const { edges } = deriveGarment(doc).pieces[0]!.whole;
  expect(edges.filter((e) => e.plainName === 'side vent').map((e) => e.naming)).toEqual(['traced', 'traced']);
  expect(doc.edgeJobs.map((a) => a.edge)).toEqual(['side vent']);
  expect(doc.allowances.edges.map((e) => e.edge)).toEqual(['armhole']);
  expect(edges.map((e) => e.plainName)).not.toContain('edge 1');
});
