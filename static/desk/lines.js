// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').LineMove} LineMove */
/** @typedef {import('./tree.js').Branch} Branch */
import { el, mark, write } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { isWhite } from '../lib/san.js';
import { icon } from '../surface/dom.js';
import { branches, lineTo } from './tree.js';
import { numbered, stepWords } from './words.js';

/** What is done with the line in which the desk stands, with icons. @type {[string, string][]} */
const DOES = [['play-line', 'play'], ['write-line', 'note'], ['name-line', 'tell'], ['drop-line', 'wipe']];

/** Lines are the side lines of the board's game as a tree: choose, name, put on the air, drop. */
export class Lines {
  #none = el('p', { class: 'hint' }, 'Move a man on the board, or type a move, to show what was not played. The game goes on meanwhile.');
  #list = el('ul', { class: 'branches', 'aria-labelledby': 'lines-head' });
  #does = el('div', { class: 'line-does', role: 'group', 'aria-label': 'This side line' });
  #drawn = '';
  #go;

  /** @param {HTMLElement} root @param {(id: number) => void} go */
  constructor(root, go) {
    this.#go = go;
    for (const [name, sign] of DOES) this.#does.append(el('button', { type: 'button', class: 'button small', 'data-act': name }, icon(sign), el('span')));
    root.append(this.#none, this.#list, this.#does);
  }

  /** @param {Desk} desk @param {import('../lib/wire.js').Board | undefined} board */
  update(desk, board) {
    const { lines, place, air } = desk;
    mark(this.#none, 'hidden', lines.length > 0);
    mark(this.#list, 'hidden', lines.length === 0);
    mark(this.#does, 'hidden', place.move === 0);
    const drawn = JSON.stringify([lines, place.move, air.move, air.way, board?.rev]);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    const focused = /** @type {HTMLElement | null} */ (document.activeElement)?.dataset.move;
    const path = new Set(lineTo(lines, place.move).map((m) => m.id));
    const aired = new Set(lineTo(lines, air.move).map((m) => m.id));
    const tree = branches(lines);
    const rows = tree.map((b, i) => this.#branch(b, tree.slice(0, i).some((a) => a.depth === 0 && a.ply === b.ply), { here: place.move, path, aired, board }));
    this.#list.replaceChildren(...rows);
    if (focused) /** @type {HTMLElement | null} */ (this.#list.querySelector(`[data-move="${focused}"]`))?.focus({ preventScroll: true });
    this.#reveal();
  }

  /** Scroll the list, and nothing else, to where the desk stands. */
  #reveal() {
    const current = this.#list.querySelector('[aria-current]');
    if (!current) return;
    const [row, box] = [current.getBoundingClientRect(), this.#list.getBoundingClientRect()];
    if (row.top < box.top) this.#list.scrollTop -= box.top - row.top;
    else if (row.bottom > box.bottom) this.#list.scrollTop += row.bottom - box.bottom;
  }

  /**
   * @param {Branch} branch
   * @param {boolean} other one before it departs from the same move of the game
   * @param {{here: number, path: Set<number>, aired: Set<number>, board: import('../lib/wire.js').Board | undefined}} more
   */
  #branch(branch, other, { here, path, aired, board }) {
    const first = branch.moves[0];
    const played = board?.plies[branch.ply];
    const where = other ? 'or' : played ? `in place of ${stepWords(played)}` : 'from the live position';
    const head = el('p', { class: 'branch-head' }, ...(branch.name ? [el('b', { dir: 'auto' }, branch.name), ' '] : []), el('span', {}, where));
    if (branch.adrift) head.append(el('span', { class: 'adrift' }, icon('warning'), ' the game was corrected: this position was not reached'));
    const moves = branch.moves.map((m) => this.#move(m, m === first || isWhite(m.step.number), here, path, aired));
    const row = el('li', { class: 'branch', 'data-path': moves.some((m) => m.hasAttribute('data-path')), 'data-adrift': branch.adrift, 'data-deep': other && branch.name === '' }, head, el('div', { class: 'branch-moves' }, ...moves));
    row.style.setProperty('--depth', String(Math.min(branch.depth, 4)));
    return row;
  }

  /** @param {LineMove} m @param {boolean} number @param {number} here @param {Set<number>} path @param {Set<number>} aired */
  #move(m, number, here, path, aired) {
    const button = el(
      'button',
      { type: 'button', class: 'line-move', 'data-move': m.id, 'aria-current': m.id === here && 'step', 'data-path': path.has(m.id), 'data-aired': aired.has(m.id) },
      el('span', { class: number ? 'cell-number' : 'unseen' }, numbered(m.step.number)),
      move(m.step.san),
    );
    button.addEventListener('click', () => this.#go(m.id));
    return button;
  }
}

/** A form with one field for a move. @param {HTMLFormElement} form @param {HTMLInputElement} field @param {(san: string) => void} play */
export function typing(form, field, play) {
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    const san = field.value.trim();
    if (san) play(san);
    field.value = '';
  });
  field.addEventListener('keydown', (e) => e.key === 'Escape' && field.blur());
}

/** Words that belong to the field. @param {string} title */
export const labelTyping = (title) => write(/** @type {Element} */ (document.getElementById('type-label')), title);
