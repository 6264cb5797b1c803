// @ts-check
/** @typedef {import('../lib/wire.js').PanelAct} PanelAct */
import { PROMPT } from '../lib/wire.js';

/**
 * What the co-hosts did with a prompt.
 *
 * @typedef {object} Use
 * @property {string} state one of PROMPT
 * @property {string} by who brought it there; "" while it is open
 * @property {number} since and when, show ms
 * @property {string} pinned who pinned it, "" nobody
 */

/** Where an act brings a prompt. @type {Record<string, string>} */
const TO = { take: PROMPT.TAKEN, said: PROMPT.SAID, drop: PROMPT.DROPPED };

/**
 * The use of a prompt after an act, as the relay works it out (Use.after in
 * relay/table.go). What the relay will refuse changes nothing.
 *
 * @param {Use} use
 * @param {{act: string, who: string, over?: boolean}} act
 * @param {number} since show ms of the act
 * @returns {Use}
 */
export function after(use, { act, who, over }, since) {
  if (act === 'pin') return use.pinned ? use : { ...use, pinned: who };
  if (act === 'unpin') return { ...use, pinned: '' };
  const to = TO[act];
  if (!to && act !== 'undo') return use;
  const anothers = use.by !== '' && use.by !== who && !over;
  if (anothers && (use.state === PROMPT.TAKEN || (use.state === PROMPT.SAID && act !== 'undo'))) return use;
  if (!to) return { state: PROMPT.OPEN, by: '', since: 0, pinned: use.pinned };
  if (to === use.state && use.by === who) return use;
  return { state: to, by: who, since, pinned: use.pinned };
}

/** What tells one use from another. @param {Use | undefined} use */
export const signature = (use) => (use ? [use.state, use.by, use.since, use.pinned].join('\n') : '');
