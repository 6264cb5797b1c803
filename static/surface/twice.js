// @ts-check
/** How long a button stays armed, and how soon a second press is only a slip; wall milliseconds. */
export const ARMED_MS = 8000;
export const SLIP_MS = 400;

/**
 * Twice asks for a second press of the same button. A press that follows at
 * once, or one of something else, does not count.
 */
export class Twice {
  #key = '';
  #at = 0;

  /**
   * @param {string} key what the press would do
   * @param {number} now wall ms
   * @returns {boolean} whether to do it
   */
  press(key, now) {
    if (this.armed(now) !== key) {
      [this.#key, this.#at] = [key, now];
      return false;
    }
    if (now - this.#at < SLIP_MS) return false;
    this.drop();
    return true;
  }

  /** What a second press would do, "" for nothing. @param {number} now wall ms */
  armed(now) {
    return now - this.#at < ARMED_MS ? this.#key : '';
  }

  drop() {
    this.#key = '';
  }
}
