// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
import { PRIORITY, PROMPT } from '../lib/wire.js';

const RANK = [PRIORITY.NOW, PRIORITY.SOON, PRIORITY.BACKGROUND];
/** What nobody has said goes first. */
const USED = [PROMPT.OPEN, PROMPT.TAKEN, PROMPT.SAID];

/**
 * The sentences about a board that are still true and were not dropped, the most
 * newsworthy first.
 *
 * @param {Prompt[]} items
 * @param {number} board
 */
export function byNews(items, board) {
  const worth = (/** @type {Prompt} */ p) => USED.indexOf(/** @type {any} */ (p.state)) * RANK.length + RANK.indexOf(/** @type {any} */ (p.priority));
  return items
    .filter((p) => p.board === board && p.withdrawn === 0 && p.state !== PROMPT.DROPPED)
    .sort((a, b) => worth(a) - worth(b) || b.at - a.at);
}
