// @ts-check
/** @typedef {import('../lib/wire.js').PageItem} PageItem */
import { byId, el, mark, svg, write } from '../lib/dom.js';
import { icon, keepRows } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { moreWords, pagesWords, troubleWords } from './pagewords.js';

/** A frame drawn later than this is late; wall milliseconds. A test holds it to the relay's limit. */
export const LATE_MS = 250;
/** Right end of the strip; wall milliseconds. */
export const STRIP_MS = 600;
/** Dots drawn per page; older ones only cover each other. */
const MOST_DOTS = 60;

/** Lateness of the frames that are drawn, oldest first; wall milliseconds. @param {PageItem} item */
const drawn = (item) => item.late.slice(-MOST_DOTS);

/** Pages draws a row for each page that the relay lists: how late its last frames were. All others are in the words. */
export class Pages {
  /** @type {Map<string, PageRow>} */ #rows = new Map();
  #list;
  #words;
  #more = byId('more-pages');

  /** @param {Element} list @param {Element} words the sum in words */
  constructor(list, words) {
    this.#list = list;
    this.#words = words;
  }

  /** @param {import('../lib/wire.js').Pages} frame */
  update(frame) {
    const { items } = frame;
    const key = (/** @type {PageItem} */ p, /** @type {number} */ i) => `${p.page} ${p.board} ${p.from} ${p.since} ${twin(items, i)}`;
    const rows = keepRows(this.#list, this.#rows, items, key, () => new PageRow());
    rows.forEach((row, i) => row.update(items[i]));
    write(this.#words, pagesWords(frame));
    const more = moreWords(frame);
    write(this.#more, more);
    mark(this.#more, 'hidden', more === '');
  }
}

class PageRow {
  #page = el('p', { class: 'page-name' });
  #from = el('p', { class: 'from' });
  #trouble = el('p', { class: 'trouble' });
  #dots = svg('g');
  #newest = el('p', { class: 'newest' });
  #skipped = el('p', { class: 'skipped' });
  /** @type {string | null} */ #drawn = null;

  constructor() {
    const limit = `${(100 * LATE_MS) / STRIP_MS}%`;
    const ground = svg('line', { class: 'ground', x1: '0', x2: '100%', y1: '12', y2: '12' });
    const dash = svg('line', { class: 'limit', x1: limit, x2: limit, y1: '0', y2: '24' });
    this.strip = svg('svg', { class: 'strip', role: 'img', height: 24 }, ground, dash, this.#dots);
    const who = el('div', { class: 'who' }, this.#page, this.#from, this.#trouble);
    const figures = el('div', { class: 'figures' }, this.#newest, this.#skipped);
    this.root = el('li', { class: 'page' }, who, el('div', { class: 'strip-box' }, this.strip), figures);
  }

  /** @param {PageItem} item */
  update(item) {
    mark(this.root, 'data-page', item.page);
    write(this.#page, item.board ? `${item.page}, board ${item.board}` : item.page);
    write(this.#from, [item.from, heldWords(item)].filter(Boolean).join(', '));
    const trouble = troubleWords(item);
    write(this.#trouble, trouble);
    mark(this.#trouble, 'hidden', trouble === '');
    const late = drawn(item);
    write(this.#skipped, [lateWords(late), `${item.superseded || 'none'} skipped`].filter(Boolean).join(', '));
    if (this.#drawn === late.join()) return;
    this.#drawn = late.join();
    this.#draw(late);
  }

  /** @param {number[]} late */
  #draw(late) {
    const newest = late.at(-1);
    mark(this.root, 'data-late', newest !== undefined && newest > LATE_MS);
    this.#newest.replaceChildren(...(newest !== undefined && newest > LATE_MS ? [icon('warning'), ' '] : []), newest === undefined ? 'no frame yet' : `${newest} ms`);
    const dots = late.map((ms, i) =>
      svg('circle', { cx: `${stripShare(ms)}%`, cy: 12, r: i === late.length - 1 ? 6 : 5, class: ms > LATE_MS ? 'late' : 'in-time' }),
    );
    this.#dots.replaceChildren(...dots);
    mark(this.strip, 'aria-label', stripWords(late));
  }
}

/** By how much a page is held back, "" if it is not. @param {PageItem} item */
export function heldWords({ group, holdMs }) {
  if (holdMs === null) return `shown nothing: the hold of ${group} is not set`;
  if (group === '' && holdMs === 0) return '';
  return `held back ${holdMs / 1000} s${group && ` with ${group}`}`;
}

/** Which one of several pages alike, so that two rows never share a key. @param {PageItem[]} items @param {number} i */
function twin(items, i) {
  const p = items[i];
  return items.slice(0, i).filter((q) => q.page === p.page && q.board === p.board && q.from === p.from && q.since === p.since).length;
}

/** Place on the strip in hundredths; what is later stands at its end. @param {number} ms */
export function stripShare(ms) {
  return Math.round((1000 * Math.min(STRIP_MS, Math.max(0, ms))) / STRIP_MS) / 10;
}

/** @param {number[]} late */
export function stripWords(late) {
  if (late.length === 0) return 'no frame yet';
  return `last ${count(late.length, 'frame')}: ${overLimit(late) || 'none'} later than ${LATE_MS} ms, at most ${Math.max(...late)} ms`;
}

/** @param {number[]} late */
const overLimit = (late) => late.filter((ms) => ms > LATE_MS).length;

/** How many of a row's dots are late: "none late", "2 of 30 late", "" without any. @param {number[]} late */
export function lateWords(late) {
  if (late.length === 0) return '';
  const over = overLimit(late);
  return over === 0 ? 'none late' : `${over} of ${late.length} late`;
}
