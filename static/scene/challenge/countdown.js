// @ts-check
/** @typedef {import('../../lib/wire.js').AirChallenge} AirChallenge */
import { timeText } from '../../lib/clock.js';
import { Digits } from '../../lib/digits.js';
import { byId, el, mark, write } from '../../lib/dom.js';
import { marks, thought } from './think.js';

/** Of the lane, in pixels of the stage. */
const WIDTH = 1680;

/** Countdown draws the viewers' own think: a block that grows towards the end of their time. */
export class Countdown {
  #figures = new Digits(byId('left'));
  #gone = byId('gone');
  #head = byId('head');
  #marked = '';

  /** Returns the show milliseconds until it changes. @param {AirChallenge} challenge @param {number} now show time @param {string} over in words */
  draw(challenge, now, over) {
    this.#mark(challenge);
    const { share, left, over: done, wait } = thought(challenge, now);
    const x = Math.round(share * WIDTH);
    this.#gone.style.clipPath = `inset(0 ${WIDTH - x}px 0 0)`;
    this.#head.style.transform = `translateX(${x}px)`;
    mark(byId('foot'), 'data-over', done);
    const text = timeText(left * 1000);
    this.#figures.write(text);
    mark(byId('left'), 'aria-label', text); // the figures are drawn, not written
    write(byId('over'), over);
    return wait;
  }

  /** @param {AirChallenge} challenge */
  #mark({ id, asked, ends }) {
    const key = `${id} ${asked} ${ends}`;
    if (key === this.#marked) return;
    this.#marked = key;
    const all = marks(ends - asked, WIDTH);
    for (const lane of [byId('seconds'), this.#gone]) lane.replaceChildren(...all.map(line));
  }
}

/** @param {{share: number, long: boolean}} mark */
function line({ share, long }) {
  const line = el('i', { 'data-long': long });
  line.style.left = `${Math.round(share * WIDTH)}px`;
  return line;
}
