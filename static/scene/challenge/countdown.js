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
  #marked = '';
  /** @type {{share: number, line: HTMLElement}[]} */ #marks = [];

  /** Returns the show milliseconds until it changes. @param {AirChallenge} challenge @param {number} now show time @param {string} over in words */
  draw(challenge, now, over) {
    this.#mark(challenge);
    const { share, left, over: done, wait } = thought(challenge, now);
    byId('gone').style.transform = `scaleX(${share})`;
    byId('head').style.transform = `translateX(${Math.round(share * WIDTH)}px)`;
    for (const m of this.#marks) mark(m.line, 'data-gone', m.share < share);
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
    this.#marks = marks(ends - asked, WIDTH).map(({ share, long }) => ({ share, line: el('i', { 'data-long': long }) }));
    for (const { share, line } of this.#marks) line.style.left = `${Math.round(share * WIDTH)}px`;
    byId('seconds').replaceChildren(...this.#marks.map((m) => m.line));
  }
}
