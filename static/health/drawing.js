// @ts-check
/** @typedef {import('../lib/wire.js').FeedItem} FeedItem */
import { el, mark, svg, write } from '../lib/dom.js';
import { WINDOW_MS, followedPath, rhythmWords, ticks, troubles } from './rhythm.js';

/** Rhythm draws the answers of one feed over the last minutes; it slides with the time. */
export class Rhythm {
  #same = svg('path', { class: 'same', 'vector-effect': 'non-scaling-stroke' });
  #new = svg('path', { class: 'new-beat', 'vector-effect': 'non-scaling-stroke' });
  #followed = svg('path', { class: 'followed', 'vector-effect': 'non-scaling-stroke' });
  #slide = svg('g', {}, this.#same, this.#new);
  #gaps = el('div', { class: 'gaps' });
  #base = 0;
  /** @type {FeedItem | null} */ #item = null;

  constructor() {
    const box = { viewBox: `0 0 ${WINDOW_MS} 10`, preserveAspectRatio: 'none', 'aria-hidden': 'true' };
    this.root = el('div', { class: 'rhythm', role: 'img' }, this.#gaps, svg('svg', box, this.#slide, this.#followed));
  }

  /** @param {FeedItem} item */
  update(item) {
    this.#item = item;
    this.#base = item.rhythm[0]?.at ?? 0;
    this.#same.setAttribute('d', ticks(item.rhythm, 'same', this.#base));
    this.#new.setAttribute('d', ticks(item.rhythm, 'new', this.#base));
  }

  /** @param {number} now show time @param {number} known show time up to which the relay told of the feed */
  tick(now, known) {
    if (!this.#item) return;
    const start = now - WINDOW_MS;
    mark(this.#slide, 'transform', `translate(${Math.round(this.#base - start)} 0)`);
    const found = troubles(this.#item.rhythm, this.#item.lastGood, known, this.#item.staleMs);
    mark(this.#followed, 'd', followedPath(this.#item.followed, start, now));
    mark(this.root, 'aria-label', rhythmWords(this.#item.rhythm, found));
    while (this.#gaps.children.length > found.length) this.#gaps.lastElementChild?.remove();
    found.forEach((trouble, i) => {
      const gap = /** @type {HTMLElement} */ (this.#gaps.children[i] ?? this.#gaps.appendChild(el('div', {}, el('span'))));
      this.#place(gap, trouble, start);
    });
  }

  /** A silence carries its length where there is room; the style sheet sees to that. @param {HTMLElement} gap @param {import('./rhythm.js').Trouble} trouble @param {number} start */
  #place(gap, trouble, start) {
    const share = (trouble.to - trouble.from) / WINDOW_MS;
    mark(gap, 'data-silent', trouble.silent);
    gap.style.left = `${(100 * (trouble.from - start)) / WINDOW_MS}%`;
    gap.style.width = `${100 * share}%`;
    const label = gap.firstElementChild;
    if (label) write(label, trouble.silent ? `${Math.floor((trouble.to - trouble.from) / 1000)} s` : '');
  }
}
