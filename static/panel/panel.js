// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Show} Show */
/** @typedef {import('../lib/wire.js').Prompts} Prompts */
/** @typedef {import('./stream.js').Card} Card */
import { Live } from '../lib/live.js';
import { Boards } from './boards.js';
import { CardView } from './card.js';
import { times } from './clocks.js';
import { write } from '../lib/dom.js';
import { arrange, byId, setAttribute } from './dom.js';
import { Filters } from './filters.js';
import { listen, next } from './keys.js';
import { Line } from './line.js';
import { Marks, tabStore } from './marks.js';
import { Speaker } from './speaker.js';
import { Stream } from './stream.js';
import { Touch } from './touch.js';
import { boardsWords, count, rehearsal } from './words.js';

/** Wall milliseconds between looks at the clocks; text changes once a second. */
const TICK_MS = 250;

/** The panel page: what the relay says, what is marked here, and the cards made of both. */
class Panel {
  #marks = new Marks(tabStore());
  #stream = new Stream(this.#marks);
  #touch = new Touch('article.card');
  #speaker = new Speaker(byId('spoken'));
  #line = new Line(byId('lost'));
  #filters = new Filters(byId('board-filters'), byId('kind-filters'), () => this.#filtered());
  #boards = new Boards(byId('boards'));
  /** @type {Map<number, Board>} */ #held = new Map();
  /** @type {Map<string, CardView>} */ #views = new Map();
  /** @type {Show | null} */ #show = null;
  #heard = false; // whether any list of prompts has come
  #actions = {
    said: (/** @type {string} */ key) => this.#mark(key, 'said'),
    drop: (/** @type {string} */ key) => this.#mark(key, 'dropped'),
    undo: (/** @type {string} */ key) => this.#unmark(key),
    why: (/** @type {number} */ board) => this.#boards.unfold(board),
  };

  start() {
    this.live = new Live({ page: 'panel' }, {
      state: (s) => this.#state(/** @type {any} */ (s)),
      show: (f) => this.#heads(f),
      prompts: (f) => this.#prompts(f),
      board: (b) => this.#board(b),
    });
    byId('new').addEventListener('click', () => this.#letGo());
    byId('bring-back').addEventListener('click', () => this.#bringBack());
    byId('show-all').addEventListener('click', () => this.#filters.clear());
    this.#keys();
    setInterval(() => this.#draw(), TICK_MS);
    this.#draw();
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#line.state(state, this.live?.time.now() ?? 0);
    write(byId('rate'), rehearsal(this.live?.time.rate ?? 1));
    this.#draw();
  }

  /** @param {Show} show */
  #heads(show) {
    this.#show = show;
    write(byId('title'), show.title);
    write(byId('running'), boardsWords(show.boards));
    document.title = `Panel, ${show.title}`;
    this.#filters.heads(show.boards);
    this.#drawBoards();
  }

  /** @param {Prompts} frame */
  #prompts(frame) {
    this.#heard = true;
    this.#stream.receive(frame.items, Date.now());
    this.#speaker.hear(frame.items);
    this.#draw();
  }

  /** @param {Board} board */
  #board(board) {
    this.#held.set(board.board, board);
    this.#drawBoards();
  }

  #filtered() {
    this.#drawBoards();
    this.#boards.unfold(this.#filters.filter.board);
    this.#draw(false); // whoever filters wants to see it now
  }

  /** @param {string} key @param {'said' | 'dropped'} kind */
  #mark(key, kind) {
    this.#marks.set(key, kind, Date.now());
    this.#redraw(key);
  }

  /** @param {string} key */
  #unmark(key) {
    this.#marks.clear(key);
    this.#redraw(key);
  }

  /** A button that had the focus goes with its state; its card keeps the focus. @param {string} key */
  #redraw(key) {
    const card = this.#touch.card;
    this.#draw();
    const root = this.#views.get(key)?.root;
    if (card && card === root && document.activeElement?.closest('[hidden]')) card.focus({ preventScroll: true });
  }

  #bringBack() {
    for (const key of this.#stream.dropped()) this.#marks.clear(key);
    this.#draw(false);
  }

  /** Show what waits, whoever stands on a card. */
  #letGo() {
    this.#draw(false);
    return true;
  }

  #drawBoards() {
    const { board } = this.#filters.filter;
    const heads = this.#show?.boards ?? [];
    const boards = heads.map((h) => this.#held.get(h.board)).filter((b) => b !== undefined && (board === 0 || b.board === board));
    setAttribute(byId('aside'), 'hidden', boards.length === 0);
    this.#boards.update(/** @type {Board[]} */ (boards), heads.length);
    this.#tick();
  }

  #draw(busy = this.#touch.busy) {
    const { cards, waiting } = this.#stream.view(Date.now(), busy, this.#filters.filter);
    const views = cards.map((card) => this.#view(card));
    const settled = (/** @type {boolean} */ yes) => views.filter((_, i) => cards[i].settled === yes).map((v) => v.root);
    arrange(byId('cards'), settled(false));
    arrange(byId('said-cards'), settled(true));
    setAttribute(byId('said'), 'hidden', settled(true).length === 0);
    write(byId('said-count'), String(settled(true).length));
    this.#forget(cards);
    this.#waiting(waiting);
    this.#empty(settled(false).length);
    this.#filters.counts(this.#stream.counts());
    this.#tick();
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

  /** @param {number} waiting */
  #waiting(waiting) {
    setAttribute(byId('new'), 'hidden', waiting === 0);
    if (waiting === 0) return;
    write(byId('new-count'), `${waiting} new`);
    write(byId('new-how'), this.#touch.down ? 'comes when you let go' : 'show now');
  }

  /** @param {number} shown */
  #empty(shown) {
    const dropped = this.#stream.dropped().filter((key) => !this.#views.has(key)).length;
    setAttribute(byId('bring-back'), 'hidden', dropped === 0);
    write(byId('bring-back'), `Bring back ${count(dropped, 'dropped', 'dropped')} on this screen`);
    let elsewhere = 0;
    for (const c of this.#stream.counts().values()) elsewhere += c.open;
    setAttribute(byId('empty'), 'hidden', shown > 0);
    setAttribute(byId('show-all'), 'hidden', elsewhere === 0);
    write(byId('empty-head'), this.#heard ? 'Nothing to say right now' : 'Nothing heard yet');
    write(byId('empty-why'), this.#emptyWhy(elsewhere));
  }

  /** @param {number} elsewhere */
  #emptyWhy(elsewhere) {
    if (!this.#heard) return 'Sentences come here as soon as the relay is reached.';
    if (elsewhere > 0) return `The filter hides ${count(elsewhere, 'sentence')}.`;
    return 'A sentence comes here when the clocks tell something worth saying.';
  }

  #tick() {
    this.#line.tick();
    const time = this.live?.time;
    if (!time?.known) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    const wall = Date.now();
    this.#boards.tick(t);
    this.#filters.draw(this.#held, t.now, t.lostAt);
    for (const view of this.#views.values()) {
      view.tick(t.now, wall);
      view.draw(this.#held.get(view.board), t.now, t.lostAt);
    }
  }

  #keys() {
    const act = (/** @type {string} */ name) => () => {
      const button = this.#touch.card?.querySelector(`[data-action="${name}"]`);
      if (!(button instanceof HTMLElement) || button.closest('[hidden]')) return false;
      button.click();
      return true;
    };
    listen({
      ArrowDown: () => this.#go(1),
      ArrowUp: () => this.#go(-1),
      S: act('said'),
      D: act('drop'),
      U: () => act('undo')() || this.#undo(),
      N: () => this.#letGo(),
      '?': () => this.#help(),
      Escape: () => this.#leave(),
    });
  }

  /** @param {1 | -1} step */
  #go(step) {
    const cards = /** @type {HTMLElement[]} */ ([...document.querySelectorAll('article.card')]).filter((c) => c.offsetParent);
    const card = next(cards, this.#touch.card, step);
    card?.focus({ preventScroll: true });
    card?.scrollIntoView({ block: 'nearest' });
    return card !== undefined;
  }

  #undo() {
    const key = this.#marks.undo((k) => this.#stream.holds(k));
    if (key !== undefined) this.#redraw(key);
    return key !== undefined;
  }

  #help() {
    const help = byId('help');
    setAttribute(help, 'data-open', help.hasAttribute('data-open') ? null : true);
    return true;
  }

  #leave() {
    this.#touch.card?.focus();
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    return true;
  }
}

new Panel().start();
