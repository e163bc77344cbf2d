/** Fabric: lay plans per colour and what to buy. Promises that a plan shown passed the exact overlap check. */
export * from './layPlan';
