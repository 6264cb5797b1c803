// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('./stream.js').Card} Card */
/** @typedef {import('./stream.js').Filter} Filter */
import { byId, mark, write } from '../lib/dom.js';
import { arrange } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { CardView } from './card.js';

/** @typedef {(card: Card) => import('./card.js').Around} Around */

/** Column draws the cards in their places, what waits above them, and what is said when there are none. */
export class Column {
  /** @type {Map<string, CardView>} */ #views = new Map();
  #stream;
  #touch;
  #actions;
  #around;

  /**
   * @param {import('./stream.js').Stream} stream
   * @param {import('../surface/touch.js').Touch} touch
   * @param {import('./card.js').Actions} actions
   * @param {Around} around what a card has to know besides
   */
  constructor(stream, touch, actions, around) {
    this.#stream = stream;
    this.#touch = touch;
    this.#actions = actions;
    this.#around = around;
  }

  /** @param {Filter} filter @param {boolean} busy @param {boolean} heard whether any list has come */
  draw(filter, busy, heard) {
    const view = this.#stream.view(Date.now(), busy, filter);
    const roots = (/** @type {Card[]} */ cards) => cards.map((c) => this.#view(c).root);
    const lists = { cards: roots(view.cards), 'said-cards': roots(view.said), 'dropped-cards': roots(view.dropped), 'shelf-cards': roots(view.shelf) };
    for (const [id, list] of Object.entries(lists)) arrange(byId(id), list);
    this.#forget([view.cards, view.said, view.dropped, view.shelf].flat());
    this.#waiting(view.waiting, view.above);
    for (const name of /** @type {const} */ (['said', 'dropped'])) {
      mark(byId(name), 'hidden', view[name].length === 0);
      write(byId(`${name}-count`), String(view[name].length));
    }
    const open = view.cards.some((c) => !c.settled);
    mark(byId('empty'), 'hidden', open);
    if (!open) this.#empty(heard, this.#stream.hidden(filter));
    return view;
  }

  /** @param {number} now show time @param {number | null} lostAt show time @param {Map<number, Board>} boards */
  tick(now, lostAt, boards) {
    for (const view of this.#views.values()) {
      view.tick(now);
      view.draw(boards.get(view.board), now, lostAt);
    }
  }

  /** @param {Card} card */
  #view(card) {
    let view = this.#views.get(card.key);
    if (!view) this.#views.set(card.key, (view = new CardView(card, this.#actions)));
    view.update(card, this.#around(card));
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
