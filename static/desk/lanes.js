// @ts-check
/** @typedef {import('../lib/wire.js').Board} Board */
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/tellmap.js').Chart} Chart */
import { el, mark, svg, write } from '../lib/dom.js';
import { TellLine } from '../lib/tellline.js';
import { said } from '../lib/tellsay.js';
import { nearest } from './railwindow.js';
import { behind, behindWords, stepWords } from './words.js';

/** Between two moves of the head; wall milliseconds. */
const REST_MS = 450;

/** As in sizes.css. */
const NARROW = '(max-width: 1099px)';
/** The words beside the pole need so much room; CSS pixels. */
const WORDS = 150;

/** Lanes is the tell line of the desk: the way through the game, with the place where the desk stands. */
export class Lanes {
  #box = el('div', { class: 'lane-draw' });
  #over = svg('svg', { class: 'lane-over', 'aria-hidden': 'true' });
  #label = el('span', { class: 'lane-label', 'aria-hidden': 'true', hidden: true });
  #span = el('span', { class: 'lane-span', 'aria-hidden': 'true', hidden: true });
  /** @type {TellLine | null} */ #line = null;
  #size = '';
  /** @type {Chart | null} */ #chart = null;
  /** @type {Board | undefined} */ #board;
  /** @type {Desk | null} */ #desk = null;
  #drawnAt = -Infinity;
  #scrubbed = -1;
  #go;
  #cell;

  /** @param {HTMLElement} root @param {(ply: number) => void} go @param {(of: Element) => number[] | null} cell where the rail's current cell stands */
  constructor(root, go, cell) {
    this.#go = go;
    this.#cell = cell;
    root.append(this.#box, this.#over, this.#span, this.#label);
    new ResizeObserver(([box]) => this.#resize(Math.floor(box.contentRect.width))).observe(root);
    root.addEventListener('pointerdown', (e) => this.#scrub(e, true));
    root.addEventListener('pointermove', (e) => this.#scrub(e, e.buttons === 1));
    root.addEventListener('pointerleave', () => mark(this.#label, 'hidden', true));
  }

  /** @param {Desk} desk @param {Board | undefined} board */
  update(desk, board) {
    if (this.#board?.board !== board?.board) this.#chart = null;
    [this.#desk, this.#board] = [desk, board];
    this.#drawnAt = -Infinity;
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick({ now, lostAt }) {
    if (!this.#board || !this.#line || performance.now() - this.#drawnAt < REST_MS) return;
    this.#drawnAt = performance.now();
    this.#line.draw(this.#board, now, lostAt);
    this.#place();
  }

  /** @param {number} width */
  #resize(width) {
    const size = matchMedia(NARROW).matches ? 'deskSmall' : 'desk';
    if (size !== this.#size) {
      this.#size = size;
      this.#line = new TellLine(this.#box, { size, width, says: said, moves: (_, chart) => ((this.#chart = chart), []) });
    } else this.#line?.resize(width);
    this.#drawnAt = -Infinity;
    this.#place();
  }

  /** Where the desk stands: a pole that goes down to the rail, and how far the live game has gone on. */
  #place() {
    const [desk, chart, line] = [this.#desk, this.#chart, this.#line];
    const away = desk !== null && (!desk.place.live || desk.place.move > 0);
    const x = chart && desk ? chart.joints[Math.min(desk.place.ply, chart.joints.length - 1)] : null;
    if (!line || !desk || !chart || x === null || x === undefined) return this.#over.replaceChildren();
    const cell = this.#cell(this.#over);
    const foot = line.height - 2;
    const d = away ? `M${x} 6V${foot}` : `M${x} ${foot - 16}V${foot}`;
    this.#over.replaceChildren(svg('path', { class: 'lane-pole', d: cell ? `${d}L${cell[0]} ${cell[1]}` : d, 'data-live': !away }));
    const left = away ? behindWords(behind(desk.place, this.#board)) : '';
    mark(this.#span, 'hidden', left === '');
    write(this.#span, left);
    const before = chart.width - x < WORDS;
    mark(this.#span, 'data-before', before);
    this.#span.style.left = `${before ? Math.max(0, x - WORDS) : x}px`;
    this.#span.style.width = `${before ? Math.min(WORDS, x) : Math.max(0, chart.played - x)}px`;
  }

  /** @param {PointerEvent} event @param {boolean} go */
  #scrub(event, go) {
    const chart = this.#chart;
    if (!chart || !this.#board) return;
    const x = event.clientX - this.#box.getBoundingClientRect().left;
    const ply = nearest(chart.joints, x);
    const made = this.#board.plies[ply - 1];
    mark(this.#label, 'hidden', event.pointerType === 'touch' && !go);
    write(this.#label, made ? stepWords(made) : 'start');
    this.#label.style.left = `${Math.min(Math.max(chart.joints[ply], 36), chart.width - 36)}px`;
    if (!go || (event.type === 'pointermove' && ply === this.#scrubbed)) return;
    this.#scrubbed = ply;
    this.#go(ply);
  }
}
