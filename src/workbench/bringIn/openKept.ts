import { openDesign } from '../../files';
import { deriveGarment } from '../../garment';
import { problem, type Design, type Outcome } from '../../pattern';

/** Open what was kept last time: checked like any file, and worked out once, so that the bench cannot stumble over it. */
export function openKept(text: string): Outcome<Design> {
  const file = 'The kept design';
  const opened = openDesign(text, file);
  if (!opened.ok) return opened;
  try {
    deriveGarment(opened.value);
    return opened;
  } catch (failure) {
    return {
      ok: false,
      problems: [
        problem('design-broken', {
          file,
          where: 'its shapes',
          what: failure instanceof Error ? failure.message : String(failure),
        }),
      ],
    };
  }
}
