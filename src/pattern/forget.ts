import type { ClosingPlace, Design, LineId, SewingWishes, TrimPlace } from './design';

/** Whether the key of a step is about a line, trim or zip: `seam line-3 mirrored #2`, `trim trim-1`, `zip closing-1`. */
const isAbout = (key: string, id: string): boolean => key.split(' ').includes(id);

/** Wishes without those about the steps of a line, trim or zip: its id may be given to another one. The same when there are none. */
export function withoutSteps(sewing: SewingWishes, id: string): SewingWishes {
  const order = sewing.order.filter((w) => !isAbout(w.earlier, id) && !isAbout(w.later, id));
  return order.length === sewing.order.length ? sewing : { ...sewing, order };
}

const isOn = (on: TrimPlace | ClosingPlace, id: LineId): boolean => on.kind === 'line' && on.line === id;

/**
 * Forget what goes with a panel line that is taken away: its trims, its zip, its allowance, where it is meant to miss and what is wanted
 * of the order of all these. The line itself stays where it is.
 */
export function withoutWhatIsOn(design: Design, id: LineId): Design {
  const { trims, closings, allowances, meantOff } = design;
  const gone = [...trims, ...closings].filter(({ on }) => isOn(on, id)).map((t): string => t.id);
  const sewing = [id, ...gone].reduce(withoutSteps, design.sewing);
  return {
    ...design,
    trims: trims.filter(({ on }) => !isOn(on, id)),
    closings: closings.filter(({ on }) => !isOn(on, id)),
    sewing: { ...sewing, inTheRound: sewing.inTheRound.filter((line) => line !== id) },
    allowances: { ...allowances, lines: allowances.lines.filter(({ line }) => line !== id) },
    meantOff: meantOff.filter(({ line }) => line !== id),
  };
}
