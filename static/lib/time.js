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
    return this.#offset + this.pageNow() * this.#rate;
  }

  /** A new connection: forget what another relay said. @param {number} now @param {number} rate */
  welcome(now, rate) {
    this.#rate = rate;
    this.#offset = now - this.pageNow() * rate;
    this.#error = 1000;
  }

  /** A pong came back. @param {number} sentAt page ms @param {number} now show ms */
  sample(sentAt, now) {
    const back = this.pageNow();
    const half = (back - sentAt) / 2;
    this.#error += 0.5;
    if (half > this.#error) return;
    this.#error = half;
    this.#offset = now - (sentAt + half) * this.#rate;
  }
}
