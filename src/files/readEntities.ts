import { LIMITS } from './limits';
import { refuse } from './refusal';

/** Comments, then declarations whose quoted strings may hold '>'. */
const DECLARATION =
  /<!--[\s\S]*?-->|<!ENTITY\s+(%\s+)?([^\s"'>]+)\s+(?:(SYSTEM|PUBLIC)\b[^>]*|"([^"]*)"|'([^']*)')[^>]*>/g;

/**
 * The plain-text entities that a document type declaration defines (some editors write their namespaces so).
 * Nothing is ever fetched: an entity that stands for an outside file is left undefined.
 * @param doctype all between `<!DOCTYPE` and its `>`
 * @throws Refusal where entities stand for entities or markup, or are too many or too long
 */
export function readEntities(doctype: string, file: string): ReadonlyMap<string, string> {
  const known = new Map<string, string>();
  if (doctype.length > LIMITS.doctype)
    refuse('file-hostile', { file, what: 'its document type declaration is far too long' });
  for (const match of doctype.matchAll(DECLARATION)) {
    const [, parameter, name, outside, double, single] = match;
    if (name === undefined || outside !== undefined) continue;
    const value = double ?? single ?? '';
    if (parameter !== undefined || /[&%<]/.test(value)) {
      refuse('file-hostile', {
        file,
        what: `its entity “${name.slice(0, 40)}” is built from other entities or markup`,
      });
    }
    if (value.length > LIMITS.entityLength || known.size >= LIMITS.entities) {
      refuse('file-hostile', { file, what: 'it defines too many or too long entities' });
    }
    // The first definition counts, as XML 1.0 section 4.2 says.
    if (!known.has(name)) known.set(name, value);
  }
  return known;
}

/** @throws Refusal where the entities' uses would blow the text up. Linear in the length of the text. */
export function checkEntityUses(text: string, entities: ReadonlyMap<string, string>, file: string): void {
  let total = 0;
  for (const [, name] of text.matchAll(/&([^\s;&#]{1,100});/g)) total += entities.get(name!)?.length ?? 0;
  if (total > LIMITS.entityText) refuse('file-hostile', { file, what: 'its entities expand without end' });
}
