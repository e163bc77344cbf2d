import { memo, useId, type CSSProperties, type ReactElement } from 'react';
import type { Garment } from '../../garment';
import type { Path } from '../../geometry';
import type { PanelId } from '../../panels';
import type { Units } from '../../pattern';
import { inkOn } from '../canvas/ink';
import { ClothGround, FoldLine } from './ClothGround';
import { PieceMarks, PieceShape } from './PieceDrawing';
import { pieceWords } from './pieceWords';
import type { ShownPiece, Strip } from './strips';

interface Looks {
  readonly garment: Garment;
  readonly fill: string;
  readonly units: Units;
  /** Pixels per mm. */
  readonly scale: number;
  /** Keys of the piece that is pointed at, and of the one the keyboard is on; the chosen panel. */
  readonly pointed: string | null;
  readonly reached: string | null;
  readonly chosen: PanelId | null;
}

export interface PieceHands {
  /** The keyboard has come to a piece, or left all of them. */
  readonly onReach: (key: string, isOn: boolean) => void;
  /** An arrow key: to the next or the one before. */
  readonly onWalk: (from: string, step: 1 | -1) => void;
  readonly onChoose: (shown: ShownPiece) => void;
}

const stitchingOf = ({ cutPieces }: Garment, panel: PanelId): Path | null =>
  cutPieces.find((cut) => cut.panel === panel)?.stitching ?? null;

const STEPS: Readonly<Record<string, 1 | -1>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/** One laid piece: a button for keyboard and screen reader, drawn as what it is. */
const Piece = memo(function Piece({
  shown,
  strip,
  garment,
  chosen,
  isPointed,
  isReachable,
  onReach,
  onWalk,
  onChoose,
}: Pick<Looks, 'garment' | 'chosen'> &
  PieceHands & { shown: ShownPiece; strip: string; isPointed: boolean; isReachable: boolean }): ReactElement {
  const clip = useId();
  const words = pieceWords(garment, shown.laid);
  const isChosen = words !== null && chosen === words.panel.id;
  const key = `${strip} ${shown.key}`;
  return (
    <g
      role="button"
      className={['laid-piece', isPointed && 'pointed', isChosen && 'chosen'].filter(Boolean).join(' ')}
      data-piece={key}
      tabIndex={isReachable ? 0 : -1}
      aria-label={words ? [words.name, ...words.how].join(', ') : `${shown.laid.number}`}
      aria-pressed={isChosen}
      onFocus={() => onReach(key, true)}
      onBlur={() => onReach(key, false)}
      onKeyDown={(e) => {
        const step = STEPS[e.key];
        if (!step && e.key !== 'Enter' && e.key !== ' ') return;
        e.preventDefault();
        if (step) onWalk(key, step);
        else onChoose(shown);
      }}
    >
      <PieceShape shown={shown} stitching={stitchingOf(garment, shown.laid.piece.panel)} clip={clip} />
    </g>
  );
});

/** One piece of cloth with everything that lies on it. */
export function LaidCloth({
  strip,
  looks,
  hands,
}: {
  strip: Strip;
  looks: Looks;
  hands: PieceHands;
}): ReactElement {
  const { garment, fill, units, scale, pointed, reached, chosen } = looks;
  return (
    <g transform={`translate(${strip.left} ${strip.top})`} style={{ '--ink': inkOn(fill) } as CSSProperties}>
      <ClothGround strip={strip} units={units} fill={fill} scale={scale} />
      <g fill={fill}>
        {strip.pieces.map((shown) => {
          const key = `${strip.key} ${shown.key}`;
          return (
            <Piece
              key={key}
              shown={shown}
              strip={strip.key}
              garment={garment}
              chosen={chosen}
              isPointed={pointed === key}
              isReachable={reached === key}
              {...hands}
            />
          );
        })}
      </g>
      <FoldLine strip={strip} />
      {strip.pieces.map((shown) => (
        <PieceMarks key={`${strip.key} ${shown.key}`} shown={shown} scale={scale} />
      ))}
    </g>
  );
}
