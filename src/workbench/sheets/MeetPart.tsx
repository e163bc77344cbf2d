import type { ReactElement } from 'react';
import { isMeantOff, type LineMeeting, type Neighbour, type Neighbours } from '../../neighbours';
import { formatLength } from '../../pattern';
import { showPlace, useTable } from '../canvas/tableControls';
import {
  nameSeam,
  sayDifference,
  sayEase,
  sayMiss,
  seamRows,
  toneOfLengths,
  toneOfMiss,
} from '../drawing/seamWords';
import { shownGarment, useBench, useBenchStore } from '../store/benchStore';
import { meanOff } from '../store/edgeEdits';
import { Part } from './Sheet';

/** One line over a seam: how far its two parts miss each other, and whether that is meant. */
function MeetingRow({ meeting }: { meeting: LineMeeting }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const meantOff = useBench((s) => s.doc.meantOff);
  const units = useBench((s) => s.doc.units);
  const meant = isMeantOff(meantOff, meeting);
  const { a, b, mm } = meeting;
  const tone = meant ? 'good' : toneOfMiss(meeting);
  const own = a.label === b.label;
  const words = toneOfMiss(meeting) === 'good' ? 'meet' : `${sayMiss(mm, units)} off`;
  return (
    <li className={`meeting ${tone}`}>
      <button
        type="button"
        className="plain"
        onClick={() => showPlace(table, store, a.piece, a.at)}
        aria-label={`Show where ${a.label} ${own ? 'meets itself' : `meets ${b.label}`}: ${words}`}
      >
        {own ? a.label : `${a.label} – ${b.label}`}
      </button>
      <span className="meeting-mm">{words}</span>
      {(meant || toneOfMiss(meeting) !== 'good') && (
        <label className="meant">
          <input
            type="checkbox"
            checked={meant}
            onChange={(e) => {
              const on = e.target.checked;
              store.getState().commit(
                on ? 'Let lines miss each other' : 'Let lines meet again',
                meanOff(
                  [a, b].map(({ line, end }) => ({ line, end })),
                  on,
                ),
              );
              store.getState().set({
                spoken: on
                  ? `${a.label} and ${b.label} are meant to be off.`
                  : `${a.label} and ${b.label} are to meet.`,
              });
            }}
          />
          meant to be off
        </label>
      )}
    </li>
  );
}

function SeamRows({ seam, neighbours }: { seam: Neighbour; neighbours: Neighbours }): ReactElement {
  const units = useBench((s) => s.doc.units);
  const { seam: name, pieces } = nameSeam(seam, neighbours);
  const met = seam.meetings;
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={4}>
          {name} <em>{pieces}</em>
        </th>
      </tr>
      <tr className={toneOfLengths(seam)}>
        <td>{formatLength(seam.walk.lengthA, units)}</td>
        <td>{formatLength(seam.walk.lengthB, units)}</td>
        <td>{sayDifference(seam, units)}</td>
        <td>{sayEase(seam, units)}</td>
      </tr>
      {met.length > 0 && (
        <tr>
          <td colSpan={4}>
            <ul className="meetings" aria-label={`Lines over the ${name} of ${pieces}`}>
              {met.map((m) => (
                <MeetingRow key={`${m.a.label} ${m.a.end} ${m.b.label} ${m.b.end}`} meeting={m} />
              ))}
            </ul>
          </td>
        </tr>
      )}
    </tbody>
  );
}

/** Where pieces meet: every seam between outlines walked along its stitching lines, and the lines that cross it. Live while a line is dragged. */
export default function MeetPart(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.draft ?? s.doc);
  const { neighbours } = shownGarment(store.getState());
  const rows = seamRows(neighbours);
  if (rows.length === 0) return null;
  return (
    <Part title="Where pieces meet" id="seams">
      <p className="note">Stitching lines as sewn, darts shut, walked from notch to notch.</p>
      <table className="seam-table">
        <thead>
          <tr>
            <th scope="col">First</th>
            <th scope="col">Second</th>
            <th scope="col">Differ by</th>
            <th scope="col">Ease meant</th>
          </tr>
        </thead>
        {rows.map((seam, i) => (
          <SeamRows key={`${seam.a} ${seam.b} ${i}`} seam={seam} neighbours={neighbours} />
        ))}
      </table>
    </Part>
  );
}
