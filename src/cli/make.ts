import { resolve } from 'node:path';
import type { LayPlan } from '../fabric';
import { piecesSvg, reportOf, reportText, saveDesign, type Report } from '../files';
import { deriveGarment } from '../garment';
import { handoutPdf, piecesPdf } from '../paper';
import { fontsFromDisk } from '../paper/fontsFromDisk';
import { sayProblem, type Problem } from '../pattern';
import { layCloths } from './layCloths';
import { makeDesign, type MadeDesign } from './makeDesign';
import { readOptions, USAGE, UsageError, type MakeOptions } from './makeOptions';
import { FolderError, writeFolder, type FileContent } from './writeFolder';

/** Where the command stands and where its lines go. */
export interface MakeSurroundings {
  /** Paths are relative to it. */
  readonly folder: string;
  readonly say: (line: string) => void;
  readonly complain: (line: string) => void;
}

/** Exit codes of the command. */
const DONE = 0;
const UNUSABLE_INPUT = 1;
const WRONG_USAGE = 2;

/** File names may hold anything; an error stays one line. */
const oneLine = (text: string): string => text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').trim();

/** A problem with its place: the piece where its sentence names no file, and the spot, mm as traced. */
function placed(p: Problem): string {
  const piece = p.piece === null || 'file' in p.facts ? '' : `${p.piece}: `;
  const spot = p.at === null ? '' : ` Look near x ${p.at[0].toFixed(1)}, y ${p.at[1].toFixed(1)} mm.`;
  return oneLine(`${piece}${sayProblem(p, 'mm')}${spot}`);
}

interface Made {
  readonly files: readonly FileContent[];
  readonly report: Report;
}

/** A colour cut from one's own cloth alone has no bought cloth in the report: every entry there is a plan, or says why there is none. */
const hasSomethingToSay = ({ placed: laid, problems }: LayPlan): boolean =>
  laid.length > 0 || problems.length > 0;

/** Everything the command writes, in memory. */
async function makeAll(
  { design, ignored }: MadeDesign,
  problems: readonly Problem[],
  options: MakeOptions,
): Promise<Made> {
  const garment = deriveGarment(design);
  const { layPlans, widthTables } = layCloths(garment, options);
  const fonts = await fontsFromDisk();
  const pieces = await piecesPdf(garment, { fonts });
  const handout = await handoutPdf(garment, layPlans, { fonts, widthTables });
  const report = reportOf(garment, {
    layPlans: layPlans.filter(hasSomethingToSay),
    sheets: pieces.sheets,
    ignored,
    problems,
  });
  const files: FileContent[] = [
    ['pieces.pdf', pieces.bytes],
    ['handout.pdf', handout],
    ['pieces.svg', piecesSvg(garment)],
    ['design.json', saveDesign(design)],
    ['report.json', reportText(report)],
  ];
  return { files, report };
}

/** One line for a person; everything else is in the report. */
function summary({ panels, fabrics, problems }: Report, out: string): string {
  const colours = new Set(fabrics.map(({ colour }) => colour)).size;
  const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
  const notable = problems.filter((p) => p.severity !== 'hint').length;
  const look = notable === 0 ? '' : `; ${count(notable, 'problem')} to look at in report.json`;
  return `${count(panels.length, 'panel')} in ${count(colours, 'colour')}, written to ${out}${look}.`;
}

async function run(args: readonly string[], { folder, say, complain }: MakeSurroundings): Promise<number> {
  const options = readOptions(args);
  if (options === 'help') {
    say(USAGE);
    return DONE;
  }
  const made = await makeDesign(options, folder);
  if (!made.ok) {
    for (const p of made.problems) complain(placed(p));
    return UNUSABLE_INPUT;
  }
  const { files, report } = await makeAll(made.value, made.problems, options);
  await writeFolder(resolve(folder, options.out), files);
  say(oneLine(summary(report, options.out)));
  return DONE;
}

/**
 * The headless run: read the files, make everything in memory, then write it into the folder. Writes nothing unless all
 * of it was made. Never rejects.
 * @param args as after `--` on the command line
 * @returns exit code: 0 done, 1 input (or folder) that cannot be used, 2 wrong usage
 */
export async function make(args: readonly string[], surroundings: MakeSurroundings): Promise<number> {
  const { complain } = surroundings;
  try {
    return await run(args, surroundings);
  } catch (error) {
    if (error instanceof UsageError) {
      complain(oneLine(error.message));
      complain(USAGE);
      return WRONG_USAGE;
    }
    if (error instanceof FolderError) complain(oneLine(error.message));
    // A promise of ours is broken: say so in one line, with the place in the code for whoever looks into it.
    else
      complain(
        oneLine(
          `This should not happen, and nothing was written: ${(error as Error).stack?.split('\n').slice(0, 2).join(' ') ?? String(error)}. Please report it with the files.`,
        ),
      );
    return UNUSABLE_INPUT;
  }
}
