// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Show} Show */
/** @typedef {import('./stream.js').Card} Card */
import { byId, mark, write } from '../lib/dom.js';
import { Live } from '../lib/live.js';
import { PRIORITY, PROMPT, TYPE } from '../lib/wire.js';
import { times } from '../surface/clocks.js';
import { Heads } from '../surface/heads.js';
import { Line } from '../surface/line.js';
import { poster } from '../surface/post.js';
import { boardsWords, rehearsal } from '../surface/words.js';
import { Acts } from './acts.js';
import { Boards } from './boards.js';
import { conflictWords } from './cardwords.js';
import { Column } from './column.js';
import { Filters } from './filters.js';
import { useKeys } from './hands.js';
import { MatchView } from './match.js';
import { Notes } from './notes.js';
import { OnAir, airNews } from './onair.js';
import { People } from '../surface/people.js';
import { keepPlace } from './place.js';
import { Shelf } from './shelf.js';
import { Speaker } from './speaker.js';
import { localStore } from '../surface/stores.js';
import { Stream } from './stream.js';
import { Tabs } from './tabs.js';
import { Touch } from '../surface/touch.js';
import { Trouble, refusedWords } from './trouble.js';

/** Wall milliseconds between looks at the clocks; text changes once a second. */
const TICK_MS = 250;

