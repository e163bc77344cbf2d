/**
 * The lay planner in workers: for the workbench only (the command line runs startCloth itself). Promises never to have more
 * workers at once than seats, that a task comes to rest exactly once for each time it is asked to search, and that nothing is heard of
 * it any more once it was stopped. A table over the usual widths is filled in a worker of its own, beside the seats.
 */
export { LayTeam } from './layTeam';
export type { TeamListener, TeamTask } from './layTeam';
export { newLayWorker, seatsHere } from './newLayWorker';
export { startTable } from './tableClient';
export type { TableEnd, TableListener, TableOrder } from './tableClient';
