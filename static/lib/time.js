// @ts-check
/**
 * Show time in the page. The relay's clock is the only truth; this page learns
 * how far its own monotonic clock stands from it. Show time may run faster than
 * the wall (a demo, a rehearsal), hence the rate.
 *
 * Every ping that comes back gives one sample: the relay's time lies, to half
 * the round trip, in the middle of it. The sample with the shortest round trip
 * is the best; old samples fade, so that drift is followed.
 */
export class ShowTime {
  #rate = 1;
  #stands = false;
  #offset = 0; // show ms at page ms 0
  #error = Infinity; // wall ms, half the best round trip, ageing

  /** @param {() => number} [now] the page's monotonic clock in milliseconds */
  constructor(now = () => performance.now()) {
    this.pageNow = now;
  }

  /** Whether any sample has come. */
  get known() {
    return this.#error < Infinity;
  }

  get rate() {
    return this.#rate;
  }

  /** Show time now, in milliseconds from the Unix epoch. */
  now() {
    return this.#offset + this.#gone(this.pageNow());
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
    this.#offset = now - this.#gone(this.pageNow());
    this.#error = 1000;
  }

  /** A pong came back. @param {number} sentAt page ms @param {number} now show ms */
  sample(sentAt, now) {
    const back = this.pageNow();
    const half = (back - sentAt) / 2;
    this.#error += 0.5;
    if (half > this.#error) return;
    this.#error = half;
    this.#offset = now - this.#gone(sentAt + half);
  }
}
