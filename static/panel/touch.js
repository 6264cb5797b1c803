// @ts-check
/** After the last finger is up, a second tap may follow; wall milliseconds. */
const CALM_MS = 300;

/**
 * Touch knows whether somebody has a finger or a button down, or stands on a
 * card with the keyboard: then nothing may move.
 */
export class Touch {
  /** @type {Set<number>} */ #pointers = new Set();
  #fingers = 0;
  #releasedAt = -Infinity;
  #cards;

  /** @param {string} cards selector of what must not move under the focus */
  constructor(cards) {
    this.#cards = cards;
    const quiet = { capture: true, passive: true };
    addEventListener('pointerdown', (e) => this.#pointers.add(e.pointerId), quiet);
    for (const end of ['pointerup', 'pointercancel']) {
      addEventListener(end, (e) => this.#release(() => this.#pointers.delete(/** @type {PointerEvent} */ (e).pointerId)), quiet);
    }
    // A finger that scrolls cancels its pointer but is still on the glass.
    addEventListener('touchstart', (e) => (this.#fingers = e.touches.length), quiet);
    for (const end of ['touchend', 'touchcancel']) {
      addEventListener(end, (e) => this.#release(() => (this.#fingers = /** @type {TouchEvent} */ (e).touches.length)), quiet);
    }
    addEventListener('blur', (e) => e.target === window && this.#release(() => this.#pointers.clear()));
  }

  /** Whether a finger or a button is down, or was until just now. */
  get down() {
    return this.#pointers.size > 0 || this.#fingers > 0 || performance.now() - this.#releasedAt < CALM_MS;
  }

  /** The card the keyboard stands on, or null. @returns {HTMLElement | null} */
  get card() {
    return document.activeElement?.closest(this.#cards) ?? null;
  }

  get busy() {
    return this.down || (this.card !== null && document.activeElement?.matches(':focus-visible') === true);
  }

  /** @param {() => void} change */
  #release(change) {
    change();
    this.#releasedAt = performance.now();
  }
}
