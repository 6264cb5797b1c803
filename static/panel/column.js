// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('./stream.js').Card} Card */
/** @typedef {import('./stream.js').Filter} Filter */
import { byId, mark, write } from '../lib/dom.js';
import { CardView } from './card.js';
import { CARD } from './stream.js';
import { arrange } from '../surface/dom.js';
import { count } from '../surface/words.js';

/** Column draws the cards, what waits above them, and what is said when there are none. */
export class Column {
  /** @type {Map<string, CardView>} */ #views = new Map();
  #stream;
  #touch;
  #actions;

  /**
   * @param {import('./stream.js').Stream} stream
   * @param {import('./touch.js').Touch} touch
   * @param {import('./card.js').Actions} actions
   */
  constructor(stream, touch, actions) {
    this.#stream = stream;
    this.#touch = touch;
    this.#actions = actions;
  }

  /** @param {Filter} filter @param {boolean} busy @param {boolean} heard whether any list has come */
  draw(filter, busy, heard) {
    const { cards, waiting, above } = this.#stream.view(Date.now(), busy, filter);
    this.#arrange(cards);
    this.#forget(cards);
    this.#waiting(waiting, above);
    this.#dropped();
    const open = cards.some((c) => !c.settled);
    mark(byId('empty'), 'hidden', open);
    if (!open) this.#empty(heard, this.#stream.hidden(filter));
  }

  /** @param {number} now show time @param {number | null} lostAt show time @param {Map<number, Board>} boards */
  tick(now, lostAt, boards) {
    const wall = Date.now();
    for (const view of this.#views.values()) {
      view.tick(now, wall);
      view.draw(boards.get(view.board), now, lostAt);
    }
  }

  /** @param {Card[]} cards in order */
  #arrange(cards) {
    const roots = (/** @type {boolean} */ said) =>
      cards.filter((c) => (c.settled && c.state === CARD.SAID) === said).map((c) => this.#view(c).root);
    const said = roots(true);
    arrange(byId('cards'), roots(false));
    arrange(byId('said-cards'), said);
    mark(byId('said'), 'hidden', said.length === 0);
    write(byId('said-count'), String(said.length));
  }

  /** @param {Card} card */
  #view(card) {
    let view = this.#views.get(card.key);
    if (!view) this.#views.set(card.key, (view = new CardView(card, this.#actions)));
    view.update(card);
    return view;
  }

  /** @param {Card[]} cards */
  #forget(cards) {
    const keys = new Set(cards.map((c) => c.key));
    for (const key of this.#views.keys()) if (!keys.has(key)) this.#views.delete(key);
  }

  /** @param {number} waiting @param {boolean} above */
  #waiting(waiting, above) {
    mark(byId('new'), 'hidden', waiting === 0);
    if (waiting === 0) return;
    write(byId('new-count'), `${waiting} new`);
    mark(byId('new'), 'data-below', !above);
    write(byId('new-where'), above ? 'above,' : 'below,');
    write(byId('new-how'), this.#touch.down ? 'comes when you let go' : 'show now');
  }

  #dropped() {
    const dropped = this.#stream.dropped().filter((key) => !this.#views.has(key)).length;
    mark(byId('bring-back'), 'hidden', dropped === 0);
    write(byId('bring-back'), `Bring back ${count(dropped, 'dropped', 'dropped')} on this screen`);
  }

  /** @param {boolean} heard @param {number} hidden by the filter */
  #empty(heard, hidden) {
    mark(byId('show-all'), 'hidden', hidden === 0);
    write(byId('empty-head'), heard ? 'Nothing to say right now' : 'Nothing heard yet');
    write(byId('empty-why'), emptyWhy(heard, hidden));
  }
}

/** @param {boolean} heard @param {number} hidden */
function emptyWhy(heard, hidden) {
  if (!heard) return 'Sentences come here as soon as the relay is reached.';
  if (hidden > 0) return `The filter hides ${count(hidden, 'sentence')}.`;
  return 'A sentence comes here when there is something worth saying.';
}
