// @ts-check
/** @typedef {{status: number, done: boolean, error: string}} Answer status 0: none came */
/** @typedef {(body: string) => Promise<Answer>} Post sends one thing; never throws */

/** An answer that takes longer is taken for none; wall milliseconds. */
const ANSWER_MS = 8000;

/**
 * A function that sends one entry, or one act at the panel or the desk, and says what was answered. Whether
 * this browser may, its cookie says.
 *
 * @param {string} path '/by-hand', '/at-panel' or the path of an action
 * @param {typeof fetch} [fetcher]
 * @returns {Post}
 */
export function poster(path, fetcher = (...args) => fetch(...args)) {
  const headers = { 'Content-Type': 'application/json' };
  return async (body) => {
    const abort = new AbortController();
    const timer = setTimeout(() => abort.abort(), ANSWER_MS);
    try {
      const response = await fetcher(path, { method: 'POST', headers, body, cache: 'no-store', signal: abort.signal });
      return read(response.status, await response.text());
    } catch {
      return { status: 0, done: false, error: '' };
    } finally {
      clearTimeout(timer);
    }
  };
}

/** What is no reply of the relay did nothing that we know of. @param {number} status @param {string} text @returns {Answer} */
function read(status, text) {
  try {
    const reply = /** @type {import('../lib/wire.js').EntryReply} */ (JSON.parse(text));
    return { status, done: status === 200 && reply.done === true, error: String(reply.error ?? '') };
  } catch {
    return { status, done: false, error: '' };
  }
}
