import type { LineMeeting, Neighbour } from '../../neighbours';
import { sameEdge } from '../../neighbours';
import type { PanelId } from '../../panels';
import { middleOfEdge } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { easedStretches, joinNotches, joinsOfStep, panelMeetings, withImages } from './joinWalks';
import { grainParts, layerParts, pressText } from './joinAdvice';
import { isInHand, isSewnBy, pairWords, panelsOfSeams, reachOf, seamsAt, sides } from './meetingWords';
import { capital, fineIn, lengthIn, listed, numbersOf, pieceName, wearersSide } from './names';
import { nestOver } from './nestOver';
import { outerEdgesOf } from './outerEdges';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { isZipIn, openForZip } from './tellZip';
import { widthAlong } from './widths';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

const MARK_WORDS = ['', 'single', 'double', 'triple'];

/** `the side seam of front and back`. */
function seamName(garment: Garment, n: Neighbour): string {
  const { a, b, edgeA, edgeB } = sides(garment, n);
  const edges = edgeA === edgeB ? edgeA : `${edgeA} and ${edgeB}`;
  return `${edges} (${a === b ? a : `${a} and ${b}`})`;
}

const isSetIn = (garment: Garment, { join }: Neighbour): boolean =>
  join.role === 'armhole' && garment.design.sewing.sleeves === 'set in';

/** Which side of a sleeve is its front: its cap's notches tell. */
function capNotch(n: Neighbour, to: string): string {
  const kinds = [...new Set(joinNotches(n).map((k) => k.marks))];
  if (kinds.length !== 1) return '';
  const word = MARK_WORDS[kinds[0]!] ?? 'marked';
  return ` The side of the cap with the ${word} notch goes to the ${to}.`;
}

/** The seams of a step that a sleeve's cap is sewn in with: told once, then side by side. */
const isCapAgain = (n: Neighbour, ns: readonly Neighbour[]): boolean =>
  n.join.role === 'armhole' && ns.indexOf(n) > 0 && ns[0]!.join.b.piece === n.join.b.piece;

/** What is laid on what. */
function layText(garment: Garment, n: Neighbour, ns: readonly Neighbour[], isBelow: boolean): string {
  const { a, b, edgeA, edgeB } = sides(garment, n);
  const { join } = n;
  // below a zip there is nothing to begin at
  const from = isBelow ? '' : ` Begin pinning at ${join.beginsAt}.`;
  const notch = capNotch(n, a);
  if (isCapAgain(n, ns)) return notch === '' ? `Then the ${a}.` : notch.trim();
  const top = ns.length > 1 ? ', the top of the cap on the shoulder seam' : '';
  if (sameEdge(join.a, join.b))
    return `Lay the two ${a}s on each other, right sides together, their ${edgeA} edges level.${from}`;
  if (join.a.piece === join.b.piece)
    return `Fold the ${a} right sides together, so that its ${edgeA === edgeB ? `${edgeA} edges` : `${edgeA} and ${edgeB}`} lie level.${from}`;
  if (isSetIn(garment, n))
    return `Turn the ${b} right side out and put it into the armhole, right sides together: underarm seam on side seam${top}.${notch}`;
  if (join.role === 'armhole')
    return `Lay the ${b} on the open armhole, right sides together${top}.${notch}${from}`;
  return `Lay the ${b} on the ${a}, right sides together, the ${edgeA === edgeB ? `${edgeA} edges` : `${edgeB} along the ${edgeA}`} level.${from}`;
}

/** The body side of a seam, as the wearer has it; null where the pieces do not tell. */
function bodySide(garment: Garment, { join }: Neighbour): string | null {
  const { wholes } = garment.neighbours;
  const own = [join.a, join.b].map(({ piece, edge }) => {
    const whole = wholes.get(piece)!;
    return wearersSide(whole, middleOfEdge(whole, edge));
  });
  return own.find((s) => s !== null) ?? null;
}

