import type { WordingOf } from './wording';

/** What is to be said of laying on one's own pieces of cloth. */
export interface OwnClothFacts {
  'own-cloth-printed': { colour: string };
}

export const OWN_CLOTH: WordingOf<OwnClothFacts> = {
  'own-cloth-printed': [
    'hint',
    ({ colour }) =>
      `Your own pieces of ${colour} are not laid on: where the print lies on them is not known, and its repeat has to match. Cut from them by eye, or set the repeat to 0 if the print need not match.`,
  ],
};
