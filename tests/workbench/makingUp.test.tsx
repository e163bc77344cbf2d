// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { PieceId } from '../../src/pattern';
import { BandOnHem } from '../../src/workbench/sheets/BandOnHem';
import ExtrasPart from '../../src/workbench/sheets/ExtrasPart';
import { SewnWithLine } from '../../src/workbench/sheets/SewnWithLine';
import { ZipAtFold, ZipsOnEdge } from '../../src/workbench/sheets/ZipCard';
import { removeColour } from '../../src/workbench/store/colourEdits';
import { linePiece } from '../../src/workbench/store/extraEdits';
import { bodice, garmentDesign, line } from '../neighbours/garments';
import { onStage } from './stage';

const front = bodice('front');
const back = bodice('back', { width: 230, at: [900, 0] }, { onFold: false });
const plain = garmentDesign([front, back]);
const id = (name: string): PieceId => name as PieceId;

test('a band is added to a hem and goes round; its depth and order are changed from its line', async () => {
  const work = deriveGarment(plain)
    .neighbours.jobs.edges.get(id('front'))!
    .find((w) => w.job.kind === 'hem')!;
  const { store, unmount } = onStage(<BandOnHem work={work} />, plain);
  const depth = screen.getByLabelText('A band along it, depth');
  await userEvent.clear(depth);
  await userEvent.type(depth, '6{Enter}');
  await userEvent.click(screen.getByRole('radio', { name: 'In the round' }));
  await userEvent.click(screen.getByRole('button', { name: 'Add a band' }));
  const { doc } = store.getState();
  expect(doc.lines.map((l) => l.piece)).toEqual(['front', 'back']);
  expect(doc.sewing.inTheRound).toHaveLength(2);
  unmount();
  const { store: next } = onStage(<SewnWithLine line={doc.lines[1]!} />, doc);
  const field = screen.getByLabelText('Depth of the whole band');
  expect(field).toHaveProperty('value', '6');
  await userEvent.clear(field);
  await userEvent.type(field, '8{Enter}');
  expect(next.getState().doc.lines[0]).not.toBe(doc.lines[0]);
  await userEvent.click(screen.getByRole('radio', { name: 'Sewn flat' }));
  expect(next.getState().doc.sewing.inTheRound).toEqual([]);
});

test('a band that does not fit is refused in words', async () => {
  const work = deriveGarment(plain)
    .neighbours.jobs.edges.get(id('front'))!
    .find((w) => w.job.kind === 'hem')!;
  const { store } = onStage(<BandOnHem work={work} />, plain);
  const depth = screen.getByLabelText('A band along it, depth');
  await userEvent.clear(depth);
  await userEvent.type(depth, '58{Enter}');
  await userEvent.click(screen.getByRole('button', { name: 'Add a band' }));
  expect(screen.getByRole('alert').textContent).toContain('no room');
  expect(store.getState().doc).toBe(plain);
});

test('a zip is put at a fold, said to be shown, and taken out again with its seam', async () => {
  const { store } = onStage(<ZipAtFold piece={front} />, plain);
  await userEvent.click(screen.getByRole('button', { name: 'A zip at the fold' }));
  expect(store.getState().doc.lines).toHaveLength(1);
  expect(screen.queryByLabelText('Width of the slot')).toBeNull();
  await userEvent.click(screen.getByRole('radio', { name: 'Shown zip' }));
  expect(screen.getByLabelText('Width of the slot')).toHaveProperty('value', '1');
  await userEvent.click(screen.getByRole('button', { name: 'Take the zip out' }));
  expect(store.getState().doc).toMatchObject({ lines: [], closings: [] });
});

test('an edge closed by a zip has its card, and a typed length stays', async () => {
  const zipped = {
    ...plain,
    edgeJobs: [{ piece: id('back'), edge: 'centre back', job: { kind: 'zip' as const } }],
  };
  const { store } = onStage(<ZipsOnEdge piece={back.id} edge="centre back" />, zipped);
  const length = screen.getByLabelText('Length, from the upper end');
  await userEvent.clear(length);
  await userEvent.type(length, '33{Enter}');
  expect(store.getState().doc.closings.map((c) => c.length)).toEqual([330]);
  await userEvent.click(screen.getByRole('button', { name: 'Proposed length' }));
  expect(store.getState().doc.closings.map((c) => c.length)).toEqual([null]);
});

test('a zip is put into the seam of a line once', async () => {
  const doc = garmentDesign(
    [front],
    [
      line('line-1', 'front', [
        [60, 0],
        [60, 700],
      ]),
    ],
  );
  const { store } = onStage(<SewnWithLine line={doc.lines[0]!} />, doc);
  await userEvent.click(screen.getByRole('button', { name: 'A zip in this seam' }));
  expect(store.getState().doc.closings).toHaveLength(1);
  expect(screen.queryByRole('button', { name: 'A zip in this seam' })).toBeNull();
});

test('pieces are lined and edges faced from one part, which lists what comes of it', async () => {
  const { store } = onStage(<ExtrasPart />, plain);
  await userEvent.click(screen.getByRole('checkbox', { name: 'Line front' }));
  expect(store.getState().doc.lining).toMatchObject({ pieces: ['front'], shorter: 20 });
  await userEvent.selectOptions(
    screen.getByLabelText('A facing for'),
    screen.getByRole('option', { name: /^front, neckline/ }),
  );
  expect(store.getState().doc.facings).toMatchObject([{ piece: 'front', edge: 'neckline', depth: 60 }]);
  expect(screen.getByText(/front lining/)).toBeTruthy();
  expect(screen.getByText(/front neckline facing/)).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'No facing for front, neckline' }));
  await userEvent.click(screen.getByRole('checkbox', { name: 'Line front' }));
  expect(store.getState().doc).toMatchObject({ lining: null, facings: [] });
});

test('a lining whose cloth is taken off the list is cut from the first one', () => {
  const lined = linePiece(id('front'), true)(plain);
  const gone = removeColour(lined.lining!.colour)(lined);
  expect(gone.lining!.colour).toBe(gone.colours[0]!.id);
  expect(linePiece(id('front'), true)(lined)).toBe(lined);
});