/** Which panels lie on which, side by side where the two body sides differ; and which panel seams run on over the seam. */
function meetParts(garment: Garment, step: Step, n: Neighbour): TellingPart[] {
  const parts: TellingPart[] = [];
  if (!sameEdge(n.join.a, n.join.b)) {
    const told = withImages(garment, n).map((m) => {
      const pairs = panelMeetings(garment, m).filter((p) => isInHand(step, [p.a.id, p.b.id]));
      const isOwn = pairs.length > 0 && pairs.every((p) => p.a === p.b);
      return {
        side: bodySide(garment, m),
        words: isOwn ? 'each panel on itself' : listed(pairWords(garment, pairs)),
      };
    });
    const all = [...new Set(told.map((t) => t.words))].filter((w) => w !== '');
    // one panel on one, on both body sides: its edges say that already
    const kinds = all.length === 1 && /^\d+ on \d+$/.test(all[0]!) ? [] : all;
    for (const words of kinds) {
      const own = told.filter((t) => t.words === words);
      const side =
        kinds.length > 1 && own.length === 1 && own[0]!.side
          ? `On the wearer’s ${own[0]!.side}, from`
          : 'From';
      parts.push(part('match', `${side} ${n.join.beginsAt} on: ${words}.`));
    }
  }
  const own = outerEdgesOf(garment, n.join.a).map(({ panel }) => panel.id);
  if (sameEdge(n.join.a, n.join.b) && new Set(own).size > 1) {
    const text = `Pin first where the seams between ${listed(own.map((id) => numbersOf(garment, [id])))} meet their likes on the other copy. Their allowances lie the same way there: trim them in steps inside this seam.`;
    parts.push(part('match', text));
  }
  const met = n.meetings.filter(
    ({ a, b }) =>
      isSewnBy(garment, step, seamsAt(garment, a)) && isSewnBy(garment, step, seamsAt(garment, b)),
  );
  if (met.length > 0) {
    const seams = met.map(({ a, b, mm }) => {
      const off = mm >= 1 ? ` (they miss each other by ${fineIn(garment)(mm)})` : '';
      const [own, other] = [panelsOfSeams(garment, n, a), panelsOfSeams(garment, n, b)];
      return own === other
        ? `the seam of ${own} on itself${off}`
        : `the seam of ${own} on that of ${other}${off}`;
    });
    parts.push(
      part(
        'match',
        `Pin first where panel seams meet: ${listed([...new Set(seams)])}.${lockWords(garment, n, met)}`,
      ),
    );
  }
  return parts;
}

/** How the allowances of panel seams lie where they meet over this seam. */
function lockWords(garment: Garment, n: Neighbour, met: readonly LineMeeting[]): string {
  const own = met.map((m) => ({ label: panelsOfSeams(garment, n, m.a), nests: nestOver(garment, n, m) }));
  const lying = own.filter((m) => m.nests === false).map((m) => m.label);
  const words = own.some((m) => m.nests)
    ? [' Where their allowances lie opposite ways, push them against each other.']
    : [];
  if (lying.length > 0)
    words.push(
      lying.length === own.length
        ? ' Their allowances lie the same way: trim them in steps inside this seam.'
        : ` At the seam of ${listed([...new Set(lying)])} both lie the same way: trim them in steps inside this seam.`,
    );
  return words.join('');
}

/** Notches with their distances, and what is eased in between which. */
function notchParts(garment: Garment, step: Step, n: Neighbour, isAgain: boolean): TellingPart[] {
  const [length, fine] = [lengthIn(garment), fineIn(garment)];
  const isHere = reachOf(garment, step, n);
  const notches = joinNotches(n).filter(({ at }) => isHere(at));
  const parts: TellingPart[] = [];
  const named = notches.map(({ at, marks }) => `${MARK_WORDS[marks] ?? `${marks} strokes`} at ${length(at)}`);
  if (notches.length > 0) parts.push(part('match', `Notches, from ${n.join.beginsAt}: ${listed(named)}.`));
  const { a, b } = sides(garment, n);
  const notchAt = (at: number): string => {
    const own = notches.findLast((k) => k.at <= at + 0.001);
    return `the notch at ${length(own?.at ?? at)}`;
  };
  const end = n.join.role === 'armhole' ? 'the shoulder' : 'the other end';
  const stops = [n.join.beginsAt, ...n.walk.stretches.slice(0, -1).map((s) => notchAt(s.toA)), end];
  const eased = easedStretches(n).map(
    ({ index, by }) =>
      `${fine(Math.abs(by))} of the ${by > 0 ? a : b} between ${stops[index]} and ${stops[index + 1]}`,
  );
  if (eased.length > 0)
    parts.push(
      part(
        'match',
        `Ease in ${listed(eased)}${isAgain ? '' : ': pin closely and sew with the fuller side underneath'}.`,
      ),
    );
  return parts;
}

