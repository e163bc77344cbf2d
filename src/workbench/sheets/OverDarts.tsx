import type { ReactElement } from 'react';
import { passagesThrough } from '../../panels';
import type { PanelLine, WholePiece } from '../../pattern';
import { Tick } from '../parts/Choice';
import { useBenchStore } from '../store/benchStore';
import { layOverDarts } from '../store/lineEdits';

/** Where a line crosses a dart that is kept: whether it is laid over it as it will be sewn, or as drawn on the flat paper. */
export function OverDarts({ line, whole }: { line: PanelLine; whole: WholePiece }): ReactElement | null {
  const store = useBenchStore();
  const crosses = whole.darts.some((d) => d.close === null && passagesThrough(line.path, d).length > 0);
  if (!crosses) return null;
  return (
    <Tick
      label="Over the dart as sewn"
      note="It meets both legs equally far from the point, so that it runs on without a step once the dart is sewn."
      on={line.overDarts === 'sewn'}
      onChange={(sewn) =>
        store
          .getState()
          .commit(
            sewn ? 'Lay a line over its darts as sewn' : 'Lay a line over its darts as drawn',
            layOverDarts(line.id, sewn ? 'sewn' : 'flat'),
          )
      }
    />
  );
}
