import type { LayJob, LayPlan } from '../layPlan';
import type { Problem } from '../../pattern';
import { planWarnings } from '../check/planWarnings';
import { lengthToBuy } from '../shopping/counter';
import type { Lay } from './lay';
import type { LaySpace } from './laySpace';

/** Nothing laid: because there is nothing to lay, because of problems, or not yet. */
export const noPlan = (job: LayJob, problems: readonly Problem[]): LayPlan => ({
  colour: job.colour,
  width: job.width,
  layering: job.layering,
  within: job.within,
  length: 0,
  buy: 0,
  density: 0,
  seconds: job.seconds,
  placed: [],
  problems,
});

/** The plan of a sound lay. */
export function planFrom(space: LaySpace, lay: Lay): LayPlan {
  const { job } = space;
  const placed = space.placements(lay.state);
  return {
    ...noPlan(job, planWarnings(job, placed)),
    length: lay.length,
    buy: lengthToBuy(lay.length, job),
    density: space.area / (lay.length * job.width),
    placed,
  };
}
