// @ts-check
/** Bounds fade by this much with every ping, wall time: more than the clocks of two machines part in that time. */
const FADE_MS = 1;

/**
 * Show time in the page. The relay's clock is the only truth; this page learns
 * how far its own monotonic clock stands from it. Show time may run faster than
 * the wall (a demo, a rehearsal), hence the rate.
 *
 * Every ping that comes back gives two bounds: the relay said its time after the
 * ping was sent, and before the answer came. The highest lower bound and the lowest
 * upper one count, from whichever pings; the truth is taken to lie in the middle. So
 * one fast way there and one fast way back are enough, if not of the same ping.
 * Bounds fade, so that drift is followed. What cannot be seen from here is a way
 * that is always longer than the other: half of that stays as error.
 */
export class ShowTime {
  #rate = 1;
  #stands = false;
  // Show ms at page ms 0, between two bounds.
  #low = -Infinity;
  #high = Infinity;

  /** @param {() => number} [now] the page's monotonic clock in milliseconds */
  constructor(now = () => performance.now()) {
    this.pageNow = now;
  }

  /** Whether any time has come. */
  get known() {
    return this.#low > -Infinity;
  }

  get rate() {
    return this.#rate;
  }

  /** Show time now, in milliseconds from the Unix epoch. */
  now() {
    return this.#offset() + this.#gone(this.pageNow());
  }

  /** How far now() may be off at most, wall milliseconds; Infinity until a ping has come back. */
  get unsureMs() {
    return (this.#high - this.#low) / 2 / this.#rate;
  }

  #offset() {
    if (!this.known) return 0;
    return this.#high < Infinity ? (this.#low + this.#high) / 2 : this.#low;
  }

  /** How far show time goes while the page's clock goes so far. @param {number} page ms */
  #gone(page) {
    return this.#stands ? 0 : page * this.#rate;
  }

  /** A new connection: forget what another relay said. @param {number} now @param {number} rate */
  welcome(now, rate) {
    this.pace(now, rate);
  }

  /**
   * Show time is another, or goes at another pace. While it stands, rate stays what it was:
   * timers made from it are as right as any.
   *
   * @param {number} now
   * @param {number} rate 0: it stands
   */
  pace(now, rate) {
    this.#stands = rate === 0;
    if (!this.#stands) this.#rate = rate;
    this.#low = now - this.#gone(this.pageNow()); // it was on its way for a while
    this.#high = Infinity;
  }

  /** A pong came back. @param {number} sentAt page ms @param {number} now show ms */
  sample(sentAt, now) {
    const [low, high] = [now - this.#gone(this.pageNow()), now - this.#gone(sentAt)];
    this.#low -= FADE_MS * this.#rate;
    this.#high += FADE_MS * this.#rate;
    if (low <= this.#high && high >= this.#low) {
      this.#low = Math.max(low, this.#low);
      this.#high = Math.min(high, this.#high);
    } else if (high - low <= this.#high - this.#low) [this.#low, this.#high] = [low, high]; // the surer one is right
  }
}
