import { LIMITS } from './limits';

/** A declaration block: property in lower case to its value. */
export type Declarations = ReadonlyMap<string, string>;

interface Rule {
  readonly tag: string | null;
  readonly id: string | null;
  readonly classes: readonly string[];
  readonly declarations: Declarations;
  /** id, class and element counts weighed as CSS does (Selectors, W3C: specificity). */
  readonly weight: number;
  readonly order: number;
}

/** What a tracing takes from styles. */
const PROPERTIES = ['fill', 'color', 'display', 'visibility', 'transform', 'transform-origin'] as const;

/** Style rules by the most telling part of their selector, so that looking up one element does not walk all rules. */
export interface StyleSheet {
  readonly rules: ReadonlyMap<string, readonly Rule[]>;
  /** More rules for one name than any drawing has: the file is to be refused. */
  readonly overfull: boolean;
}

const withoutComments = (text: string): string => {
  let out = '';
  let at = 0;
  for (;;) {
    const start = text.indexOf('/*', at);
    if (start < 0) return out + text.slice(at);
    out += text.slice(at, start);
    const end = text.indexOf('*/', start + 2);
    if (end < 0) return out;
    at = end + 2;
  }
};

/** Split at a separator outside quotes and brackets: `url(data:a;b)` is one value. */
function splitOutside(text: string, separator: string): string[] {
  const parts: string[] = [];
  let [depth, from] = [0, 0];
  let quote: string | null = null;
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i]!;
    if (quote !== null) quote = c === quote ? null : quote;
    else if (c === '"' || c === "'") quote = c;
    else if (c === '(') depth += 1;
    else if (c === ')') depth -= 1;
    else if (c === separator && depth <= 0) {
      parts.push(text.slice(from, i));
      from = i + 1;
    }
  }
  parts.push(text.slice(from));
  return parts;
}

/** Read `fill: red; display: none`. What does not look like a declaration is passed over, as CSS does. */
function parseDeclarations(text: string): Declarations {
  const found = new Map<string, string>();
  const urgent = new Set<string>();
  for (const part of splitOutside(withoutComments(text), ';')) {
    const colon = part.indexOf(':');
    if (colon < 0) continue;
    const property = part.slice(0, colon).trim().toLowerCase();
    const raw = part.slice(colon + 1).trim();
    const isUrgent = raw.toLowerCase().endsWith('important') && raw.includes('!');
    if (urgent.has(property) && !isUrgent) continue;
    if (isUrgent) urgent.add(property);
    found.set(property, isUrgent ? raw.slice(0, raw.lastIndexOf('!')).trim() : raw);
  }
  return found;
}

/** A selector of one element: `path`, `.outline`, `#a.b`, `*`. Others (descendants, states) match nothing here. */
function parseSelector(text: string): Omit<Rule, 'declarations' | 'order'> | null {
  const selector = text.trim();
  if (selector.length > 200) return null;
  const match = /^([a-zA-Z][\w-]*|\*)?((?:[.#][^\s.#>+~:[\],*]+)*)$/.exec(selector);
  if (!match || selector === '') return null;
  const tag = match[1] === undefined || match[1] === '*' ? null : match[1];
  const marks = match[2]!.match(/[.#][^.#]+/g) ?? [];
  const ids = marks.filter((m) => m.startsWith('#')).map((m) => m.slice(1));
  const classes = marks.filter((m) => m.startsWith('.')).map((m) => m.slice(1));
  if (ids.length > 1) return null;
  return {
    tag,
    id: ids[0] ?? null,
    classes,
    weight: ids.length * 10_000 + classes.length * 100 + (tag === null ? 0 : 1),
  };
}

const keyOf = (rule: Pick<Rule, 'id' | 'classes' | 'tag'>): string =>
  rule.id !== null ? `#${rule.id}` : rule.classes.length > 0 ? `.${rule.classes[0]!}` : (rule.tag ?? '*');

/** Index just behind the block that opens at or after `from`; the text's end if it never closes. */
function endOfBlock(text: string, open: number): number {
  let depth = 0;
  for (let i = open; i < text.length; i += 1) {
    if (text[i] === '{') depth += 1;
    else if (text[i] === '}' && (depth -= 1) === 0) return i + 1;
  }
  return text.length;
}

/** Read the text of `style` elements. At-rules are passed over: nothing is imported, no medium is assumed. */
export function parseStyleSheet(text: string): StyleSheet {
  const sheet = withoutComments(text).replaceAll('<!--', ' ').replaceAll('-->', ' ');
  const rules = new Map<string, Rule[]>();
  let at = 0;
  let overfull = false;
  for (let order = 0; ; order += 1) {
    const open = sheet.indexOf('{', at);
    if (open < 0 || overfull) return { rules, overfull };
    let head = sheet.slice(at, open);
    // Statements such as `@import url(x);` stand before the next selector.
    if (head.includes(';')) head = head.slice(head.lastIndexOf(';') + 1);
    at = endOfBlock(sheet, open);
    if (head.trim().startsWith('@')) continue;
    const declarations = parseDeclarations(sheet.slice(open + 1, at - 1));
    if (!PROPERTIES.some((property) => declarations.has(property))) continue;
    for (const part of head.split(',')) {
      const selector = parseSelector(part);
      if (!selector) continue;
      const rule: Rule = { ...selector, declarations, order };
      const key = keyOf(rule);
      const known = rules.get(key);
      if (known) overfull ||= known.push(rule) > LIMITS.rulesPerName;
      else rules.set(key, [rule]);
    }
  }
}

/** Everything the sheet says about one element, the strongest rule last. */
function matching(sheet: StyleSheet, tag: string, id: string | null, classes: readonly string[]): Rule[] {
  const keys = ['*', tag, ...classes.map((c) => `.${c}`), ...(id === null ? [] : [`#${id}`])];
  const own = new Set(classes);
  return keys
    .flatMap((key) => sheet.rules.get(key) ?? [])
    .filter(
      (rule) =>
        (rule.tag === null || rule.tag === tag) &&
        (rule.id === null || rule.id === id) &&
        rule.classes.every((c) => own.has(c)),
    )
    .sort((a, b) => a.weight - b.weight || a.order - b.order);
}

/** What an element says of itself, weakest to strongest: its attributes, the style rules, its style attribute. */
export function declarationsOf(
  sheet: StyleSheet,
  tag: string,
  attributes: ReadonlyMap<string, string>,
): Declarations {
  const said = new Map<string, string>();
  for (const property of PROPERTIES) {
    const value = attributes.get(property);
    if (value !== undefined) said.set(property, value.trim());
  }
  if (sheet.rules.size > 0) {
    const classes = (attributes.get('class') ?? '').split(/\s+/).filter(Boolean).slice(0, LIMITS.classes);
    for (const rule of matching(sheet, tag, attributes.get('id') ?? null, [...new Set(classes)])) {
      for (const [property, value] of rule.declarations) said.set(property, value);
    }
  }
  const style = attributes.get('style');
  if (style !== undefined)
    for (const [property, value] of parseDeclarations(style)) said.set(property, value);
  return said;
}
