import { type SewingPlan, edgeKey } from '../../sewing';

/**
 * The plan of lining and facings: what is sewn among themselves. Their outer edges are finished with the garment's, so steps for those are
 * left out.
 */
export function extraSteps(plan: SewingPlan): SewingPlan {
  const kept = plan.steps.filter((s) => s.kind !== 'edge');
  const keys = new Set(kept.map((s) => s.key));
  const steps = kept.map((s, i) => ({ ...s, step: i + 1, needs: s.needs.filter((n) => keys.has(n.key)) }));
  return {
    ...plan,
    steps,
    stepOfSeam: new Map(steps.flatMap((s) => s.seams.map((seam) => [seam, s.step] as const))),
    stepOfEdge: new Map(steps.flatMap((s) => s.edges.map((e) => [edgeKey(e), s.step] as const))),
  };
}
