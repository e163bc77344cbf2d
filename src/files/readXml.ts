import { SaxesParser, type SaxesTagNS } from 'saxes';
import { LIMITS } from './limits';
import { checkEntityUses, readEntities } from './readEntities';
import { refuse } from './refusal';

/** What an element belongs to: drawing, web page content (never drawn), or an editor's own notes. */
export type Vocabulary = 'svg' | 'html' | 'foreign';

/** One element of the file, reduced to what a tracing needs. */
export interface XmlElement {
  readonly tag: string;
  readonly vocabulary: Vocabulary;
  /** Attributes without a namespace. */
  readonly attributes: ReadonlyMap<string, string>;
  /** Target of href or xlink:href. */
  readonly href: string | null;
  /** The editor's layer label: an attribute `label` in a namespace of the editor's own. */
  readonly label: string | null;
  readonly children: XmlElement[];
  /** Text directly inside, kept for `style` and `title` only. */
  text: string;
}

const SVG = 'http://www.w3.org/2000/svg';
const XHTML = 'http://www.w3.org/1999/xhtml';
const XLINK = 'http://www.w3.org/1999/xlink';

const vocabularyOf = (uri: string): Vocabulary =>
  uri === SVG || uri === '' ? 'svg' : uri === XHTML ? 'html' : 'foreign';

function elementFrom(tag: SaxesTagNS): XmlElement {
  const attributes = new Map<string, string>();
  let href: string | null = null;
  let label: string | null = null;
  for (const { uri, local, value, prefix } of Object.values(tag.attributes)) {
    if (prefix === '') attributes.set(local, value);
    else if (uri === XLINK && local === 'href') href = value;
    else if (local === 'label' && label === null) label = value;
  }
  // SVG 2: a plain href wins over xlink:href.
  return {
    tag: tag.local,
    vocabulary: vocabularyOf(tag.uri),
    attributes,
    href: attributes.get('href') ?? href,
    label,
    children: [],
    text: '',
  };
}

/** The parser's words are `file:line:col: reason.`; ours say the place themselves. */
const reasonOf = (message: string): string =>
  message
    .replace(/^\d+:\d+:\s*/, '')
    .replace(/\.$/, '')
    .slice(0, 120);

/**
 * Parse a whole XML text into a tree. Nothing outside the text is ever loaded.
 * @throws Refusal for text that is not well formed, not SVG at its root, nested too deep, too large or hostile
 */
export function readXml(text: string, file: string): XmlElement {
  if (!/^\s*</.test(text)) refuse('file-not-svg', { file });
  const parser = new SaxesParser({ xmlns: true });
  const open: XmlElement[] = [];
  let root: XmlElement | null = null;
  let count = 0;
  let outside = false;
  parser.on('error', (error) => {
    const undefinedEntity = /undefined entity/i.test(error.message);
    if (undefinedEntity && outside)
      refuse('file-hostile', { file, what: 'it uses an entity that stands for an outside file' });
    refuse('file-not-well-formed', {
      file,
      line: parser.line,
      column: parser.column,
      what: reasonOf(error.message),
    });
  });
  parser.on('doctype', (doctype) => {
    const entities = readEntities(doctype, file);
    outside = /<!ENTITY[^>]*\b(SYSTEM|PUBLIC)\b/.test(doctype);
    if (entities.size > 0) checkEntityUses(text, entities, file);
    for (const [name, value] of entities) parser.ENTITIES[name] = value;
  });
  parser.on('opentag', (tag) => {
    const element = elementFrom(tag);
    if (!root) {
      root = element;
      if (element.tag !== 'svg' || element.vocabulary !== 'svg') refuse('file-not-svg', { file });
    }
    count += 1;
    if (count > LIMITS.elements) refuse('file-too-large', { file, size: count, most: LIMITS.elements });
    open.at(-1)?.children.push(element);
    open.push(element);
    if (open.length > LIMITS.depth)
      refuse('file-hostile', { file, what: `its elements are nested more than ${LIMITS.depth} deep` });
  });
  parser.on('closetag', () => {
    open.pop();
  });
  const keep = (piece: string): void => {
    const top = open.at(-1);
    if (top?.tag === 'style' || top?.tag === 'title') top.text += piece;
  };
  parser.on('text', keep);
  parser.on('cdata', keep);
  parser.write(text).close();
  return root ?? refuse('file-not-svg', { file });
}
