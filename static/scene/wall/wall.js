// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../pulse.js').Moment} Moment */
import { Live } from '../../lib/live.js';
import { byId, mark } from '../../lib/dom.js';
import { Pulse } from '../pulse.js';
import { drawSafeAreas, fitStage, motionOption, setTheme } from '../stage.js';
import { showTag, waitFor } from '../waiting.js';
import { hasGame, roundOf, topOption } from '../words.js';
import { Cell } from './cell.js';
import { Chooser } from './choose.js';
import { MOST, layout } from './layout.js';
import { Lifted } from './lifted.js';
import { reachOf, together } from './together.js';

/** After a line has opened the boards come one by one: none is lifted before they are there, wall time. */
const SETTLE_MS = 400;
/** What comes in one packet reaches the page board by board: so long after the first, one is chosen. */
const BURST_MS = 100;
/** A measurement that moves show time by less than this, wall time, waits for the next look, a second away at most. */
const MOVED_MS = 5;
/** What a packet says of boards where nobody has moved is drawn in one frame, so long after the first of it. */
const PACKET_MS = 30;

/** Scene keeps several boards on the air. */
class Scene {
  /** @type {Map<number, Board>} */ #boards = new Map();
  /** @type {number[]} */ #numbers = []; // of the cells, in their order
  /** @type {Cell[]} */ #cells = [];
  /** @type {Lifted | null} */ #lifted = null;
  #settled = Infinity;
  #soon = 0;
  /** Show time at page time 0, as of the last look. */
  #offset = NaN;
  /** @type {number | null} of the board that came last */ #rev = null;
  /** Of show time, in which the tell lines moved last. */
  #second = NaN;
  /** Wall time at which cards change by themselves, together. */
  #due = Infinity;
  #chooser = new Chooser();
  #quiet = false;
  #stage = byId('stage');

  /** @param {URLSearchParams} options */
  constructor(options) {
    this.look = { top: topOption(options), motion: motionOption(options) };
    this.lift = options.get('lift') !== 'off';
    this.named = boardsOption(options.get('boards'));
    document.body.dataset.motion = this.look.motion ? 'on' : 'off';
    fitStage(this.#stage);
    setTheme(options);
    if (options.get('safe') === 'on') drawSafeAreas(this.#stage);
    this.live = new Live(
      { page: 'scene/wall', boards: this.named },
      { board: (b) => this.#update(b), show: (s) => this.#show(s), time: () => this.#isAnew(this.pulse.moment) && this.pulse.beat(), state: (s) => this.#state(s) },
    );
    this.pulse = new Pulse(this.live.time, (moment) => this.#tick(moment));
    document.fonts.ready.then(() => [...this.#cells, this.#lifted].forEach((c) => c?.refit()));
  }

  /** @param {Board} board */
  #update(board) {
    const before = this.#boards.get(board.board);
    this.#boards.set(board.board, board);
    this.pulse.heard();
    this.#rev = board.rev;
    this.#place();
    this.#tag(board);
    this.#cellOf(board.board)?.update(board);
    const moment = this.pulse.moment;
    this.#lifted?.update(board, moment);
    if (moment.wall >= this.#settled) this.#settled = moment.wall + BURST_MS;
    if (before?.plies !== board.plies) return this.pulse.beat();
    this.#soon ||= window.setTimeout(() => ((this.#soon = 0), this.pulse.beat()), PACKET_MS);
  }

  /** @param {import('../../lib/wire.js').Show} show */
  #show(show) {
    waitFor(show, 0);
    this.#quiet = show.quiet;
    for (const number of this.#boards.keys()) if (number > show.boards) this.#boards.delete(number);
    this.#place();
    this.pulse.beat();
  }

  /** @param {'open' | 'lost'} state */
  #state(state) {
    this.#settled = state === 'open' ? performance.now() + SETTLE_MS : Infinity;
    this.#place();
    this.pulse.line(state);
  }

  /** A cell for every board that is named, or else for every board there is. */
  #place() {
    const numbers = this.named.length ? this.named : [...this.#boards.keys()].sort((a, b) => a - b).slice(0, MOST);
    mark(this.#stage, 'data-view', [...this.#boards.values()].some(hasGame) ? 'game' : 'waiting');
    if (String(numbers) === String(this.#numbers)) return;
    this.#numbers = numbers;
    const { cells, card, lifted, large } = layout(numbers.length, this.lift);
    this.#cells = numbers.map((number, i) => new Cell(number, cells[i], card, this.look));
    byId('cells').replaceChildren(...this.#cells.map((c) => c.root));
    this.#lifted = lifted && large ? new Lifted(byId('lifted'), lifted, large, this.look) : null;
    for (const [number, board] of this.#boards) this.#cellOf(number)?.update(board);
  }

  /** Show and round, where there is room for them. @param {Board} board */
  #tag(board) {
    showTag(board, roundOf(board));
    mark(byId('tag'), 'hidden', !this.lift || !board.event);
  }

  /** @param {number} number */
  #cellOf(number) {
    return this.#cells[this.#numbers.indexOf(number)];
  }

  /** @param {Moment} moment */
  #tick(moment) {
    // What nobody knows is no reason to lift another board.
    const ready = moment.heldAt === null && moment.wall >= this.#settled;
    const until = !this.#lifted ? Infinity : ready ? this.#choose(this.#lifted, moment) : this.#settled;
    mark(document.body, 'data-rev', this.#rev);
    const [anew, looks] = [this.#isAnew(moment), moment.wall >= this.#due];
    this.#offset = moment.now - moment.wall * moment.rate;
    const reach = reachOf(this.live.time.unsureMs);
    const dues = [...this.#cells, this.#lifted].map((c) => c?.tick(moment, moment.wall + (looks ? reach : 0), anew) ?? Infinity);
    if (looks) this.#moveLines(moment);
    this.#due = together(dues, reach);
    return Math.min(until, this.#due) - moment.wall;
  }

  /** Whether show time is another than the last look took it to be. @param {Moment} moment */
  #isAnew({ now, wall, rate }) {
    return !(Math.abs(now - wall * rate - this.#offset) < MOVED_MS * rate);
  }

  /**
   * Clocks change at their own moments, or with those near them, but all tell lines move together once
   * a second, in a frame that the change of a clock makes anyway.
   *
   * @param {Moment} moment
   */
  #moveLines(moment) {
    const second = Math.floor(moment.now / 1000);
    if (second === this.#second) return;
    this.#second = second;
    for (const c of [...this.#cells, this.#lifted]) c?.line(moment);
  }

  /** @param {Lifted} lifted @param {Moment} moment */
  #choose(lifted, moment) {
    const boards = this.#numbers.flatMap((n) => this.#boards.get(n) ?? []).filter(hasGame);
    const { board: number, why, until } = this.#chooser.at(boards, moment, this.#quiet);
    mark(document.body, 'data-lifted', number);
    for (const cell of this.#cells) cell.lift(cell.number === number);
    const board = number === null ? null : (this.#boards.get(number) ?? null);
    lifted.show(board, why, this.#cells.find((c) => c.number === number)?.box ?? null, moment);
    return until;
  }
}

/** The boards asked for; whatever is no list of them means all. @param {string | null} text */
function boardsOption(text) {
  if (!/^[1-9]\d{0,2}(,[1-9]\d{0,2})*$/.test(text ?? '')) return [];
  return [...new Set(String(text).split(',').map(Number))].slice(0, MOST);
}

new Scene(new URLSearchParams(location.search));
