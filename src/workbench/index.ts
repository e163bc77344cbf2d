/**
 * Workbench: the screen. Shows the garment on a table, lets lines be drawn, panels coloured and files made.
 * Knows no geometry beyond asking the rooms; keeps one design document and one sitting.
 */
export { startBench } from './startBench';
