import type { EdgeRole, Neighbour } from '../../neighbours';
import { sameEdge } from '../../neighbours';
import type { PanelId } from '../../panels';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { easedStretches, joinNotches, joinsOfStep, panelMeetings } from './joinWalks';
import { capital, fineIn, lengthIn, listed, numbersOf, panelWords, pieceName } from './names';
import { lengthOffGrain } from './offGrain';
import { outerEdgesOf } from './outerEdges';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { widthAlong } from './widths';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

/** A side of a seam: its piece, and the edge where pieces alone do not say enough. */
function sides(
  garment: Garment,
  { join }: Neighbour,
): { a: string; b: string; edgeA: string; edgeB: string } {
  const { wholes } = garment.neighbours;
  const edge = (side: Neighbour['join']['a']): string => wholes.get(side.piece)!.edges[side.edge]!.plainName;
  return {
    a: pieceName(garment, join.a.piece),
    b: pieceName(garment, join.b.piece),
    edgeA: edge(join.a),
    edgeB: edge(join.b),
  };
}

/** `the side seam of front and back`. */
function seamName(garment: Garment, n: Neighbour): string {
  const { a, b, edgeA, edgeB } = sides(garment, n);
  const edges = edgeA === edgeB ? edgeA : `${edgeA} and ${edgeB}`;
  return `${edges} (${a === b ? a : `${a} and ${b}`})`;
}

const isSetIn = (garment: Garment, { join }: Neighbour): boolean =>
  join.role === 'armhole' && garment.design.sewing.sleeves === 'set in';

/** What is laid on what. */
function layText(garment: Garment, n: Neighbour): string {
  const { a, b, edgeA, edgeB } = sides(garment, n);
  const { join } = n;
  const from = ` Begin pinning at ${join.beginsAt}.`;
  if (sameEdge(join.a, join.b))
    return `Lay the two ${a}s on each other, right sides together, their ${edgeA} edges level.${from}`;
  if (join.a.piece === join.b.piece)
    return `Fold the ${a} right sides together, so that its ${edgeA === edgeB ? `${edgeA} edges` : `${edgeA} and ${edgeB}`} lie level.${from}`;
  if (isSetIn(garment, n))
    return `Turn the ${b} right side out and put it into the armhole of the ${a}, right sides together: underarm seam on side seam, the notches of the cap on those of the armhole.`;
  return `Lay the ${b} on the ${a}, right sides together, the ${edgeA === edgeB ? `${edgeA} edges` : `${edgeB} along the ${edgeA}`} level.${from}`;
}

/** Which panels lie on which, and which lines run on over the seam. */
function meetParts(garment: Garment, n: Neighbour): TellingPart[] {
  const pairs = panelMeetings(garment, n);
  const parts: TellingPart[] = [];
  if (pairs.length > 0 && !sameEdge(n.join.a, n.join.b)) {
    const words = pairs.map((p) => `${panelWords(garment, [p.b.id])} on ${panelWords(garment, [p.a.id])}`);
    parts.push(part('match', `From ${n.join.beginsAt} on: ${listed([...new Set(words)])}.`));
  }
  if (n.meetings.length > 0) {
    const lines = n.meetings.map(({ a, b, mm }) => {
      const off = mm >= 1 ? ` (they miss each other by ${fineIn(garment)(mm)})` : '';
      return a.label === b.label
        ? `the seam of line ${a.label} on itself${off}`
        : `the seam of line ${a.label} on that of ${b.label}${off}`;
    });
    parts.push(part('match', `Pin first where panel seams meet: ${listed([...new Set(lines)])}.`));
  }
  return parts;
}

/** Notches with their distances, and what is eased in between which. */
function notchParts(garment: Garment, n: Neighbour): TellingPart[] {
  const [length, fine] = [lengthIn(garment), fineIn(garment)];
  const notches = joinNotches(n);
  const parts: TellingPart[] = [];
  const named = notches.map(
    ({ at, marks }) => `${['', 'single', 'double', 'triple'][marks] ?? `${marks} strokes`} at ${length(at)}`,
  );
  if (notches.length > 0) parts.push(part('match', `Notches, from ${n.join.beginsAt}: ${listed(named)}.`));
  const { a, b } = sides(garment, n);
  const stops = [
    n.join.beginsAt,
    ...n.walk.stretches.slice(0, -1).map((s) => `the notch at ${length(s.toA)}`),
    'the other end',
  ];
  const eased = easedStretches(n).map(
    ({ index, by }) =>
      `${fine(Math.abs(by))} of the ${by > 0 ? a : b} between ${stops[index]} and ${stops[index + 1]}`,
  );
  if (eased.length > 0)
    parts.push(
      part('match', `Ease in ${listed(eased)}: pin closely and sew with the fuller side underneath.`),
    );
  return parts;
}