/** The panel page: what the co-hosts share, and the cards made of it. */
class Panel {
  #post = poster('/at-panel');
  #acts = new Acts(this.#post, localStore(), {
    now: () => this.live?.time.now() ?? Date.now(),
    asMe: (then, what) => this.#people.asMe(then, what),
    changed: () => this.#draw(),
    refused: (act, error) => this.#refused(act, error),
  });
  #stream = new Stream((p) => this.#acts.shared.use(p), () => this.#people.me);
  #touch = new Touch('article.card');
  #speaker = new Speaker(byId('spoken'));
  #trouble = new Trouble((text) => this.#speaker.say(text));
  #line = new Line(byId('lost'));
  #people = new People(localStore(), () => this.#sit());
  #filters = new Filters(byId('board-filters'), () => this.#filtered());
  #boards = new Boards(byId('boards'), byId('reference'));
  #match = new MatchView(byId('match'), byId('match-more'));
  #notes = new Notes({ note: (text) => this.#acts.note(text), wipe: (id) => this.#acts.wipe(id), air: (text) => this.#acts.air(text) });
  #onAir = new OnAir(() => this.#acts.off());
  #shelf = new Shelf();
  #tabs = new Tabs();
  /** @type {Map<number, Board>} */ #held = new Map();
  #heads = new Heads((heads) => this.#listed(heads));
  /** @type {Show | null} */ #show = null;
  /** @type {import('../lib/wire.js').Opinions | null} */ #opinions = null;
  #heard = false; // whether any list of prompts has come
  #column = new Column(this.#stream, this.#touch, {
    act: (name, key) => this.#acts.prompt(name, key),
    why: (board, games) => this.#boards.unfold(board, games),
  }, (card) => this.#around(card));

  start() {
    this.live = new Live({ page: 'panel' }, {
      state: (s) => this.#state(/** @type {any} */ (s)),
      show: (f) => this.#showCame(f),
      prompts: (f) => this.#prompts(f),
      board: (b) => this.#board(b),
      table: (f) => this.#news(() => this.#acts.shared.table(f)),
      caption: (f) => this.#caption(f),
      people: (f) => this.#people.heard(f.names),
      opinions: (f) => ((this.#opinions = f), this.#drawBoards()),
    });
    byId('new').addEventListener('click', () => this.#draw(false));
    byId('show-all').addEventListener('click', () => this.#filters.clear());
    useKeys({
      card: () => this.#touch.card,
      undo: () => this.#acts.undo((key) => this.#canUndo(key)),
      off: () => this.#acts.shared.air().caption !== null && (this.#acts.off(), true),
      showNew: () => (this.#draw(false), true),
      note: () => (this.#tabs.show('notes'), this.#notes.focus(), true),
      reference: () => this.#boards.turnReference(),
    });
    keepRoom(byId('dock'), byId('bar'));
    setInterval(() => this.#draw(), TICK_MS);
    this.#draw();
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#line.state(state, this.live?.time.now() ?? 0);
    write(byId('rate'), rehearsal(this.live?.time.rate ?? 1));
    if (state === 'open') this.#sit();
    if (state === 'open') this.#acts.outbox.send();
    this.#draw();
  }

  /** Say who sits here. */
  #sit() {
    this.live?.send({ type: TYPE.WHO, name: this.#people.me });
    this.#draw();
  }

  /** @param {Show} show */
  #showCame(show) {
    this.#show = show;
    write(byId('title'), show.title || 'Panel');
    document.title = show.title ? `Panel, ${show.title}` : 'Panel';
    this.#match.update(show.match);
    this.#heads.show(show);
    this.#drawBoards();
  }

  /** @param {import('../surface/heads.js').Head[]} heads */
  #listed(heads) {
    write(byId('running'), boardsWords(heads));
    this.#filters.heads(heads);
  }

  /** @param {import('../lib/wire.js').Prompts} frame */
  #prompts(frame) {
    this.#heard = true;
    this.#acts.shared.receive(frame.items);
    this.#stream.receive(frame.items, Date.now());
    this.#speaker.hear(frame.items);
    this.#draw();
  }

  /** @param {import('../lib/wire.js').CaptionFrame} frame */
  #caption(frame) {
    const was = this.#acts.shared.air().caption;
    const news = airNews(was, frame.caption, this.#people.me);
    if (news) this.#speaker.say(news);
    this.#news(() => this.#acts.shared.caption(frame));
  }

  /** @param {() => void} take */
  #news(take) {
    take();
    this.#draw();
  }

  /** @param {import('./outbox.js').Act} act @param {string} error */
  #refused(act, error) {
    const prompt = this.#stream.prompt(act.prompt);
    if (!prompt || !this.#stream.shows(act.prompt)) return this.#trouble.refused(refusedWords(act, prompt?.text ?? act.text, error));
    this.#speaker.say(`${conflictWords(this.#acts.shared.use(prompt), error, this.#people.me, this.live?.time.now() ?? 0)} ${prompt.text}`);
  }

  /** @param {Board} board */
  #board(board) {
    this.#held.set(board.board, board);
    this.#heads.board(board);
    this.#drawBoards();
  }

  #filtered() {
    this.#drawBoards();
    this.#boards.unfold(this.#filters.filter.board);
    this.#draw(false); // whoever filters wants to see it now
  }

  /** @param {string} key */
  #canUndo(key) {
    const prompt = this.#stream.prompt(key);
    const use = prompt && this.#acts.shared.use(prompt);
    return use !== undefined && use.state !== PROMPT.OPEN && use.by === this.#people.me;
  }

  /** What a card has to know besides. @param {Card} card @returns {import('./card.js').Around} */
  #around({ key }) {
    const { caption, to } = this.#acts.shared.air();
    const on = caption?.key === key;
    const aired = on ? (to?.act === 'off' ? 'leaving' : 'on') : to?.act === 'air' && to.prompt === key ? 'coming' : '';
    return { me: this.#people.me, aired, airedBy: on ? caption.by : '', conflict: this.#acts.conflict(key) };
  }

  #drawBoards() {
    const { board } = this.#filters.filter;
    const count = this.#show?.boards ?? 0;
    const all = Array.from({ length: count }, (_, i) => this.#held.get(i + 1));
    const boards = all.filter((b) => b !== undefined && (board === 0 || b.board === board));
    mark(byId('aside'), 'hidden', boards.length === 0);
    this.#boards.update(/** @type {Board[]} */ (boards), count, this.#show?.reference ?? null, this.#show?.match ?? null, this.#opinions);
    this.#tick();
  }

  #draw(busy = this.#touch.busy) {
    keepPlace(this.#touch.card, () => {
      const { cards, shelf } = this.#column.draw(this.#filters.filter, busy, this.#heard);
      const counts = this.#stream.counts();
      this.#filters.counts(counts);
      this.#shelf.update(shelf);
      this.#shelf.draw(busy);
      const open = [...counts.values()].reduce((n, c) => n + c.open, 0);
      const now = cards.some((c) => c.prompt.priority === PRIORITY.NOW && c.use.state === PROMPT.OPEN && c.end === '');
      this.#notes.update(this.#acts.shared.notes(), this.#people.me);
      this.#tabs.update({ prompts: open, pinned: shelf.length, notes: this.#notes.count }, { prompts: now, pinned: shelf.some((c) => c.end !== '') });
      this.#air();
      this.#trouble.update(this.#acts.outbox);
      this.#tick();
    });
  }

  #air() {
    const air = this.#acts.shared.air();
    const text = air.to?.text || (air.to && this.#stream.prompt(air.to.prompt)?.text) || '';
    this.#onAir.update(air, text, this.#people.me);
  }

  #tick() {
    this.#line.tick();
    const time = this.live?.time;
    if (!time?.known) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    this.#boards.tick(t);
    this.#filters.draw(this.#held, t.now, t.lostAt);
    this.#column.tick(t.now, t.lostAt, this.#held);
    this.#onAir.tick(t.now);
  }
}

/** Keep free below the cards what stands over the page's foot: all of the dock, or on a phone its bar. @param {HTMLElement} dock @param {HTMLElement} bar */
function keepRoom(dock, bar) {
  const observer = new ResizeObserver(() => {
    const foot = getComputedStyle(dock).position === 'sticky' ? dock : bar;
    document.documentElement.style.setProperty('--dock', `${foot.offsetHeight}px`);
  });
  for (const part of [dock, bar]) observer.observe(part);
}

new Panel().start();
