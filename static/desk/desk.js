// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
/** @typedef {import('../lib/wire.js').Prompt} Prompt */
import { byId, mark, write } from '../lib/dom.js';
import { Live } from '../lib/live.js';
import { TYPE } from '../lib/wire.js';
import { times } from '../surface/clocks.js';
import { Line } from '../surface/line.js';
import { People } from '../surface/people.js';
import { poster } from '../surface/post.js';
import { newID, refusal } from '../surface/retry.js';
import { localStore } from '../surface/stores.js';
import { rehearsal } from '../surface/words.js';
import { Acts } from './acts.js';
import { askFields, askPromotion } from './dialogs.js';
import { useKeys } from './hands.js';
import { showHelp } from './help.js';
import { keyWords } from './keymap.js';
import { Notice } from './notice.js';
import { Parts } from './parts.js';
import { RibbonView } from './ribbon.js';
import { ribbon } from './ribbonwords.js';
import { Table } from './table.js';
import { KIND, markAction } from './tools.js';
import { news } from './heard.js';
import { nameOf } from './tree.js';

/** Wall milliseconds between looks at the clocks. */
const TICK_MS = 250;
/** Wall milliseconds until the table of actions is asked for again. */
const AGAIN_MS = 1500;

/** What is done about the lead is done whoever leads. */
const FREE = ['lead', 'ask-for-lead', 'hand-over'];

/** What is asked for though it may be left out, by action. @type {Record<string, string>} */
const ASKED = { 'go-to': 'ply' };

/** The desk page: what the commentators look at, show, mark and ask. */
class DeskPage {
  #panel = poster('/at-panel');
  #acts = new Acts((name, body) => poster(`/api/actions/${name}`)(body));
  #table = new Table(localStore());
  #notice = new Notice();
  #line = new Line(byId('lost'));
  #people = new People(localStore(), () => this.#sit(), 'Who are you? The others see who leads, and who puts on the air.');
  #ribbon = new RibbonView((name) => this.run(name));
  #parts;
  /** @type {Map<number, Board>} */ #boards = new Map();
  /** @type {Desk | null} */ #desk = null;
  /** @type {Prompt[]} */ #prompts = [];
  /** @type {import('../lib/wire.js').Caption | null} */ #caption = null;
  /** @type {import('../lib/wire.js').Opinions | null} */ #opinions = null;
  /** @type {import('../lib/wire.js').HoldGroup[]} */ #holds = [];
  #dragged = false;

