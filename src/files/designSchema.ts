import * as v from 'valibot';
import type { Design } from '../pattern';
import { designShape } from './schema/designShape';
import { brokenReferences } from './schema/references';

/** A checked design, or the first fault with its path in the file. */
export type Checked = { readonly design: Design } | { readonly where: string; readonly what: string };

/** The one place where unknown JSON becomes a design. Keys it does not know are faults too. */
export function checkDesign(input: unknown): Checked {
  const result = v.safeParse(designShape, input, { abortEarly: true, abortPipeEarly: true });
  if (!result.success) {
    const [issue] = result.issues;
    return { where: v.getDotPath(issue) ?? 'its top', what: issue.message };
  }
  const broken = brokenReferences(result.output);
  return broken ? { where: broken.path, what: broken.what } : { design: result.output as unknown as Design };
}
