import type { Design } from '../pattern';

/**
 * Every key of a design document, in the order they are written. JSON.stringify writes only these, in this order, so
 * that the same design always gives the same bytes however its objects were put together.
 */
const KEYS: readonly string[] = [
  'format',
  'version',
  'id',
  'kind',
  'name',
  'units',
  'pieces',
  'lines',
  'piece',
  'edge',
  'line',
  'outline',
  'fold',
  'grain',
  'darts',
  'notches',
  'levels',
  'edgeNames',
  'cutting',
  'foldPanels',
  'mouth',
  'point',
  'points',
  'legs',
  'treatment',
  'remainder',
  'parts',
  'to',
  'nth',
  'share',
  'close',
  'at',
  'inner',
  'colour',
  'path',
  'once',
  'overDarts',
  'ties',
  'nodes',
  'run',
  'degrees',
  'until',
  'along',
  'place',
  'reach',
  'base',
  'bases',
  'end',
  'by',
  'down',
  'over',
  'dart',
  'mirrored',
  'colours',
  'fill',
  'width',
  'nap',
  'shrinkage',
  'across',
  'price',
  'marks',
  'allowances',
  'tracing',
  'outer',
  'included',
  'newSeam',
  'hem',
  'edges',
  'edgeJobs',
  'job',
  'meantOff',
  'trims',
  'paper',
  'size',
];

const json = (value: unknown): string => JSON.stringify(value, KEYS as string[]);

/** One entry to a line, so that two versions of a file can be compared by eye. */
function section(key: string, value: unknown): string {
  if (!Array.isArray(value) || value.length === 0) return `${json(key)}: ${json(value)}`;
  return `${json(key)}: [\n${value.map(json).join(',\n')}\n]`;
}

/** The text of a design file: JSON in UTF-8, the same for the same design. */
export function saveDesign(design: Design): string {
  const entries = Object.entries(design).sort(([a], [b]) => KEYS.indexOf(a) - KEYS.indexOf(b));
  return `{\n${entries.map(([key, value]) => section(key, value)).join(',\n')}\n}\n`;
}
