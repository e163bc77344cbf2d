/** What a part of a telling is about; it heads a line on paper and on the bench. */
export type Topic =
  | 'prepare'
  | 'thread'
  | 'grain'
  | 'lay'
  | 'match'
  | 'sew'
  | 'clip'
  | 'press'
  | 'layers'
  | 'again'
  | 'take care';

/** One thing to do or to know, in whole sentences, lengths in the user's unit. */
export interface TellingPart {
  readonly topic: Topic;
  readonly text: string;
}

/** One step as it is told: what it is, and its parts in the order in which they are done. */
export interface StepTelling {
  readonly title: string;
  readonly parts: readonly TellingPart[];
}

/** What a topic is called at the head of a line. */
export const TOPIC_WORDS: Readonly<Record<Topic, string>> = {
  prepare: 'Prepare',
  thread: 'Thread',
  grain: 'Grain',
  lay: 'Lay',
  match: 'Match',
  sew: 'Sew',
  clip: 'Clip',
  press: 'Press',
  layers: 'Layers',
  again: 'Again',
  'take care': 'Take care',
};

/** A whole telling as one string, for lists of plain text. */
export const tellingText = ({ title, parts }: StepTelling): string =>
  [`${title}.`, ...parts.map((p) => p.text)].join(' ');
