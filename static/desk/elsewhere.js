// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').Suggestion} Suggestion */
import { el, mark, write } from '../lib/dom.js';
import { inTrouble } from '../lib/tellmap.js';
import { ClockView } from '../surface/clocks.js';
import { icon, keepRows } from '../surface/dom.js';
import { Lane } from '../surface/lane.js';
import { resultWords } from '../surface/tell.js';
import { ago } from '../surface/words.js';
import { namesWords } from './words.js';

/** So many suggestions are shown; what happens on the board that is looked at is seen there. */
const MOST = 2;

/** Elsewhere has the boards of the show at a glance, and where something happens. */
export class Elsewhere {
  #burns = el('ul', { class: 'burns', 'aria-label': 'Suggestions' });
  #boards = el('ul', { class: 'glances', 'aria-label': 'All boards' });
  /** @type {Map<string, Burn>} */ #burning = new Map();
  /** @type {Map<string, Glance>} */ #glances = new Map();
  #follow = el('button', { type: 'button', class: 'button small switch', 'data-act': 'follow-by-itself', 'aria-pressed': 'false' }, el('span', { class: 'knob', 'aria-hidden': 'true' }), el('span'));
  #look;

  #root;
  #none = el('p', { class: 'hint' }, 'Nothing burns on another board.');

  /** @param {HTMLElement} root @param {(board: number) => void} look */
  constructor(root, look) {
    this.#root = root;
    this.#look = look;
    root.append(this.#boards, el('div', { class: 'burning' }, this.#burns, this.#none, this.#follow));
  }

  /** @param {Desk} desk @param {Map<number, Board>} boards */
  update(desk, boards) {
    const burns = desk.suggestions.filter((s) => s.board !== desk.place.board).slice(0, MOST);
    mark(this.#root, 'hidden', boards.size < 2);
    mark(this.#none, 'hidden', burns.length > 0);
    const rows = keepRows(this.#burns, this.#burning, burns, (s) => `${s.board} ${s.kind} ${s.side}`, () => new Burn(this.#look));
    rows.forEach((row, i) => row.update(burns[i], boards));
    const list = [...boards.values()].sort((a, b) => a.board - b.board);
    const glances = keepRows(this.#boards, this.#glances, list, (b) => String(b.board), (b) => new Glance(b.board, this.#look));
    glances.forEach((row, i) => row.update(list[i], desk));
    mark(this.#follow, 'aria-pressed', String(desk.auto));
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    for (const row of this.#burning.values()) row.tick(times.now);
    for (const row of this.#glances.values()) row.tick(times);
  }
}

class Burn {
  #text = el('span', { class: 'burn-text', dir: 'auto' });
  #board = el('b');
  #age = el('span', { class: 'burn-age' });
  #button = el('button', { type: 'button', class: 'burn' }, icon('burn'), this.#board, el('span', { class: 'burn-words' }, this.#text, ' ', this.#age));
  #number = 0;
  #at = 0;

  /** @param {(board: number) => void} look */
  constructor(look) {
    this.root = el('li', {}, this.#button);
    this.#button.addEventListener('click', () => look(this.#number));
  }

  /** @param {Suggestion} s @param {Map<number, Board>} boards */
  update(s, boards) {
    [this.#number, this.#at] = [s.board, s.at];
    write(this.#board, `Board ${s.board}`);
    write(this.#text, s.reason);
    mark(this.#button, 'title', namesWords(boards.get(s.board)));
  }

  /** @param {number} now show ms */
  tick(now) {
    write(this.#age, this.#at ? ago(now - this.#at) : '');
  }
}

class Glance {
  #names = el('span', { class: 'glance-names', dir: 'auto' });
  #note = el('span', { class: 'glance-note' });
  #lane = new Lane('glance-lane', { size: 'filter', motion: false });
  #clocks = /** @type {const} */ (['white', 'black']).map((side) => new ClockView(side));
  #button;
  /** @type {Board | null} */ #board = null;

  /** @param {number} number @param {(board: number) => void} look */
  constructor(number, look) {
    const clocks = el('span', { class: 'glance-clocks' }, ...this.#clocks.map((c) => c.root));
    const head = el('span', { class: 'glance-head' }, el('b', {}, String(number)), this.#names);
    this.#button = el('button', { type: 'button', class: 'glance' }, head, this.#lane.root, clocks, this.#note);
    this.#button.addEventListener('click', () => look(number));
    this.root = el('li', {}, this.#button);
  }

  /** @param {Board} board @param {Desk} desk */
  update(board, desk) {
    this.#board = board;
    write(this.#names, namesWords(board));
    const aired = desk.air.board === board.board;
    mark(this.#button, 'aria-current', desk.place.board === board.board && 'true');
    mark(this.#button, 'data-aired', aired);
    mark(this.#button, 'data-over', board.result !== '*' && board.result !== '');
    write(this.#note, [aired ? 'the viewers’ board' : '', resultWords(board.result)].filter(Boolean).join(', '));
    (['white', 'black']).forEach((side, i) => {
      mark(this.#clocks[i].root, 'data-runs', board.running === side);
      mark(this.#clocks[i].root, 'data-trouble', inTrouble(board[/** @type {'white' | 'black'} */ (side)].tell));
    });
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    if (!this.#board) return;
    for (const clock of this.#clocks) clock.tick(this.#board, times);
    this.#lane.draw(this.#board, times.now, times.lostAt);
  }
}
