import type { ReactElement } from 'react';
import { isCubic, type Path } from '../../geometry';
import type { Lettering, Mark } from '../../paper';

/** The face of the drawing's numbers, and its usual breadth where it cannot be measured: figures are all equally wide. */
const FACE = 'system-ui, sans-serif';
const USUAL_BREADTH = 0.56;

/** Lettering for drawings on screen: near enough for numbers, which are all that a step's picture writes inside panels. */
export const SCREEN_LETTERING: Lettering = {
  width: (text, size, bold) => text.length * size * (bold ? USUAL_BREADTH * 1.06 : USUAL_BREADTH),
  clean: (text) => text,
};

const at = (n: number): string => n.toFixed(2);

function pathData(paths: readonly Path[], closed: boolean): string {
  return paths
    .filter((path) => path.length > 0)
    .map((path) => {
      let last: readonly [number, number] | null = null;
      const parts = path.map((c) => {
        const start = c[0];
        const move =
          !last || last[0] !== start[0] || last[1] !== start[1] ? `M${at(start[0])} ${at(start[1])}` : '';
        last = c[c.length - 1]!;
        const to = isCubic(c) ? c.slice(1) : [last];
        return `${move}${isCubic(c) ? 'C' : 'L'}${to.map((p) => `${at(p[0])} ${at(p[1])}`).join(' ')}`;
      });
      return parts.join('') + (closed ? 'Z' : '');
    })
    .join('');
}

function MarkDrawing({ mark }: { mark: Mark }): ReactElement {
  if (mark.kind === 'text')
    return (
      <text
        x={mark.at[0]}
        y={mark.at[1]}
        fontSize={mark.size}
        fontWeight={mark.bold ? 700 : 400}
        fontFamily={FACE}
        textLength={mark.width}
        lengthAdjust="spacingAndGlyphs"
        fill={mark.colour}
      >
        {mark.text}
      </text>
    );
  return (
    <path
      d={pathData(mark.paths, mark.closed)}
      fill={mark.fill ?? 'none'}
      fillRule="evenodd"
      stroke={mark.stroke?.colour ?? 'none'}
      strokeWidth={mark.stroke?.width ?? 0}
      strokeDasharray={mark.stroke?.dash?.join(' ')}
    />
  );
}

/** Marks made for paper, shown on the screen; one mm of paper is one unit. */
export function MarksDrawing({
  marks,
  width,
  height,
  label,
}: {
  marks: readonly Mark[];
  width: number;
  height: number;
  label: string;
}): ReactElement {
  return (
    <svg
      className="marks-drawing"
      viewBox={`-1 -1 ${width + 2} ${height + 2}`}
      role="img"
      aria-label={label}
      preserveAspectRatio="xMidYMin meet"
    >
      {marks.map((mark, i) => (
        <MarkDrawing key={i} mark={mark} />
      ))}
    </svg>
  );
}
