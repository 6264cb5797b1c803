// @ts-check
/** What a card says of what the co-hosts did with it. */
/** @typedef {import('./stream.js').Card} Card */
/** @typedef {import('./use.js').Use} Use */
import { timeText } from '../lib/clock.js';
import { PROMPT } from '../lib/wire.js';
import { ago } from '../surface/words.js';
import { END } from './stream.js';

/** @type {Record<string, string>} */
const ENDED = { [END.WITHDRAWN]: 'no longer true', [END.GONE]: 'no longer on the relay’s list' };

/** @param {string} name @param {string} me */
export const who = (name, me) => (name !== '' && name === me ? 'you' : name);

/** How long a prompt lives, in a few words. @param {Card} card */
export function lifeWords({ prompt, use, end }) {
  if (end) return ENDED[end];
  if (use.pinned) return 'still true';
  return prompt.ends ? `goes ${prompt.ends}` : '';
}

/** Who has a sentence, at the head of its card. @param {Card} card @param {string} me @param {number} now show ms */
export function stateWords({ use, mine }, me, now) {
  switch (use.state) {
    case PROMPT.TAKEN:
      return mine ? 'you have it' : `${use.by} has it`;
    case PROMPT.SAID:
      return `said by ${who(use.by, me)}, ${ago(now - use.since)}`;
    case PROMPT.DROPPED:
      return `dropped by ${who(use.by, me)}`;
  }
  return '';
}

/** What stands before the sentence of a card that is only a line. @param {Card} card @param {string} me @param {number} now show ms */
export function lineWords(card, me, now) {
  const { use, end } = card;
  if (use.state === PROMPT.OPEN) return ENDED[end] ?? 'open again';
  const words = { [PROMPT.SAID]: 'Said', [PROMPT.DROPPED]: 'Dropped', [PROMPT.TAKEN]: 'Taken' }[use.state] ?? use.state;
  return `${words} by ${who(use.by, me)}, ${use.waits ? 'not sent yet' : ago(now - use.since)}.`;
}

/** The head of a card that another has a hand on. @param {Card} card @param {string} me */
export function sayingWords({ use, mine }, me) {
  if (use.state === PROMPT.TAKEN) return mine ? 'You have it' : `${use.by} is saying this`;
  return use.state === PROMPT.OPEN ? 'Free again' : `${use.state === PROMPT.SAID ? 'Said' : 'Dropped'} by ${who(use.by, me)}`;
}

/**
 * Why something that was done here did not count.
 *
 * @param {Use} use as the relay has it now
 * @param {string} error what the relay answered
 * @param {string} me
 * @param {number} now show ms
 */
export function conflictWords(use, error, me, now) {
  const since = timeText(Math.max(0, now - use.since));
  if (use.by !== '' && use.by !== me && use.state === PROMPT.TAKEN) return `${use.by} was first, and has had it for ${since}.`;
  if (use.by !== '' && use.by !== me && use.state === PROMPT.SAID) return `${use.by} was first, and said it ${ago(now - use.since)}.`;
  return `Not done. ${error}`;
}
