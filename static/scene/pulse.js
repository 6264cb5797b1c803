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
/** A measurement that moves show time by less than this, wall time, waits for the next look: that is at most a second away where clocks run. */
const MOVED_MS = 5;

/**
 * What a scene draws by: show time; show time from which on the page knows nothing any more, or
 * null; when it lost its line, show time, or null as long as that does not show; the page's own
 * monotonic milliseconds; show time per wall time; how far show time may be off, wall time; whether it is
 * another than the last look took it to be.
 *
 * @typedef {{now: number, heldAt: number | null, lostAt: number | null, wall: number, rate: number, unsure: number, anew: boolean}} Moment
 */

/**
 * Pulse is a scene's one timer: it looks at the time when the next of what is shown changes, and
 * rests in between. It also knows since when a lost line has to show.
 */
export class Pulse {
  #timer = 0;
  /** Page time of the next look. */
  #next = Infinity;
  /** @type {number | null} */ #lostWall = null;
  /** Show time. */
  #lostAt = 0;
  /** @type {number | null} */ #heldAt = null;
  /** @type {Moment | null} of the last look */ #looked = null;
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

  /** @returns {Moment} */
  get moment() {
    const { rate, unsureMs } = this.#time;
    const [now, wall, last] = [this.#time.now(), performance.now(), this.#looked];
    const anew = !last || rate !== last.rate || Math.abs(now - last.now - (wall - last.wall) * rate) >= MOVED_MS * rate;
    return { now, heldAt: this.#heldAt, lostAt: this.#heldAt && this.#lostAt, wall, rate, unsure: unsureMs, anew };
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

  /** Show time was told or measured anew. */
  measured() {
    if (this.moment.anew) this.beat();
  }

  /** Look before long: what comes in one packet is drawn in one frame. */
  soon() {
    const wait = this.#next - performance.now();
    this.#lookIn(wait < 2 * SHORTEST_WAIT_MS ? wait : SHORTEST_WAIT_MS); // or the next would come late
  }

  /** Bring everything that depends on the time up to now, and come back when the next of it changes. */
  beat() {
    clearTimeout(this.#timer);
    const lost = this.#watch(); // first: it may find that the line is lost
    this.#looked = this.moment;
    const wait = Math.min(lost, this.#draw(this.#looked));
    this.#next = Infinity;
    if (wait < Infinity) this.#lookIn(Math.max(SHORTEST_WAIT_MS, wait + SURE_MS));
  }

  /** @param {number} wait wall milliseconds */
  #lookIn(wait) {
    clearTimeout(this.#timer);
    this.#next = performance.now() + wait;
    this.#timer = window.setTimeout(() => this.beat(), wait);
  }

  #watch() {
    if (this.#lostWall === null || this.#heldAt !== null) return Infinity;
    const wait = this.#lostWall + LOST_SHOWS_MS - performance.now();
    if (wait > 0) return wait;
    this.#heldAt = this.#time.now();
    return Infinity;
  }
}
