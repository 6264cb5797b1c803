// @ts-check
/** @typedef {{status: number, done: boolean, error: string}} Answer status 0: none came */
/** @typedef {(body: string) => Promise<Answer>} Post sends one thing; never throws */

/** An answer that takes longer is taken for none; wall milliseconds. */
const ANSWER_MS = 8000;
/** The token's name in this tab's store. */
const KEPT = 'clocktell-token';

/**
 * A function that sends one entry, or one act at the panel or the desk, and says what was answered.
 *
 * @param {string} token the producer's, "" for none
 * @param {string} path '/by-hand', '/at-panel' or the path of an action
 * @param {typeof fetch} [fetcher]
 * @returns {Post}
 */
export function poster(token, path, fetcher = (...args) => fetch(...args)) {
  /** @type {Record<string, string>} */ const headers = { 'Content-Type': 'application/json' };
  if (token) headers.Authorization = `Bearer ${token}`;
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

/**
 * The producer's token, from the page's address or, after a reload, from this
 * tab's store. It does not stay in the address, which others may see.
 *
 * @param {string} href
 * @param {(href: string) => void} replace sets the address
 * @param {{getItem: (key: string) => string | null, setItem: (key: string, value: string) => void}} [store] missing: nothing is kept
 */
export function takeToken(href, replace, store) {
  const url = new URL(href);
  const given = url.searchParams.get('token');
  if (given === null) return store?.getItem(KEPT) ?? '';
  url.searchParams.delete('token');
  replace(url.href);
  store?.setItem(KEPT, given);
  return given;
}
