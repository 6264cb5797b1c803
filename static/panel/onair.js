// @ts-check
/** @typedef {import('../lib/wire.js').Caption} Caption */
/** @typedef {import('./outbox.js').Act} Act */
import { byId, mark, write } from '../lib/dom.js';
import { who } from './cardwords.js';

/**
 * What changed on the air, to be heard. @param {Caption | null} was @param {Caption | null} is @param {string} me
 * @returns {string} "" nothing
 */
export function airNews(was, is, me) {
  if (!is) return was ? 'Off the air.' : '';
  if (was && was.key === is.key && was.text === is.text && was.at === is.at) return '';
  return `On the air, by ${who(is.by, me)}: ${is.text}`;
}

/** OnAir shows the sentence that viewers see, whoever put it there, and takes it off. */
export class OnAir {
  #root = byId('on-air');
  #off = /** @type {HTMLButtonElement} */ (byId('on-air-off'));
  /** @type {Caption | null} */ #caption = null;
  #me = '';
  #leaves = false;

  /** @param {() => void} off */
  constructor(off) {
    this.#off.addEventListener('click', off);
  }

  /** @param {{caption: Caption | null, to: Act | null}} air @param {string} toText what was asked for here @param {string} me */
  update({ caption, to }, toText, me) {
    [this.#caption, this.#me, this.#leaves] = [caption, me, to?.act === 'off'];
    const coming = !caption && to?.act === 'air';
    mark(this.#root, 'hidden', !caption && !coming);
    mark(this.#root, 'data-state', coming ? 'coming' : 'on');
    mark(document.body, 'data-air', caption ? 'on' : null);
    write(byId('on-air-plate'), coming ? 'going on the air' : 'on the air');
    write(byId('on-air-text'), caption ? caption.text : toText);
    this.#off.disabled = this.#leaves;
    mark(this.#off, 'hidden', coming);
    write(/** @type {Element} */ (this.#off.lastElementChild), this.#leaves ? 'Coming off …' : 'Take off');
  }

  /** @param {number} now show ms */
  tick(now) {
    const c = this.#caption;
    const left = c && c.until > 0 ? Math.ceil(Math.max(0, c.until - now) / 1000) : null;
    const by = c ? `by ${who(c.by, this.#me)}` : '';
    write(byId('on-air-by'), [by, left === null ? '' : `${left} s left`].filter(Boolean).join(', '));
  }
}