  constructor() {
    this.#parts = new Parts({
      run: (name) => this.run(name),
      act: (name, fields) => this.act(name, fields),
      move: (from, to, dragged) => this.#move(from, to, dragged),
      draw: (kind, to, from) => this.act(markAction(kind), { to, from }),
      panel: (act, prompt) => this.#atPanel(act, prompt),
      title: this.#table.title,
      drawn: () => this.#draw(),
    });
  }

  start() {
    this.live = new Live({ page: 'desk' }, {
      state: (s) => this.#state(/** @type {any} */ (s)),
      show: (f) => this.#titles(f),
      board: (b) => (this.#boards.set(b.board, b), this.#draw()),
      desk: (f) => this.#heard(f),
      prompts: (f) => ((this.#prompts = f.items), this.#draw()),
      caption: (f) => ((this.#caption = f.caption), this.#draw()),
      opinions: (f) => ((this.#opinions = f), this.#draw()),
      people: (f) => this.#people.heard(f.names),
      holds: (f) => ((this.#holds = f.groups), this.#draw()),
    });
    useKeys(() => this.#table.keymap, (name) => this.run(name), { help: () => this.#help(), escape: () => this.#parts.escape(), opinion: () => this.#parts.opinion.turn() });
    byId('keys').addEventListener('click', () => this.#help());
    document.addEventListener('click', (e) => {
      const name = e.target instanceof Element && e.target.closest('[data-act]')?.getAttribute('data-act');
      if (name) this.run(name);
    });
    setInterval(() => this.#tick(), TICK_MS);
    void this.#load();
  }

  /** Do what a key or a button of an action asks for: at once, or after what it has to be told. @param {string} name */
  run(name) {
    const square = this.#parts.board.grid.focused;
    const kind = KIND[name];
    if (kind && square) return this.act(name, { to: square, from: this.#parts.board.held && this.#parts.board.held !== square ? this.#parts.board.held : '' });
    if (kind) return this.#parts.tools.choose(kind);
    if (name === 'play') return byId('type-move').focus();
    if (name === 'prepare-challenge') return this.#parts.challenge.unfold(true);
    if (name === 'reveal') return this.act(name, this.#parts.challenge.answer());
    const action = this.#table.action(name);
    const asked = action?.fields.filter((f) => f.required || ASKED[name] === f.name) ?? [];
    if (!action || asked.length === 0) return this.act(name, {});
    const named = this.#desk && name === 'name-line' ? nameOf(this.#desk.lines, this.#desk.place.move) : '';
    askFields({ ...action, fields: asked }, { text: named }, (fields) => this.act(name, fields));
  }

  /** @param {string} name @param {Partial<DeskAct>} fields */
  act(name, fields) {
    const lead = this.#desk?.lead ?? '';
    if (lead && lead !== this.#people.me && !FREE.includes(name) && this.#people.me) {
      return this.#notice.say(`Not done: ${lead} leads. ${this.#table.title('ask-for-lead')}, or take it.`);
    }
    this.#people.asMe((who) => void this.#send(name, { ...fields, who }), name);
  }

  /** @param {string} name @param {Partial<DeskAct>} fields */
  async #send(name, fields) {
    const why = await this.#acts.do(name, fields);
    if (!why) return this.#notice.clear();
    this.#dragged = false;
    this.#notice.say(why);
  }

  /** @param {string} from @param {string} to @param {boolean} dragged */
  #move(from, to, dragged) {
    const moves = (this.#desk?.moves ?? []).filter((m) => m.from === from && m.to === to);
    this.#dragged = dragged && moves.length > 0;
    const play = (/** @type {string} */ more) => this.act('play', { san: from + to + more });
    const choices = moves.map((m) => m.promotion).filter(Boolean);
    if (choices.length < 2) return play(choices[0] ?? ''); // what is not legal is refused with its reason
    const white = /[A-Z]/.test(this.#parts.board.men.get(from) ?? '');
    askPromotion(['q', 'r', 'b', 'n'].filter((c) => choices.includes(c)), white, play);
  }

  /** @param {'air' | 'off'} act @param {string} prompt */
  #atPanel(act, prompt) {
    this.#people.asMe((who) => void this.#sendPanel({ id: newID(), who, act, prompt, over: false, text: '', note: '' }), 'air');
  }

  /** @param {import('../lib/wire.js').PanelAct} act */
  async #sendPanel(act) {
    const answer = await this.#panel(JSON.stringify(act));
    if (!answer.done) this.#notice.say(`Not done. ${answer.status ? refusal(answer) : 'The relay was not reached.'}`);
  }

  async #load() {
    if (!(await this.#table.load())) return void setTimeout(() => void this.#load(), AGAIN_MS);
    this.#named();
  }

  /** Words and keys are known, or others. */
  #named() {
    this.#table.nameButtons();
    this.#parts.name(this.#table);
    this.#draw();
  }

  #help() {
    if (this.#table.keymap) showHelp(this.#table.actions, this.#table.keymap, (name) => this.run(name), () => this.#named());
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#line.state(state, this.live?.time.now() ?? 0);
    write(byId('rate'), rehearsal(this.live?.time.rate ?? 1));
    if (state === 'open') this.#sit();
    this.#draw();
  }

  #sit() {
    this.live?.send({ type: TYPE.WHO, name: this.#people.me });
    this.#draw();
  }

  /** @param {import('../lib/wire.js').Show} show */
  #titles(show) {
    write(byId('show-title'), show.title);
    write(byId('title'), show.title ? `Desk, ${show.title}` : 'Desk');
    document.title = byId('title').textContent ?? 'Desk';
  }

  /** @param {Desk} desk */
  #heard(desk) {
    const words = this.#desk && news(this.#desk, desk, this.#people.me);
    if (words) write(byId('spoken'), words);
    this.#desk = desk;
    this.#parts.moved(desk, !this.#dragged);
    this.#dragged = false;
    this.#draw();
  }

  #draw() {
    if (!this.#desk) return;
    this.#parts.update(this.#desk, this.#boards, { prompts: this.#prompts, caption: this.#caption, opinions: this.#opinions, me: this.#people.me });
    this.#tick();
  }

  #tick() {
    this.#line.tick();
    const time = this.live?.time;
    if (!time?.known || !this.#desk) return;
    const t = times(time.now(), this.#line.lostAt, time.rate);
    const words = ribbon(this.#desk, this.#boards, t.now, this.#line.open, this.#holds);
    this.#ribbon.update(words, { title: this.#table.title(words.action), key: keyWords(this.#table.key(words.action)) });
    this.#parts.tick(t);
    mark(document.body, 'data-waits', this.#acts.waiting > 0);
  }
}

new DeskPage().start();
