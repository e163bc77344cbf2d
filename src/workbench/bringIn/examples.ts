/** The invented examples that come with the bench; each is loaded when it is asked for. */
export const EXAMPLES = [
  { name: 'Fenlight sheath', file: 'sheath.svg', load: () => import('../../../demo-data/sheath.svg?raw') },
  { name: 'Saltbox T-shirt', file: 'tshirt.svg', load: () => import('../../../demo-data/tshirt.svg?raw') },
  { name: 'Kettlecurve bodice', file: 'bodice.svg', load: () => import('../../../demo-data/bodice.svg?raw') },
] as const;

/** The first example as a saved design, for the first opening: the reader of tracings need not be loaded for it. */
export const FIRST_EXAMPLE = {
  file: 'sheath.json',
  load: () => import('../../../demo-data/sheath.json?raw'),
} as const;
