import type { ReactElement } from 'react';
import { useFiles } from '../bringIn/FilesContext';
import { designFile } from '../handOut/designFile';
import { giveFile } from '../handOut/giveFile';
import { useBench, useBenchStore } from '../store/benchStore';
import { isInHand } from '../store/openShapes';

/** Stays until a save succeeds: work that is not kept must not go unnoticed. */
function KeepingNotice(): ReactElement | null {
  const store = useBenchStore();
  const keeping = useBench((s) => s.keeping);
  if (keeping.state !== 'failed') return null;
  return (
    <div className="notice bad" role="alert">
      <p>
        <strong>Your work is not being kept.</strong> {keeping.why} It stays on the table while this page is
        open.
      </p>
      <button type="button" className="strong" onClick={() => giveFile(designFile(store.getState().doc))}>
        Download the design
      </button>
    </div>
  );
}

/** What came of the last file: said once, put away by hand. */
function LastNotice(): ReactElement | null {
  const store = useBenchStore();
  const notice = useBench((s) => (s.notice?.of && !isInHand(s, s.notice.of) ? null : s.notice));
  const files = useFiles();
  if (!notice) return null;
  return (
    <div className={`notice ${notice.tone}`} role={notice.tone === 'bad' ? 'alert' : 'status'}>
      <div>
        <strong>{notice.title}</strong>
        <ul>
          {notice.lines.map((line, i) => (
            <li key={i}>{line}</li>
          ))}
        </ul>
      </div>
      <div className="actions">
        {notice.tone === 'bad' && notice.again && (
          <button type="button" onClick={files.chooseTracing}>
            Choose another file
          </button>
        )}
        <button type="button" onClick={() => store.getState().set({ notice: null })}>
          Put away
        </button>
      </div>
    </div>
  );
}

/** Everything said across the table. */
export function Notices(): ReactElement {
  return (
    <div className="notices">
      <KeepingNotice />
      <LastNotice />
    </div>
  );
}
