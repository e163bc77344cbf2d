/**
 * Lining and facings: pieces made from the traced ones as they were before slicing, and derived as a garment of their own whose panels
 * follow all others. Costs nothing where there are none.
 */
export { extraDesign } from './extraDesign';
export { homeOf, withExtras } from './withExtras';
export { extraSteps } from './extraSteps';
