// @ts-check
/** After the last finger is up, a second tap may follow; wall milliseconds. */
const CALM_MS = 300;

/** So long after the last key on a card, or the last move of a pointer over one, somebody may still be about to act; wall milliseconds. */
export const ATTENTION_MS = 5000;

/**
 * Touch knows whether somebody is at the cards, with a finger, a mouse or the
 * keyboard: then nothing may move. Who only rests there does not stop the panel.
 */
export class Touch {
  /** @type {Set<number>} */ #pointers = new Set();
  #fingers = 0;
  #releasedAt = -Infinity;
  #movedAt = -Infinity;
  #keyAt = -Infinity;
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
    addEventListener('pointermove', (e) => this.#moved(e.target), quiet);
    addEventListener('keydown', () => (this.#keyAt = performance.now()), quiet);
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

  /** Whether nothing may move now. */
  get busy() {
    const recent = (/** @type {number} */ at) => performance.now() - at < ATTENTION_MS;
    return this.down || recent(this.#movedAt) || (this.card !== null && recent(this.#keyAt));
  }

  /** @param {EventTarget | null} target */
  #moved(target) {
    if (target instanceof Element && target.closest(this.#cards)) this.#movedAt = performance.now();
  }

  /** @param {() => void} change */
  #release(change) {
    change();
    this.#releasedAt = performance.now();
  }
}
