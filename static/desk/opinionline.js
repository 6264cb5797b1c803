// @ts-check
/** @typedef {import('../lib/wire.js').OpinionLine} OpinionLine */
import { el, mark, write } from '../lib/dom.js';
import { move } from '../lib/figures.js';
import { isWhite } from '../lib/san.js';
import { MOVES_MOST, lineName } from './opinionwords.js';
import { numbered } from './words.js';

/**
 * OpinionLineView is one line: its score opens it on the board at its first move, each move at that
 * move. It is one tab stop, and the arrows go along it.
 */
export class OpinionLineView {
  #score = el('button', { type: 'button', class: 'opinion-score' });
  #figure = el('span', { class: 'opinion-figure' });
  #name = el('span', { class: 'unseen' });
  #moves = el('div', { class: 'opinion-moves' });
  #drawn = '';
  #open;

  /** @param {number} index @param {(steps: number) => void} open behind so many of its moves @param {string} [name] of its element */
  constructor(index, open, name = 'li') {
    this.index = index;
    this.#open = open;
    this.#score.append(el('span', { class: 'opinion-side', 'aria-hidden': 'true' }), this.#figure, this.#name);
    this.#score.addEventListener('click', () => open(1));
    this.root = el(name, { class: 'opinion-line' }, this.#score, this.#moves);
    this.root.addEventListener('keydown', (e) => this.#key(e));
    this.root.addEventListener('focusin', (e) => this.#stop(e.target));
  }

  focus = () => this.#score.focus();

  /** @param {OpinionLine | null} line null: it is on its way */
  update(line) {
    mark(this.root, 'data-empty', line === null);
    for (const button of this.#buttons()) mark(button, 'aria-disabled', line === null ? 'true' : null); // disabled, it would lose the focus
    if (!line) return;
    write(this.#figure, line.score);
    mark(this.#score, 'data-side', line.side || 'level');
    mark(this.#score, 'data-wide', !line.exact);
    write(this.#name, lineName(line, this.index));
    mark(this.#score, 'title', line.words);
    const drawn = line.moves.map((m) => `${m.number}${m.san}`).join(' ');
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    const had = this.#buttons().indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
    this.#moves.replaceChildren(...line.moves.slice(0, MOVES_MOST).map((m, i) => this.#move(m, i)));
    const buttons = this.#buttons();
    if (had >= 0) buttons[Math.min(had, buttons.length - 1)].focus({ preventScroll: true });
  }

  /** @param {import('../lib/wire.js').OpinionMove} m @param {number} i */
  #move(m, i) {
    const number = i === 0 || isWhite(m.number) ? 'cell-number' : 'unseen';
    const button = el(
      'button',
      { type: 'button', class: 'opinion-move', tabindex: -1 },
      el('span', { class: number }, numbered(m.number)),
      move(m.san),
    );
    button.addEventListener('click', () => this.#open(i + 1));
    return button;
  }

  #buttons() {
    return [...this.root.querySelectorAll('button')];
  }

  /** @param {EventTarget | null} target */
  #stop(target) {
    for (const button of this.#buttons()) button.tabIndex = button === target ? 0 : -1;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const buttons = this.#buttons();
    const at = buttons.indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
    const beside = (/** @type {Element | null | undefined} */ row) => /** @type {HTMLElement | null | undefined} */ (row?.querySelector('button'));
    /** @type {Record<string, HTMLElement | null | undefined>} */
    const to = {
      ArrowRight: buttons[at + 1], ArrowLeft: buttons[at - 1], Home: buttons[0], End: buttons[buttons.length - 1],
      ArrowDown: beside(this.root.nextElementSibling), ArrowUp: beside(this.root.previousElementSibling),
    };
    if (at < 0 || !(event.key in to)) return;
    event.preventDefault(); // it is no step through the game
    to[event.key]?.focus();
  }
}
