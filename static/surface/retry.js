// @ts-check
/** When something sent to the relay is sent again, and under which id. */

/** The first pause before something is sent again, and the longest; wall milliseconds. */
export const PAUSE_MS = 500;
export const PAUSE_MOST_MS = 4000;

/** Whether sending the same again could not change the answer. @param {number} status */
export function isFinal(status) {
  return status >= 400 && status < 500 && status !== 408 && status !== 429;
}

/** What was answered that did nothing, as a sentence. @param {import('./post.js').Answer} answer */
export function refusal({ status, error }) {
  return error ? sentence(error) : `The relay answered with status ${status}.`;
}

/** @param {string} text */
export const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1) + (/[.!?]$/.test(text) ? '' : '.');

/** @param {number} tries in vain so far */
export const pauseAfter = (tries) => Math.min(PAUSE_MOST_MS, PAUSE_MS * 2 ** (tries - 1));

/** An id of its own. crypto.randomUUID is missing where a page came over plain HTTP from another machine. */
export function newID() {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, '0')).join('');
}
