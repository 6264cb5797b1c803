// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Show} Show */
/** @typedef {import('../lib/wire.js').Prompts} Prompts */
import { byId, mark, write } from '../lib/dom.js';
import { Live } from '../lib/live.js';
import { Boards } from './boards.js';
import { isOver } from './card.js';
import { times } from '../surface/clocks.js';
import { Column } from './column.js';
import { Filters } from './filters.js';
import { listen, next } from './keys.js';
import { Line } from '../surface/line.js';
import { MatchView } from './match.js';
import { Marks, tabStore } from './marks.js';
import { keepPlace } from './place.js';
import { Speaker } from './speaker.js';
import { Stream } from './stream.js';
import { Touch } from './touch.js';
import { boardsWords, rehearsal } from '../surface/words.js';

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
  #boards = new Boards(byId('boards'), byId('reference'));
  #match = new MatchView(byId('match'), byId('match-more'));
  /** @type {Map<number, Board>} */ #held = new Map();
  /** @type {Show | null} */ #show = null;
  #heard = false; // whether any list of prompts has come
  #actions = {
    said: (/** @type {string} */ key) => this.#mark(key, 'said'),
    drop: (/** @type {string} */ key) => this.#mark(key, 'dropped'),
    undo: (/** @type {string} */ key) => this.#unmark(key),
    why: (/** @type {number} */ board, /** @type {boolean} */ games) => this.#boards.unfold(board, games),
  };
  #column = new Column(this.#stream, this.#touch, this.#actions);

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
    byId('keys').addEventListener('click', () => this.#help());
    this.#help(matchMedia('(hover: hover) and (pointer: fine)').matches); // a tablet rarely has keys
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
    write(byId('title'), show.title || 'Panel');
    write(byId('running'), boardsWords(show.boards));
    document.title = show.title ? `Panel, ${show.title}` : 'Panel';
    this.#match.update(show.match);
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
    this.#draw();
  }

  /** @param {string} key */
  #unmark(key) {
    this.#marks.clear(key);
    this.#draw(false); // whoever takes back wants to see it now
  }

  #bringBack() {
    for (const key of this.#stream.dropped()) this.#marks.clear(key);
    this.#draw(false);
  }

  /** Show what waits, whoever is at the cards. */
  #letGo() {
    this.#draw(false);
    return true;
  }

  #drawBoards() {
    const { board } = this.#filters.filter;
    const heads = this.#show?.boards ?? [];
    const boards = heads.map((h) => this.#held.get(h.board)).filter((b) => b !== undefined && (board === 0 || b.board === board));
    mark(byId('aside'), 'hidden', boards.length === 0);
    this.#boards.update(/** @type {Board[]} */ (boards), heads.length, this.#show?.reference ?? null, this.#show?.match ?? null);
    this.#tick();
  }

  #draw(busy = this.#touch.busy) {
    keepPlace(this.#touch.card, () => {
      this.#column.draw(this.#filters.filter, busy, this.#heard);
      this.#filters.counts(this.#stream.counts());
      this.#tick();
    });
  }

  #tick() {
    this.#line.tick();
    const time = this.live?.time;
    if (!time?.known) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    this.#boards.tick(t);
    this.#filters.draw(this.#held, t.now, t.lostAt);
    this.#column.tick(t.now, t.lostAt, this.#held);
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
      R: () => this.#boards.turnReference(),
      '?': () => this.#help(),
      Escape: () => this.#leave(),
    });
  }

  /** @param {1 | -1} step */
  #go(step) {
    const from = this.#touch.card;
    const alive = (/** @type {HTMLElement} */ c) => c === from || (c.offsetParent !== null && !isOver(c.dataset.state ?? ''));
    const cards = /** @type {HTMLElement[]} */ ([...document.querySelectorAll('article.card')]).filter(alive);
    const card = next(cards, from, step);
    card?.focus({ preventScroll: true });
    card?.scrollIntoView({ block: 'nearest' });
    return card !== undefined;
  }

  #undo() {
    const key = this.#marks.undo((k) => this.#stream.holds(k));
    if (key !== undefined) this.#draw(false);
    return key !== undefined;
  }

  /** Show or hide what the keys do. */
  #help(open = byId('help').hidden) {
    mark(byId('help'), 'hidden', !open);
    mark(byId('keys'), 'aria-expanded', String(open));
    return true;
  }

  #leave() {
    this.#touch.card?.focus();
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    return true;
  }
}

new Panel().start();
