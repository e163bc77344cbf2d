import type { ReactElement } from 'react';
import type { Pt } from '../../geometry';
import { basesKey, basesOf, choicesFor, measuredFrom, type ReachPart, withReach } from '../../lines';
import type { Reach, Tie, Units, WholePiece } from '../../pattern';
import { sayChoice, wayOf } from '../drawing/tieWords';
import { LengthField } from '../parts/LengthField';
import { ShareField } from '../parts/ShareField';

interface ReachRowProps {
  readonly whole: WholePiece;
  readonly units: Units;
  readonly tie: Tie;
  readonly part: ReachPart;
  readonly reach: Reach;
  /** Where the point lies now: another base is measured from there, so that the line stays. */
  readonly at: Pt;
  /** Said before each field's own name, for screen readers. */
  readonly label: string;
  /** @returns false when there is no such place */
  readonly onTie: (tie: Tie) => boolean;
}

/** Below and above, or left and right of; null where a distance has only one way to go. */
function waysFor(
  { tie, part }: ReachRowProps,
  base: (Reach & { kind: 'from' })['base'],
): [string, string] | null {
  const plus = wayOf(tie, part, base, 1);
  return plus === 'from' ? null : [wayOf(tie, part, base, -1), plus];
}

function FromFields(props: ReachRowProps & { reach: Reach & { kind: 'from' } }): ReactElement {
  const { tie, part, reach, label, units, onTie } = props;
  const ways = waysFor(props, reach.base);
  const put = (by: number): boolean => onTie(withReach(tie, part, { ...reach, by }));
  const sign = reach.by < 0 ? -1 : 1;
  return (
    <>
      <LengthField
        label={`${label}: distance`}
        quiet
        value={Math.abs(reach.by)}
        units={units}
        onChange={(mm) => put(sign * mm)}
      />
      {ways && (
        <select
          aria-label={`${label}: which way`}
          value={sign}
          onChange={(e) => put(Number(e.target.value) * Math.abs(reach.by))}
        >
          <option value={-1}>{ways[0]}</option>
          <option value={1}>{ways[1]}</option>
        </select>
      )}
    </>
  );
}

/** How far a point lies from what it is measured from: the figure, which way, and from what. */
export function ReachRow(props: ReachRowProps): ReactElement {
  const { whole, tie, part, reach, at, label, onTie } = props;
  const choices = choicesFor(whole, tie, part, at);
  const now = basesKey(basesOf(reach));
  const known = choices.some((bases) => basesKey(bases) === now);
  return (
    <div className="tie-row">
      {reach.kind === 'from' ? (
        <FromFields {...props} reach={reach} />
      ) : (
        <ShareField
          label={`${label}: share`}
          value={reach.share}
          onChange={(share) => onTie(withReach(tie, part, { ...reach, share }))}
        />
      )}
      <select
        className="tie-from"
        aria-label={`${label}: measured from`}
        value={now}
        onChange={(e) => {
          const bases = choices.find((b) => basesKey(b) === e.target.value);
          const next = bases && measuredFrom(whole, tie, part, bases, at);
          if (next) onTie(next);
        }}
      >
        {!known && <option value={now}>{sayChoice(whole, basesOf(reach))}</option>}
        {choices.map((bases) => (
          <option key={basesKey(bases)} value={basesKey(bases)}>
            {sayChoice(whole, bases)}
          </option>
        ))}
      </select>
    </div>
  );
}
