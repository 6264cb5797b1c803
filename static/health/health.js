// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Show} Show */
/** @typedef {import('../lib/wire.js').Sources} Sources */
/** @typedef {import('../lib/wire.js').Feeds} FeedsFrame */
/** @typedef {import('../surface/heads.js').Head} Head */
import { byId, mark, write } from '../lib/dom.js';
import { Live } from '../lib/live.js';
import { times } from '../surface/clocks.js';
import { Heads } from '../surface/heads.js';
import { Line } from '../surface/line.js';
import { boardsWords, rehearsal } from '../surface/words.js';
import { Access } from './access.js';
import { Begin } from './begin.js';
import { Boards } from './boards.js';
import { Builder } from './builder.js';
import { Charts } from './charts.js';
import { EngineLine } from './engine.js';
import { Feeds } from './feeds.js';
import { Holds } from './holds.js';
import { JournalView } from './journal.js';
import { Links, onlyHere } from './links.js';
import { LogView } from './logview.js';
import { LookedUp } from './lookedup.js';
import { Pages } from './pages.js';
import { poster } from '../surface/post.js';
import { Quiet } from './quiet.js';
import { Sharing } from './sharing.js';
import { StartMark } from './startmark.js';
import { Verdict } from './verdict.js';

/** Wall milliseconds between looks at the clocks; text changes once a second. */
const TICK_MS = 250;

/** The health page: how the viewers are, and why; and what the producer does about it by hand. */
class Health {
  #post = poster('/by-hand');
  #line = new Line(byId('lost'));
  #verdict = new Verdict();
  #feeds = new Feeds(byId('feeds'), byId('no-feeds'));
  #pages = new Pages(byId('pages'), byId('pages-words'));
  #charts = new Charts();
  #links = new Links(byId('links'));
  #builder = new Builder(location.origin);
  #access = new Access((token) => this.#viewers(token));
  #holds = new Holds(this.#post);
  #quiet = new Quiet(this.#post);
  #journal = new JournalView(byId('journal'));
  #sharing = new Sharing();
  #lookedUp = new LookedUp(byId('reference'));
  #engine = new EngineLine(byId('engine'));
  #other = new EngineLine(byId('second-engine'), true);
  #boards = new Boards(this.#post);
  #log = new LogView((board) => this.#held.get(board));
  /** @type {Map<number, Board>} */ #held = new Map();
  #heads = new Heads((heads) => this.#listed(heads));
  #begun = 0; // number of a board begun by hand that is not there yet
  #second = -1; // none yet

  start() {
    mark(byId('only-here'), 'hidden', !onlyHere(location.hostname));
    new StartMark(this.#post, () => (this.live?.time.known ? this.live.time.now() : undefined));
    new Begin(this.#post, () => this.#boards.count + 1, (board) => this.#begin(board));
    this.live = new Live({ page: 'health' }, {
      welcome: (f) => {
        this.#log.welcome(f.run);
        void this.#access.ask();
      },
      state: (s) => this.#state(/** @type {any} */ (s)),
      show: (f) => this.#show(f),
      feeds: (f) => this.#feedsCame(f),
      sources: (f) => this.#sources(f),
      log: (f) => this.#log.receive(f),
      pages: (f) => this.#pagesCame(f),
      holds: (f) => this.#holdsCame(f),
      board: (b) => this.#board(b),
    });
    setInterval(() => this.#tick(), TICK_MS);
  }

  /** The addresses of scenes hold the viewers' token. @param {string} token */
  #viewers(token) {
    this.#links.token(token);
    this.#builder.token(token);
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#line.state(state, this.live?.time.now() ?? 0);
    write(byId('rate'), rehearsal(this.live?.time.rate ?? 1));
    this.#second = -1;
    this.#tick();
  }

  /** @param {Show} show */
  #show(show) {
    this.#verdict.show(show.title);
    write(byId('title'), show.title || 'Health');
    this.#lookedUp.update(show.reference);
    this.#quiet.update(show.quiet);
    this.#heads.show(show);
  }

  /** @param {Head[]} heads */
  #listed(heads) {
    write(byId('running'), boardsWords(heads));
    this.#links.update(heads);
    this.#builder.boards(heads);
    this.#log.heads(heads);
  }

  /** @param {FeedsFrame} frame */
  #feedsCame(frame) {
    this.#verdict.heard(frame);
    this.#feeds.update(frame);
    this.#engine.update(frame.engine, this.live?.time.now() ?? 0);
    this.#other.update(frame.second, this.live?.time.now() ?? 0);
    this.#journal.update(frame.journal, frame.verdict, frame.bus.role);
    this.#sharing.update(frame.bus, frame.verdict);
    this.#second = -1;
    this.#tick();
  }

  /** @param {import('../lib/wire.js').Pages} frame */
  #pagesCame(frame) {
    this.#pages.update(frame);
    this.#access.pages(frame.count);
    this.#holds.pages(frame);
    this.#charts.late(frame.late);
  }

  /** @param {import('../lib/wire.js').Holds} frame */
  #holdsCame(frame) {
    this.#holds.update(frame);
    this.#builder.holds(frame);
  }

  /** @param {Board} board */
  #board(board) {
    this.#held.set(board.board, board);
    this.#boards.board(board);
    this.#heads.board(board);
    this.#tick();
  }

  /** @param {Sources} frame */
  #sources(frame) {
    this.#boards.sources(frame);
    this.#charts.errors(frame);
    if (this.#begun > 0) this.#begin(this.#begun);
    this.#tick();
  }

  /** Open a board begun by hand, now or when the relay tells of it. @param {number} board */
  #begin(board) {
    this.#begun = this.#boards.unfold(board) ? 0 : board;
  }

  #tick() {
    this.#line.tick();
    if (this.#line.missing) this.#verdict.lost(this.#line.silentMs);
    const time = this.live?.time;
    if (!time?.known) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    this.#boards.tick(t);
    const second = Math.floor(performance.now() / 1000);
    if (second === this.#second) return;
    this.#second = second;
    this.#feeds.tick(t);
    this.#charts.tick(time.now());
    this.#engine.tick(t.now);
    this.#other.tick(t.now);
  }
}

new Health().start();