/** How a seam between pieces is pressed. Shoulder to the back, waist up, the rest open: fabricatedcloset.com (n.d.); armhole: common practice. */
const PRESS: Readonly<Partial<Record<EdgeRole, string>>> = {
  shoulder: 'both allowances towards the back',
  waist: 'both allowances up',
  armhole: 'both allowances into the sleeve, only up to the stitching',
};

function pressText(ns: readonly Neighbour[]): string {
  const roles = [...new Set(ns.map((n) => n.join.role))];
  const words = roles.map((role) => {
    const how = (role && PRESS[role]) ?? 'the allowances open';
    return roles.length > 1 && role ? `${role}: ${how}` : how;
  });
  return `Press as sewn, then ${words.join('; ')}. Press before another seam crosses it.`;
}

/** A shoulder, or another edge that hangs, is held with tape where it runs off the grain; armholes and necklines were stay-stitched. */
function grainParts(garment: Garment, n: Neighbour): TellingPart[] {
  if (n.join.role === 'armhole') return [];
  const found = (['a', 'b'] as const).map((which) => {
    const { grain } = garment.neighbours.wholes.get(n.join[which].piece)!;
    const off = outerEdgesOf(garment, n.join[which]).filter(
      ({ edge }) => lengthOffGrain(edge.path, grain) > 0,
    );
    return { side: which, panels: [...new Set(off.map((o) => o.panel.id))] };
  });
  const panels = [...new Set(found.flatMap((f) => f.panels))];
  if (panels.length === 0) return [];
  return [
    part(
      'grain',
      `The ${sides(garment, n).edgeA} of ${numbersOf(garment, panels)} runs off the grain and stretches easily: sew a narrow stay-tape, or a strip of selvedge, in with the seam, and do not pull.`,
    ),
  ];
}

function sewText(garment: Garment, ns: readonly Neighbour[]): string {
  const length = lengthIn(garment);
  const widths = ns.map((n) => {
    const [a, b] = [length(widthAlong(garment, n.join.a)), length(widthAlong(garment, n.join.b))];
    const own = a === b ? a : `${a} on the ${sides(garment, n).a}, ${b} on the ${sides(garment, n).b}`;
    return ns.length > 1 ? `${seamName(garment, n)} ${own}` : own;
  });
  const zip = ns.find((n) =>
    garment.plan.steps.some((s) => s.kind === 'zip' && s.edges.some((e) => sameEdge(e, n.join.a))),
  );
  const leave = zip
    ? ' Leave the seam open above the stop mark of the zip, or baste it there, as the zip’s own step asks.'
    : '';
  return `Allowance ${[...new Set(widths)].join('; ')}. Sew from cut edge to cut edge.${leave}`;
}

/** Whether a step sews a seam on each body side. */
const isOnBothSides = ({ neighbours }: Garment, { edges }: Step): boolean =>
  edges.some(({ piece, edge }) => neighbours.wholes.get(piece)!.edges[edge]!.mirrored) ||
  edges.some(({ piece }) => neighbours.wholes.get(piece)!.piece.cutting === 'pair');

const pieceWords = (garment: Garment, panels: readonly PanelId[]): string => {
  const pieces = [...new Set(panels.map((id) => garment.panelById.get(id)!.piece))];
  return listed(
    pieces.map((p) => {
      const own = panels.filter((id) => garment.panelById.get(id)!.piece === p);
      return `${pieceName(garment, p)} (${numbersOf(garment, own)})`;
    }),
  );
};

/** Edges of pieces sewn to each other. */
export function tellJoin(garment: Garment, step: Step): StepTelling {
  const ns = joinsOfStep(garment, step);
  const [left, right] = step.joins;
  const isOneUnit = right.length === 0 || left.some((id) => right.includes(id));
  const names = [...new Set(ns.map((n) => sides(garment, n).edgeA))];
  const what = isOneUnit
    ? pieceWords(garment, [...new Set([...left, ...right])])
    : `${pieceWords(garment, left)} to ${pieceWords(garment, right)}`;
  const between = ns.some((n) => sameEdge(n.join.a, n.join.b));
  const both = isOnBothSides(garment, step) && !between;
  const parts = ns.flatMap((n): TellingPart[] => [
    ...grainParts(garment, n),
    part('lay', layText(garment, n)),
    ...meetParts(garment, n),
    ...notchParts(garment, n),
  ]);
  return {
    title: capital(`sew the ${listed(names)}: ${what}`),
    parts: [
      ...parts,
      part('sew', sewText(garment, ns)),
      part('press', pressText(ns)),
      ...(both ? [part('again', 'Do the same on the other side of the body.')] : []),
    ],
  };
}
