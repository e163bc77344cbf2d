import type { ReactElement } from 'react';
import type { SizeDoubt } from '../bringIn/readTracings';
import { useBench, useBenchStore } from '../store/benchStore';
import { OutlineFields } from './AllowancePart';
import { SizeCheck } from './SizeCheck';
import { Part } from './Sheet';

const DOUBTS: Readonly<Record<SizeDoubt, string>> = {
  pixels: 'The drawing gives its size in pixels, which drawing programs take in different ways.',
  nothing: 'The drawing does not say itself how large it is.',
  'no garment': 'At this size it can hardly be a garment.',
};

/** Two questions about a tracing that everything after it hangs on. Nothing waits for the answers. */
export function LookOverPart(): ReactElement | null {
  const store = useBenchStore();
  const lookOver = useBench((s) => s.lookOver);
  const doc = useBench((s) => s.doc);
  if (!lookOver) return null;
  const isDoubtful = lookOver.doubts.length > 0;
  return (
    <Part title="Look the tracing over" id="look-over">
      <p>
        What is the outline, and with how much allowance? Where single edges differ, say so under the piece
        below.
      </p>
      <OutlineFields doc={doc} />
      {isDoubtful && (
        <p className="doubt" role="note">
          {lookOver.doubts.map((d) => DOUBTS[d]).join(' ')} Give one length you know each way before you go
          on.
        </p>
      )}
      <p>
        Is it the right size?{isDoubtful ? '' : ' If in doubt, give one length you know each way.'} Measure
        the paper pattern or the garment.
      </p>
      <SizeCheck />
      <div className="actions">
        <button type="button" onClick={() => store.getState().set({ lookOver: null })}>
          {isDoubtful ? 'Leave it as it is' : 'All is right'}
        </button>
      </div>
    </Part>
  );
}
