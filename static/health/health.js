// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Show} Show */
/** @typedef {import('../lib/wire.js').Feeds} FeedsFrame */
import { byId, mark, write } from '../lib/dom.js';
import { Live } from '../lib/live.js';
import { times } from '../surface/clocks.js';
import { Line } from '../surface/line.js';
import { boardsWords, rehearsal } from '../surface/words.js';
import { Feeds } from './feeds.js';
import { Games } from './games.js';
import { Links, onlyHere } from './links.js';
import { Pages } from './pages.js';
import { Verdict } from './verdict.js';

/** Wall milliseconds between looks at the clocks; text changes once a second. */
const TICK_MS = 250;

/** The health page: how the viewers are, and why. */
class Health {
  #line = new Line(byId('lost'));
  #verdict = new Verdict();
  #feeds = new Feeds(byId('feeds'), byId('no-feeds'));
  #pages = new Pages(byId('pages'), byId('pages-words'));
  #games = new Games(byId('games'), byId('no-games'));
  #links = new Links(byId('links'));
  /** @type {Map<number, Board>} */ #held = new Map();
  /** @type {Show | null} */ #show = null;
  #second = -1; // none yet

  start() {
    mark(byId('only-here'), 'hidden', !onlyHere(location.hostname));
    this.live = new Live({ page: 'health' }, {
      state: (s) => this.#state(/** @type {any} */ (s)),
      show: (f) => this.#heads(f),
      feeds: (f) => this.#feedsCame(f),
      pages: (f) => this.#pages.update(f.items),
      board: (b) => this.#board(b),
    });
    setInterval(() => this.#tick(), TICK_MS);
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#line.state(state, this.live?.time.now() ?? 0);
    write(byId('rate'), rehearsal(this.live?.time.rate ?? 1));
    this.#second = -1;
    this.#tick();
  }

  /** @param {Show} show */
  #heads(show) {
    this.#show = show;
    this.#verdict.show(show.title);
    write(byId('title'), show.title || 'Health');
    write(byId('running'), boardsWords(show.boards));
    this.#links.update(show.boards);
    this.#drawGames();
  }

  /** @param {FeedsFrame} frame */
  #feedsCame(frame) {
    this.#verdict.heard(frame);
    this.#feeds.update(frame.items);
    this.#second = -1;
    this.#tick();
  }

  /** @param {Board} board */
  #board(board) {
    this.#held.set(board.board, board);
    this.#drawGames();
  }

  #drawGames() {
    const boards = (this.#show?.boards ?? []).map((head) => this.#held.get(head.board));
    this.#games.update(/** @type {Board[]} */ (boards.filter((b) => b !== undefined)));
    this.#tick();
  }

  #tick() {
    this.#line.tick();
    if (this.#line.missing) this.#verdict.lost(this.#line.silentMs);
    const time = this.live?.time;
    if (!time?.known) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    this.#games.tick(t);
    const second = Math.floor(performance.now() / 1000);
    if (second === this.#second) return;
    this.#second = second;
    this.#feeds.tick(t);
  }
}

new Health().start();
