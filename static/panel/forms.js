// @ts-check
/** @typedef {'full' | 'saying' | 'line'} Form */

/** How a card is drawn: large to be said, small while another says it, as a line when it is over. */
export const FORM = Object.freeze({ FULL: /** @type {Form} */ ('full'), SAYING: /** @type {Form} */ ('saying'), LINE: /** @type {Form} */ ('line') });

/**
 * Forms remembers how each card is drawn, so that none grows or shrinks under a
 * finger for what another did. One that another takes says so at once, in the
 * room it has.
 */
export class Forms {
  /** @type {Map<string, {form: Form, held: boolean}>} */ #drawn = new Map();

  /**
   * @param {string} key
   * @param {Form} want
   * @param {boolean} busy somebody is at the panel
   * @param {boolean} own the change was made here, by whoever looks at it
   * @returns {{form: Form, held: boolean}} held: the card keeps the height it has
   */
  next(key, want, busy, own) {
    const was = this.#drawn.get(key);
    const next = was && busy ? held(was, want, own) : { form: want, held: false };
    this.#drawn.set(key, next);
    return next;
  }

  /** Forget the others. @param {Set<string>} keys */
  keep(keys) {
    for (const key of this.#drawn.keys()) if (!keys.has(key)) this.#drawn.delete(key);
  }
}

/** @param {{form: Form, held: boolean}} was @param {Form} want @param {boolean} own */
function held(was, want, own) {
  if (was.held) return { form: want, held: true };
  if (was.form === want || own) return { form: want, held: false };
  return want === FORM.SAYING && was.form === FORM.FULL ? { form: want, held: true } : was;
}
