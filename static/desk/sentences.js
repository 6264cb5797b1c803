// @ts-check
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
/** @typedef {import('../lib/wire.js').Caption} Caption */
import { el, mark, write } from '../lib/dom.js';
import { icon, keepRows } from '../surface/dom.js';
import { Touch } from '../surface/touch.js';
import { byNews } from './news.js';
import { PROMPT } from '../lib/wire.js';

/** So many sentences are shown, the most newsworthy first. */
const MOST = 5;

/** @typedef {{items: Prompt[], board: number, caption: Caption | null, word: string}} News word: for marking */
/** @typedef {{mark: (key: string) => void, air: (key: string) => void, off: () => void}} Told */

/** Sentences are what there is to say about the board: marked, or put on the air, by one touch. */
export class Sentences {
  #list = el('ol', { class: 'says' });
  #none = el('p', { class: 'hint' }, 'Nothing to say of this board just now.');
  /** @type {Map<string, Row>} */ #rows = new Map();
  #told;
  #touch = new Touch('.say');
  /** @type {News | null} */ #news = null;
  #board = 0;

  /** @param {HTMLElement} root @param {Told} told */
  constructor(root, told) {
    this.#told = told;
    root.append(this.#list, this.#none);
  }

  /** @param {News} news */
  update(news) {
    this.#news = news;
    this.tick();
  }

  /** Draw what there is; while somebody is at the sentences none moves, and none goes. */
  tick() {
    const news = this.#news;
    if (!news) return;
    const busy = this.#touch.busy && news.board === this.#board;
    if (!busy) this.#arrange(byNews(news.items, news.board).slice(0, MOST), news);
    else for (const row of this.#rows.values()) this.#again(row, news);
    this.#board = news.board;
  }

  /** @param {Prompt[]} shown @param {News} news */
  #arrange(shown, { caption, word }) {
    const rows = keepRows(this.#list, this.#rows, shown, (p) => p.key, (p) => new Row(p.key, this.#told));
    rows.forEach((row, i) => row.update(shown[i], { on: caption?.key === shown[i].key, word, first: i === 0 }));
    mark(this.#none, 'hidden', shown.length > 0);
  }

  /** @param {Row} row @param {News} news */
  #again(row, { items, caption, word }) {
    const prompt = items.find((p) => p.key === row.key);
    if (prompt) row.update(prompt, { on: caption?.key === row.key, word });
    mark(row.root, 'data-gone', !prompt || prompt.withdrawn > 0);
  }
}

class Row {
  #kind = el('span', { class: 'say-kind' });
  #text;
  #evidence = el('p', { class: 'say-evidence', dir: 'auto' });
  #state = el('span', { class: 'say-state', dir: 'auto' });
  #mark;
  #air;
  #word = el('span');
  #on = false;

  /** @param {string} key @param {Told} told */
  constructor(key, told) {
    this.key = key;
    const id = `say-${key.replace(/[^\w-]/g, '_')}`;
    this.#text = el('p', { class: 'say-text', dir: 'auto', id });
    this.#mark = el('button', { type: 'button', class: 'button small', 'aria-describedby': id }, icon('facts'), el('span'));
    this.#air = el('button', { type: 'button', class: 'button small', 'aria-describedby': id }, icon('air'), this.#word);
    this.#mark.addEventListener('click', () => told.mark(key));
    this.#air.addEventListener('click', () => (this.#on ? told.off() : told.air(key)));
    const does = el('div', { class: 'say-does' }, this.#mark, this.#air);
    this.root = el('li', { class: 'say' }, el('p', { class: 'say-head' }, this.#kind, ' ', this.#state), this.#text, this.#evidence, does);
  }

  /** @param {Prompt} prompt @param {{on: boolean, word: string, first?: boolean}} how on: the air; first: undefined as it was */
  update(prompt, { on, word, first }) {
    this.#on = on;
    if (first !== undefined) mark(this.root, 'data-first', first);
    mark(this.root, 'data-gone', false);
    mark(this.root, 'data-priority', prompt.priority);
    mark(this.root, 'data-on', on);
    write(this.#kind, prompt.kind);
    write(this.#text, prompt.text);
    write(this.#evidence, prompt.evidence);
    const by = { [PROMPT.TAKEN]: `${prompt.by} is saying this`, [PROMPT.SAID]: `${prompt.by} said this` }[prompt.state] ?? '';
    write(this.#state, [on ? 'the viewers read this' : '', by].filter(Boolean).join('; '));
    mark(this.#mark, 'hidden', prompt.marks.length === 0);
    write(/** @type {Element} */ (this.#mark.lastElementChild), word);
    write(this.#word, on ? 'Take it off' : 'Show as text');
  }
}
