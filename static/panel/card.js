// @ts-check
/** @typedef {import('./stream.js').Card} Card */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { Lane } from './lane.js';
import { CARD } from './stream.js';
import { age, ago } from '../surface/words.js';

/** @typedef {{said: (key: string) => void, drop: (key: string) => void, undo: (key: string) => void, why: (board: number, games: boolean) => void}} Actions */

/** @type {Map<string, string>} */
const ENDED = new Map([
  [CARD.WITHDRAWN, 'no longer true'],
  [CARD.GONE, 'no longer on the relay’s list'],
]);
/** @type {Map<string, string>} */
const DONE = new Map([
  [CARD.SAID, 'Said on this screen'],
  [CARD.DROPPED, 'Dropped on this screen'],
]);

/** Whether a card's sentence is to be said no more. @param {string} state */
export const isOver = (state) => ENDED.has(state);

let cards = 0; // for ids of this page

/** A prompt on the panel: large to be said, a line when it was. */
export class CardView {
  #card;
  #age = el('span', { class: 'age' });
  #ends = el('span', { class: 'ends' });
  #about = el('span', { class: 'about' });
  #sentence = el('h3', { class: 'sentence', dir: 'auto' });
  #evidence = el('p', { class: 'evidence', dir: 'auto' });
  #done = el('strong');
  #again = el('span', { dir: 'auto' });
  #lane = new Lane('lane', { size: 'card', motion: false });
  #full;
  #line;
  #said;
  #drop;
  #undo;
  #why;

  /** @param {Card} card @param {Actions} actions */
  constructor(card, actions) {
    this.#card = card;
    const { key, prompt } = card;
    this.#sentence.id = `sentence-${++cards}`;
    const now = el('span', { class: 'plate' }, 'now');
    const left = el('span', { class: 'what' }, now, icon(prompt.kind), this.#about);
    const meta = el('header', { class: 'meta' }, left, el('span', { class: 'life' }, this.#age, this.#ends));
    const about = this.#sentence.id;
    this.#said = action('said', 'Said', about, () => actions.said(key));
    this.#drop = action('drop', 'Drop', about, () => actions.drop(key));
    this.#why = el('a', { class: 'button', 'aria-describedby': about });
    this.#why.addEventListener('click', () => actions.why(prompt.board, prompt.kind === 'reference'));
    const buttons = el('div', { class: 'actions' }, this.#said, this.#drop, this.#why);
    this.#full = el('div', { class: 'full' }, meta, this.#sentence, this.#lane.root, this.#evidence, buttons);
    this.#undo = action('undo', 'Undo', about, () => actions.undo(key));
    this.#line = el('div', { class: 'line' }, icon('said'), el('p', {}, this.#done, ' ', this.#again), this.#undo);
    this.root = el('article', { class: 'card', tabindex: -1, 'aria-labelledby': about }, this.#full, this.#line);
  }

  get board() {
    return this.#card.prompt.board;
  }

  /** @param {Card} card */
  update(card) {
    this.#card = card;
    const { prompt, state, settled } = card;
    const over = isOver(state);
    const short = DONE.has(state) || (over && settled);
    mark(this.root, 'data-prompt', prompt.key);
    mark(this.root, 'data-kind', prompt.kind);
    mark(this.root, 'data-priority', prompt.priority);
    mark(this.root, 'data-state', state);
    mark(this.root, 'data-settled', settled);
    mark(this.#full, 'hidden', short);
    mark(this.#line, 'hidden', !short);
    for (const button of [this.#said, this.#drop]) mark(button, 'disabled', over);
    mark(this.#undo, 'hidden', over);
    write(this.#about, `${prompt.kind}, ${prompt.board ? `board ${prompt.board}` : 'the whole show'}`);
    write(this.#sentence, prompt.text);
    write(this.#again, prompt.text);
    write(this.#evidence, prompt.evidence);
    mark(this.#evidence, 'hidden', prompt.evidence === '');
    write(this.#ends, ENDED.get(state) ?? (prompt.ends ? `goes ${prompt.ends}` : ''));
    this.#reason();
  }

  /** @param {number} show show time @param {number} wall wall time */
  tick(show, wall) {
    const { prompt, state, markedAt } = this.#card;
    if (isOver(state)) write(this.#done, ENDED.get(state) ?? '');
    if (DONE.has(state)) return write(this.#done, `${DONE.get(state)}, ${ago(wall - markedAt)}.`);
    write(this.#age, `${age(show - prompt.at)} old`);
  }

  /** The times of the board the sentence speaks of. @param {import('../lib/wire.js').Board | undefined} board @param {number} now @param {number | null} lostAt */
  draw(board, now, lostAt) {
    const { prompt, state, settled } = this.#card;
    const large = state === CARD.OPEN || (isOver(state) && !settled);
    this.#lane.draw(large && prompt.side !== '' ? board : undefined, now, lostAt);
  }

  /** Where the reasons stand: at the board, at its games of the reference, or on the health page. */
  #reason() {
    const { kind, board } = this.#card.prompt;
    const feeds = kind === 'feed' || board === 0;
    const games = !feeds && kind === 'reference';
    const href = feeds ? '/health' : `#${games ? 'known' : 'board'}-${board}`;
    if (this.#why.getAttribute('href') === href) return;
    mark(this.#why, 'href', href);
    mark(this.#why, 'target', feeds && '_blank');
    this.#why.replaceChildren(icon('why'), el('span', {}, feeds ? 'Health' : games ? 'Games' : 'Why'));
  }
}

/** @param {string} name @param {string} word @param {string} about id of the sentence @param {() => void} run */
function action(name, word, about, run) {
  const attributes = { type: 'button', class: 'button', 'data-action': name, 'aria-describedby': about };
  const button = el('button', attributes, icon(name), el('span', {}, word));
  button.addEventListener('click', run);
  return button;
}
