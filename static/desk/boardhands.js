// @ts-check
/** @typedef {import('../lib/wire.js').Mark} Mark */
/** @typedef {import('./board.js').DeskBoard} DeskBoard */
import { squareAt } from './squares.js';

/** A pointer that went no further than this only pressed; CSS pixels. */
const STILL = 6;

/**
 * @typedef {object} Told
 * @property {(from: string, to: string, dragged: boolean) => void} move
 * @property {(kind: string, to: string, from: string) => void} draw
 * @property {() => string} tool the kind of mark chosen, "" none
 */

/** @typedef {{id: number, from: string, x: number, y: number, went: boolean, kind: string | null, held: string}} Hold kind: of the mark drawn; null a man is moved */

/** BoardHands moves men and draws marks: by mouse, finger, pen and keyboard. */
export class BoardHands {
  #board;
  #told;
  /** @type {Hold | null} */ #hold = null;

  /** @param {DeskBoard} board @param {Told} told */
  constructor(board, told) {
    this.#board = board;
    this.#told = told;
    const root = board.grid.root;
    root.addEventListener('pointerdown', (e) => this.#down(e));
    // A pointer leaves the keyboard's focus out of the squares: arrows go on stepping through the game.
    root.addEventListener('mousedown', (e) => (e.preventDefault(), /** @type {HTMLElement | null} */ (document.activeElement)?.blur()));
    root.addEventListener('pointermove', (e) => this.#moved(e));
    root.addEventListener('pointerup', (e) => this.#up(e));
    root.addEventListener('pointercancel', () => this.drop());
    root.addEventListener('contextmenu', (e) => e.preventDefault()); // the right button draws
    root.addEventListener('keydown', (e) => this.#key(e));
  }

  /** Let go of everything; whether there was anything. */
  drop() {
    const had = this.#hold !== null || this.#board.held !== '';
    this.#hold = null;
    this.#board.held = '';
    this.#clear();
    this.#board.refresh();
    return had;
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (this.#hold) return;
    const square = this.#at(event);
    if (!square) return;
    const kind = drawn(event, this.#told.tool());
    const had = this.#board.held;
    this.#hold = { id: event.pointerId, from: square, x: event.clientX, y: event.clientY, went: false, kind, held: had };
    if (kind === null && this.#board.targets(square).size && !this.#board.targets(had).has(square)) {
      this.#board.held = square;
      this.#board.refresh();
    }
    this.#board.grid.root.setPointerCapture(event.pointerId); // or it could be let go where nobody hears of it
  }

  /** @param {PointerEvent} event */
  #moved(event) {
    const hold = this.#hold;
    if (hold?.id !== event.pointerId) return;
    hold.went ||= Math.hypot(event.clientX - hold.x, event.clientY - hold.y) > STILL;
    if (!hold.went) return;
    const over = this.#at(event);
    if (hold.kind !== null) return this.#board.sketch(over ? sketched(hold.kind, hold.from, over) : null);
    const letter = this.#board.men.get(hold.from) ?? '';
    const [x, y] = this.#share(event);
    this.#board.carry(letter, x, y, hold.from);
    this.#board.grid.over(letter ? over : '');
  }

  /** @param {PointerEvent} event */
  #up(event) {
    const hold = this.#hold;
    if (hold?.id !== event.pointerId) return;
    this.#hold = null;
    const to = this.#at(event);
    this.#clear();
    if (hold.kind !== null) return void (to && this.#drew(hold.kind, hold.from, to));
    if (hold.went && to !== hold.from) return this.#dropped(hold, to);
    this.#tapped(hold.from, hold.held);
  }

  /** @param {Hold} hold @param {string} to "" beside the board */
  #dropped(hold, to) {
    this.#board.held = '';
    this.#board.refresh();
    if (to && this.#board.men.has(hold.from)) this.#told.move(hold.from, to, true);
  }

  /** One square and then another is a move; the same twice puts the man down. @param {string} square @param {string} held what was picked up before */
  #tapped(square, held) {
    const board = this.#board;
    const to = held !== '' && held !== square && (board.targets(held).has(square) || board.targets(square).size === 0);
    if (to) {
      board.held = '';
      this.#told.move(held, square, false);
    } else board.held = held === square || board.targets(square).size === 0 ? '' : square;
    board.refresh();
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const square = this.#board.grid.focused;
    if (!square || (event.key !== 'Enter' && event.key !== ' ')) return;
    event.preventDefault();
    const kind = this.#told.tool();
    if (kind) return this.#drew(kind, this.#board.held || square, square);
    this.#tapped(square, this.#board.held);
  }

  /** @param {string} kind @param {string} from @param {string} to */
  #drew(kind, from, to) {
    const { kind: what } = sketched(kind, from, to);
    this.#told.draw(what, to, from === to ? '' : from);
  }

  #clear() {
    this.#board.carry('');
    this.#board.sketch(null);
    this.#board.grid.over('');
  }

  /** Where a pointer is on the board, as shares of its width. @param {PointerEvent} event */
  #share(event) {
    const box = this.#board.grid.root.getBoundingClientRect();
    return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
  }

  /** @param {PointerEvent} event */
  #at(event) {
    const [x, y] = this.#share(event);
    return squareAt(x, y, this.#board.turned);
  }
}

/** Marks without a chosen meaning: of a square, and of a way. */
const FREE = '';

/** What kind of mark a pointer draws; null: it moves men. @param {PointerEvent} event @param {string} tool */
function drawn(event, tool) {
  const right = event.button === 2 || event.button === 5; // a mouse's right button, a pen's, its other end
  if (event.shiftKey && (right || event.button === 0)) return 'danger';
  if (event.altKey && (right || event.button === 0)) return 'weak';
  if (right || event.ctrlKey || event.metaKey) return tool || FREE;
  return event.button === 0 && tool ? tool : null;
}

/** A mark as it is drawn from one square to another; without a chosen meaning a square is to look at, and a way a plan. @param {string} kind @param {string} from @param {string} to @returns {Mark} */
export function sketched(kind, from, to) {
  const way = from !== to;
  return { kind: kind || (way ? 'plan' : 'look'), from: way ? from : '', to };
}
