// @ts-check
import { svg } from './dom.js';
import { change, pieces, placement } from './placement.js';
import { piece } from '../pieces/pieces.js';

const SLIDE_MS = 180;
const FILES = 'abcdefgh';

/**
 * BoardView draws a position into an element of 8 by 8 squares: the squares,
 * the marks of the last move and the pieces. Sizes follow the element's
 * --square (pixels a square).
 */
export class BoardView {
  #root;
  #marks;
  #flipped;
  #motion;
  /** @type {Map<string, SVGElement>} */ #men = new Map();
  /** @type {Map<string, string>} */ #shown = new Map();
  /** @type {(() => void)[]} */ #unfinished = [];

  /**
   * @param {HTMLElement} root
   * @param {{flipped: boolean, motion: boolean}} options flipped: Black at the bottom
   */
  constructor(root, options) {
    this.#root = root;
    this.#flipped = options.flipped;
    this.#motion = options.motion;
    this.#marks = svg('svg', { class: 'marks', viewBox: '0 0 800 800', 'aria-hidden': 'true' });
    root.replaceChildren(squares(), this.#marks);
  }

  /**
   * @param {string} fen
   * @param {{from: string, to: string} | null} last the move that led here
   * @param {boolean} near whether the position is a step or two from the one shown; else it is a cut
   */
  show(fen, last, near) {
    for (const finish of this.#unfinished.splice(0)) finish();
    this.#root.dataset.fen = placement(fen);
    const next = pieces(fen);
    const step = change(this.#shown, next);
    const moving = near && this.#motion && !step.cut && !document.hidden && step.slides.length > 0;
    this.#shown = next;
    if (!moving) {
      this.#cut(next);
      return this.#mark(last);
    }
    this.#slide(step, last);
  }

  /** @param {Map<string, string>} next */
  #cut(next) {
    for (const man of this.#men.values()) man.remove();
    this.#men.clear();
    for (const [square, letter] of next) this.#put(square, letter);
  }

  /** @param {string} square @param {string} letter */
  #put(square, letter) {
    const man = piece(letter);
    man.classList.add('man');
    const [x, y] = this.#place(square);
    man.style.transform = `translate(${x * 100}%, ${y * 100}%)`;
    this.#root.append(man);
    this.#men.set(square, man);
  }

  /** @param {import('./placement.js').Change} step @param {{from: string, to: string} | null} last */
  #slide(step, last) {
    this.#mark(last);
    const taken = step.gone.map((s) => this.#lift(s));
    const sliders = step.slides.map((s) => ({ ...s, man: this.#lift(s.from) }));
    for (const { man, to, piece: letter } of sliders) this.#run(man, to, letter);
    let done = false;
    const finish = () => {
      if (done) return;
      done = true;
      for (const man of taken) man?.remove();
      for (const { square, piece: letter } of step.fresh) this.#put(square, letter);
      for (const { man, to, piece: letter } of sliders) this.#land(man, to, letter);
    };
    this.#unfinished.push(finish);
    setTimeout(finish, SLIDE_MS);
  }

  /** Take a piece off the books; its picture stays. @param {string} square */
  #lift(square) {
    const man = this.#men.get(square);
    this.#men.delete(square);
    return man;
  }

  /** @param {SVGElement | undefined} man @param {string} to @param {string} letter */
  #run(man, to, letter) {
    if (!man) return;
    const [x, y] = this.#place(to);
    const from = man.style.transform;
    man.style.transform = `translate(${x * 100}%, ${y * 100}%)`;
    man.style.zIndex = letter.toLowerCase() === 'r' ? '2' : '3'; // castling: the king passes in front
    man.animate([{ transform: from }, { transform: man.style.transform }], { duration: SLIDE_MS, easing: 'ease-out' });
  }

  /** A promoted pawn becomes its new piece here. @param {SVGElement | undefined} man @param {string} to @param {string} letter */
  #land(man, to, letter) {
    man?.remove();
    this.#put(to, letter);
  }

  /** @param {{from: string, to: string} | null} last */
  #mark(last) {
    const shapes = last && last.from && last.to ? [...this.#corners(last.from), ...this.#frame(last.to)] : [];
    this.#marks.replaceChildren(...shapes);
  }

  /** @param {string} square */
  #frame(square) {
    const [x, y] = this.#place(square);
    return cased(`M${x * 100 + 5.1} ${y * 100 + 5.1}h89.8v89.8h-89.8z`);
  }

  /** @param {string} square */
  #corners(square) {
    const [x, y] = this.#place(square).map((n) => n * 100);
    const [a, b, arm] = [5.1, 94.9, 19];
    return cased(
      `M${x + a} ${y + a + arm}v${-arm}h${arm}M${x + b - arm} ${y + a}h${arm}v${arm}` +
        `M${x + b} ${y + b - arm}v${arm}h${-arm}M${x + a + arm} ${y + b}h${-arm}v${-arm}`,
    );
  }

  /** Column and row from the upper left. @param {string} square */
  #place(square) {
    const [x, y] = [FILES.indexOf(square[0]), 8 - Number(square[1])];
    return this.#flipped ? [7 - x, 7 - y] : [x, y];
  }
}

/** A yellow line cased in ink: yellow alone is lost on a light square. @param {string} d */
function cased(d) {
  return [
    svg('path', { class: 'last-casing', d, fill: 'none', stroke: 'var(--casing)', 'stroke-width': 10.2, 'stroke-linecap': 'square' }),
    svg('path', { class: 'last-line', d, fill: 'none', stroke: 'var(--last-move)', 'stroke-width': 6.1, 'stroke-linecap': 'square' }),
  ];
}

/** The squares lie the same way from both sides: a light one at the right hand. */
function squares() {
  let d = '';
  for (let i = 0; i < 64; i++) {
    const [x, y] = [i % 8, Math.floor(i / 8)];
    if ((x + y) % 2) d += `M${x} ${y}h1v1h-1z`;
  }
  return svg(
    'svg',
    { class: 'squares', viewBox: '0 0 8 8', 'aria-hidden': 'true', 'shape-rendering': 'crispEdges' },
    svg('rect', { width: 8, height: 8, fill: 'var(--square-light)' }),
    svg('path', { d, fill: 'var(--square-dark)' }),
  );
}
