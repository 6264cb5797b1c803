// @ts-check
/** @typedef {import('../lib/time.js').ShowTime} ShowTime */

/** A lost line shows after this long, wall time: most come back sooner. */
const LOST_SHOWS_MS = 3000;
/** No two looks at the time are nearer than this, wall time. */
const SHORTEST_WAIT_MS = 40;
/**
 * So much later a look is sure to find the change, wall time: timers cut fractions off, and show time, measured
 * again and again, may come out earlier. Too early, it would be in vain, and the next is after the shortest wait.
 */
const SURE_MS = 2;

/**
 * What a scene draws by: show time; show time from which on the page knows nothing any more, or
 * null; when it lost its line, show time, or null as long as that does not show; the page's own
 * monotonic milliseconds; show time per wall time.
 *
 * @typedef {{now: number, heldAt: number | null, lostAt: number | null, wall: number, rate: number}} Moment
 */

/**
 * Pulse is a scene's one timer: it looks at the time when the next of what is shown changes, and
 * rests in between. It also knows since when a lost line has to show.
 */
export class Pulse {
  #timer = 0;
  /** @type {number | null} */ #lostWall = null;
  /** Show time. */
  #lostAt = 0;
  /** @type {number | null} */ #heldAt = null;
  #time;
  #draw;

  /**
   * @param {ShowTime} time as of Live
   * @param {(moment: Moment) => number} draw brings the scene up to a moment; returns wall milliseconds until it changes by itself
   */
  constructor(time, draw) {
    this.#time = time;
    this.#draw = draw;
    document.addEventListener('visibilitychange', () => this.beat());
  }

  get moment() {
    return { now: this.#time.now(), heldAt: this.#heldAt, lostAt: this.#heldAt && this.#lostAt, wall: performance.now(), rate: this.#time.rate };
  }

  /** Whether the page has been without the relay for so long that it shows. */
  get lost() {
    return this.#heldAt !== null;
  }

  /** A board has come: what is shown is true again. */
  heard() {
    this.#lostWall = this.#heldAt = null;
  }

  /** @param {'open' | 'lost'} state */
  line(state) {
    document.body.dataset.line = state;
    if (state === 'lost' && this.#lostWall === null) [this.#lostWall, this.#lostAt] = [performance.now(), this.#time.now()];
    this.beat();
  }

  /** Bring everything that depends on the time up to now, and come back when the next of it changes. */
  beat() {
    clearTimeout(this.#timer);
    const wait = Math.min(this.#watch(), this.#draw(this.moment));
    if (wait < Infinity) this.#timer = window.setTimeout(() => this.beat(), Math.max(SHORTEST_WAIT_MS, wait + SURE_MS));
  }

  #watch() {
    if (this.#lostWall === null || this.#heldAt !== null) return Infinity;
    const wait = this.#lostWall + LOST_SHOWS_MS - performance.now();
    if (wait > 0) return wait;
    this.#heldAt = this.#time.now();
    return Infinity;
  }
}
