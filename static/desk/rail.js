// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
import { el, mark, write } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { QUALITY } from '../lib/wire.js';
import { lasted } from '../lib/tellmap.js';
import { arrange, icon } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { railWindow } from './railwindow.js';
import { behind, behindWords, numbered } from './words.js';

/** Width of a cell with the gap beside it; CSS pixels, as in time.css. */
const CELL = { wide: 72, narrow: 64 };

/** Rail is the moves of the game as buttons, as many as have room, one tab stop. */
export class Rail {
  #cells = el('div', { class: 'cells-row' });
  #live = el('button', { type: 'button', class: 'button to-live', 'data-act': 'to-live' });
  #liveWord = el('span');
  #behind = el('span', { class: 'behind' });
  /** @type {Cell[]} */ #made = [];
  #width = 0;
  #drawn = '';
  #go;
  #changed;

  /** @param {HTMLElement} root @param {(ply: number) => void} go @param {() => void} changed there is room for other cells */
  constructor(root, go, changed) {
    this.#go = go;
    this.#changed = changed;
    const step = (/** @type {string} */ name, /** @type {string} */ sign) => el('button', { type: 'button', class: 'button step', 'data-act': name, 'data-quiet': '' }, icon(sign));
    this.#live.append(this.#liveWord, this.#behind);
    root.append(step('back', 'back'), step('forward', 'forward'), this.#cells, this.#live);
    new ResizeObserver(([box]) => this.#resize(box.contentRect.width)).observe(this.#cells);
  }

  /** @param {Desk} desk @param {Board | undefined} board */
  update(desk, board) {
    const plies = board?.plies ?? [];
    const { place } = desk;
    const room = Math.max(1, Math.floor((this.#width + 4) / (this.#width < 500 ? CELL.narrow : CELL.wide)));
    const shown = railWindow(plies.length, Math.min(place.ply, plies.length), room);
    const left = behind(place, board);
    mark(this.#live, 'data-at', place.live);
    write(this.#liveWord, place.live ? 'Live' : 'To live');
    write(this.#behind, place.live ? '' : behindWords(left));
    const drawn = JSON.stringify([shown, place.ply, place.move > 0, place.live, desk.lines.map((l) => [l.after, l.ply]), board?.rev, board?.board]);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    while (this.#made.length < shown.length) this.#made.push(new Cell((ply) => this.#go(ply)));
    const cells = shown.map((ply, i) => this.#made[i].update(ply, board, desk));
    const hadFocus = this.#cells.contains(document.activeElement);
    arrange(this.#cells, cells);
    const current = cells[shown.indexOf(place.ply)];
    if (hadFocus) current?.focus({ preventScroll: true });
  }

  /** The middle of the current cell and its upper edge, from the left and top of an element; null while it is out of sight. @param {Element} of */
  middle(of) {
    const cell = this.#cells.querySelector('[aria-current]');
    if (!cell) return null;
    const [a, b] = [cell.getBoundingClientRect(), of.getBoundingClientRect()];
    return [a.left + a.width / 2 - b.left, a.top - b.top];
  }

  /** @param {number} width */
  #resize(width) {
    if (width === this.#width) return;
    this.#width = width;
    this.#changed();
  }
}

class Cell {
  #number = el('span', { class: 'cell-number' });
  #move = el('span', { class: 'cell-move' });
  #time = el('span', { class: 'cell-time' });
  #also = el('span', { class: 'unseen' });
  #ply = 0;
  #san = '';

  /** @param {(ply: number) => void} go */
  constructor(go) {
    this.root = el('button', { type: 'button', class: 'cell' }, el('span', { class: 'cell-head' }, this.#number, this.#move), ' ', this.#time, this.#also);
    this.root.addEventListener('click', () => go(this.#ply));
  }

  /** @param {number} ply place; 0 the start @param {Board | undefined} board @param {Desk} desk */
  update(ply, board, { place, lines }) {
    this.#ply = ply;
    const made = ply > 0 ? board?.plies[ply - 1] : undefined;
    const here = ply === place.ply;
    const beside = lines.filter((l) => l.after === 0 && l.ply === ply).length;
    mark(this.root, 'aria-current', here && 'step');
    mark(this.root, 'data-here', here ? (place.move ? 'left' : 'on') : null);
    mark(this.root, 'data-beside', beside > 0);
    mark(this.root, 'data-look', made?.look);
    mark(this.root, 'data-new', made && board?.novelty?.ply === made.number);
    this.root.tabIndex = here ? 0 : -1;
    write(this.#number, made ? numbered(made.number) : '');
    const san = made?.san ?? 'start';
    if (san !== this.#san) this.#move.replaceChildren(made ? move(san) : san);
    this.#san = san;
    const time = made && made.quality !== QUALITY.NONE ? lasted(made, board?.white.clock.stepMs ?? 0) : '';
    write(this.#time, time);
    write(this.#also, beside ? `, ${count(beside, 'side line')} here` : '');
    return this.root;
  }
}
