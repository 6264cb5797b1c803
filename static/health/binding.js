// @ts-check
/** @typedef {{ply: number, label: string}} Target a ply, and how people call it or its move */

/**
 * Binding remembers for which ply a text is meant: for the one that was there
 * when the typing began, whatever the feed brings meanwhile.
 */
export class Binding {
  /** @type {Target | null} */ #bound = null;
  #told = false; // whether the relay told of the board since an entry was sent
  #settling = false;

  /** @param {string} text @param {Target} now */
  typed(text, now) {
    if (text.trim() === '') this.#bound = null;
    else if (!this.#settling) this.#bound ??= now;
  }

  /** An entry is sent. */
  sent() {
    this.#told = false;
  }

  /** The entry was made: what is typed next is meant for what the board then shows, which may still be on its way. */
  done() {
    this.#bound = null;
    this.#settling = !this.#told;
  }

  /** The relay has told of the board again. @param {string} text @param {Target} now */
  heard(text, now) {
    this.#told = true;
    if (!this.#settling) return;
    this.#settling = false;
    this.typed(text, now);
  }

  /** What the text is meant for. @param {Target} now */
  target(now) {
    return this.#bound ?? now;
  }

  /** Whether the board has moved on since. @param {Target} now */
  isPast(now) {
    return this.#bound !== null && (this.#bound.ply !== now.ply || this.#bound.label !== now.label);
  }
}