/** Whether a side and the underarm of its sleeve are sewn in one go. */
function isInOne(ns: readonly Neighbour[]): boolean {
  const roles = ns.map((n) => n.join.role);
  return roles.includes('side seam') && roles.includes('underarm seam');
}

function sewText(garment: Garment, ns: readonly Neighbour[], hasZip: boolean): string {
  const length = lengthIn(garment);
  const widths = ns.map((n) => {
    const [a, b] = [length(widthAlong(garment, n.join.a)), length(widthAlong(garment, n.join.b))];
    return a === b ? a : `${a} on the ${sides(garment, n).a}, ${b} on the ${sides(garment, n).b}`;
  });
  const isOne = new Set(widths).size === 1;
  const told = isOne ? widths.slice(0, 1) : ns.map((n, i) => `${seamName(garment, n)} ${widths[i]}`);
  const way = isInOne(ns)
    ? 'Sew in one go from the hem up to the underarm and on down the sleeve, armhole seam on armhole seam.'
    : ns.some((n) => isSetIn(garment, n))
      ? 'Sew all the way round, a second row beside the first under the arm.'
      : hasZip
        ? ''
        : '';
  return `Allowance ${told.join('; ')}. ${way}`.trim();
}

/** Whether a step sews a seam on each body side. */
const isOnBothSides = ({ neighbours }: Garment, { edges }: Step): boolean =>
  edges.some(({ piece, edge }) => neighbours.wholes.get(piece)!.edges[edge]!.mirrored) ||
  edges.some(({ piece }) => neighbours.wholes.get(piece)!.piece.cutting === 'pair');

const againText = ({ neighbours }: Garment, { edges }: Step): string =>
  edges.every(({ piece }) => neighbours.wholes.get(piece)!.piece.cutting === 'pair')
    ? 'Do the same with the mirrored copy.'
    : 'Do the same on the other side of the body.';

const pieceWords = (garment: Garment, panels: readonly PanelId[]): string => {
  const pieces = [...new Set(panels.map((id) => garment.panelById.get(id)!.piece))];
  return listed(
    pieces.map((p) => {
      const own = panels.filter((id) => garment.panelById.get(id)!.piece === p);
      return `${pieceName(garment, p)} (${numbersOf(garment, own)})`;
    }),
  );
};

/**
 * Edges of pieces sewn to each other.
 * @param open what is left open for a zip that belongs to another garment: that which it lines
 */
export function tellJoin(garment: Garment, step: Step, open: TellingPart | null = null): StepTelling {
  const ns = joinsOfStep(garment, step);
  const [left, right] = step.joins;
  const isOneUnit = right.length === 0 || left.some((id) => right.includes(id));
  const names = [...new Set(ns.map((n) => sides(garment, n).edgeA))];
  const what = isOneUnit
    ? pieceWords(garment, [...new Set([...left, ...right])])
    : `${pieceWords(garment, left)} to ${pieceWords(garment, right)}`;
  const between = ns.some((n) => sameEdge(n.join.a, n.join.b));
  const both = isOnBothSides(garment, step) && !between;
  const zip = open ?? openForZip(garment, step, isInOne(ns));
  const isBelow = between && ns.length === 1 && (open !== null || isZipIn(garment, step));
  const parts = ns.flatMap((n): TellingPart[] => [
    ...grainParts(garment, n),
    part('lay', layText(garment, n, ns, isBelow)),
    ...(isBelow ? [] : meetParts(garment, step, n)),
    ...(isBelow ? [] : notchParts(garment, step, n, isCapAgain(n, ns))),
  ]);
  return {
    title: capital(`sew ${listed(names.map((name) => (both ? `both ${name}s` : `the ${name}`)))}: ${what}`),
    parts: [
      ...parts,
      part('sew', sewText(garment, ns, zip !== null)),
      ...(zip ? [zip] : []),
      part('press', pressText(ns)),
      ...layerParts(garment, ns),
      ...(both ? [part('again', againText(garment, step))] : []),
    ],
  };
}
