import { LIMITS } from './limits';
import type { XmlElement } from './readXml';

/** What an element of a tracing stands for. */
export type Role =
  | { readonly kind: 'outline' | 'fold' | 'grain' | 'dart' | 'notch' | 'colour' }
  | { readonly kind: 'level' | 'edge'; readonly name: string }
  | { readonly kind: 'panel line'; readonly once: boolean }
  /** `name` without its trailing counter, `full` with it: the counter tells copies apart where it must. */
  | { readonly kind: 'piece'; readonly name: string; readonly full: string };

/** Characters of a name that are read; keeps the patterns below from working long on a hostile one. */
const LONGEST_NAME = LIMITS.name - 20;

/** A name as people may see it: without characters that cannot be shown, and not longer than names may be. */
export const shownName = (text: string): string =>
  text
    .slice(0, LONGEST_NAME)
    .replace(/\s/g, ' ')
    .replace(/[\p{Cc}\p{Cs}]/gu, '')
    .trim();

/** Editors write characters that an id may not hold as _xHH_. */
const unescaped = (text: string): string =>
  text.replace(/_x([0-9a-f]{2,6})_/gi, (whole, hex: string) => {
    const code = Number.parseInt(hex, 16);
    return (code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code < 0xd800)
      ? String.fromCodePoint(code)
      : whole;
  });

/** Separators are all the same: one space. */
const words = (text: string): string =>
  unescaped(shownName(text))
    .replace(/[-_:.\s]+/g, ' ')
    .trim();
const withoutCounter = (text: string): string => text.replace(/[\s()#\d]+$/, '');

/** A name as it is compared: lower case, separators as single spaces, trailing counters dropped. */
export const plainName = (text: string): string => withoutCounter(words(text).toLowerCase());

const SINGLE: ReadonlyMap<string, Role> = new Map<string, Role>([
  ['outline', { kind: 'outline' }],
  ['fold', { kind: 'fold' }],
  ['grain', { kind: 'grain' }],
  ['dart', { kind: 'dart' }],
  ['notch', { kind: 'notch' }],
  ['colour', { kind: 'colour' }],
  ['panel line', { kind: 'panel line', once: false }],
  ['panel line once', { kind: 'panel line', once: true }],
]);
/** A layer that holds several is often named in the plural, grain and fold are also called lines, and colour is spelt two ways. */
const SAME_AS: ReadonlyMap<string, string> = new Map([
  ['outlines', 'outline'],
  ['darts', 'dart'],
  ['notches', 'notch'],
  ['color', 'colour'],
  ['colors', 'colour'],
  ['colours', 'colour'],
  ['grain line', 'grain'],
  ['grainline', 'grain'],
  ['fold line', 'fold'],
  ['panel lines', 'panel line'],
  ['panel lines once', 'panel line once'],
]);

/** The role a name stands for, or null if it is none. */
function roleOf(text: string): Role | null {
  const name = plainName(text);
  const single = SINGLE.get(SAME_AS.get(name) ?? name);
  if (single) return single;
  const [, kind, own] = /^(level|edge) (.+)$/.exec(name) ?? [];
  if (kind !== undefined && own !== undefined) return { kind: kind as 'level' | 'edge', name: own };
  const full = /^piece\s(.+)$/i.exec(words(text))?.[1];
  if (full === undefined) return null;
  return { kind: 'piece', name: withoutCounter(full) || `piece ${full}`, full };
}

/** A class attribute is a list: each word may be the name (`panel-line st0`), or all of it (`panel line`). */
function roleOfClasses(text: string): Role | null {
  for (const word of text.split(/\s+/)) {
    const role = word === '' ? null : roleOf(word);
    if (role) return role;
  }
  return roleOf(text);
}

/** An id that only repeats the element's kind with a number (`path847`) was made by the editor and names nothing. */
const isGenerated = (id: string, tag: string): boolean =>
  /\d/.test(id) && plainName(id) === tag.toLowerCase();

/** The name of an element as written, and what it stands for: the first it has of role, layer label, id, class. */
export interface ElementName {
  /** Null for an element without any name. */
  readonly written: string | null;
  readonly role: Role | null;
}

const given = (text: string | null | undefined): string | null =>
  text === undefined || text === null || text.trim() === '' ? null : text.trim();

/** A role that needs a name of its own (`piece`, `level`, `edge`) but stands alone takes the next name the element has. */
function roleWithNext(text: string, next: string | null): Role | null {
  const isBare = ['piece', 'level', 'edge'].includes(plainName(text));
  return isBare && next !== null ? roleOf(`${plainName(text)} ${next}`) : roleOf(text);
}

/** The first name an element has, and its role. */
export function nameOf(element: XmlElement): ElementName {
  const id = given(element.attributes.get('id'));
  const isNaming = id !== null && !isGenerated(id, element.tag);
  const [first, next] = [
    given(element.attributes.get('data-role')),
    given(element.label),
    isNaming ? id : null,
  ].filter((name) => name !== null);
  if (first !== undefined) return { written: first, role: roleWithNext(first, next ?? null) };
  const classes = given(element.attributes.get('class'));
  const role = classes === null ? null : roleOfClasses(classes);
  return { written: role ? classes : (id ?? classes), role };
}

/**
 * Unique names for pieces: the plain name where only one piece has it, with its counter where several do, and a running
 * number where even that is the same.
 */
export function uniqueNames(pieces: readonly { readonly name: string; readonly full: string }[]): string[] {
  const key = (text: string): string => text.toLowerCase();
  const count = new Map<string, number>();
  for (const { name } of pieces) count.set(key(name), (count.get(key(name)) ?? 0) + 1);
  const taken = new Set<string>();
  return pieces.map(({ name, full }) => {
    const wanted = count.get(key(name)) === 1 ? name : full;
    let given = wanted;
    for (let n = 2; taken.has(key(given)); n += 1) given = `${wanted} ${n}`;
    taken.add(key(given));
    return given;
  });
}
