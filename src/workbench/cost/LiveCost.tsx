import { useEffect, type ReactElement } from 'react';
import { useBenchStore } from '../store/benchStore';
import { keepCost } from './costRoom';
import { CostSlip } from './CostSlip';
import { SpotWords } from './SpotWords';

/** What a line costs, while it is moved: loaded when a line is first chosen or drawn, and there from then on. */
export default function LiveCost(): ReactElement {
  const store = useBenchStore();
  useEffect(() => keepCost(store), [store]);
  return (
    <>
      <SpotWords />
      <CostSlip />
    </>
  );
}
