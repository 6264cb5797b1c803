// @ts-check
/** @typedef {import('../../lib/wire.js').Board} Board */
/** @typedef {import('../../lib/wire.js').Correction} Correction */
import { byId, el, mark, write } from '../../lib/dom.js';
import { move } from '../../lib/figures.js';
import { about, word } from '../../lib/language.js';
import { isWhite, moveNumber, resultText } from '../../lib/san.js';
import { told } from '../words.js';

/** Plies shown when nothing else needs room. */
const SHOWN = 4;
/** Height of two lines of moves, pixels. */
const TWO_LINES = 56;

/**
 * What is told in place of the game: a name, what goes with it and the move that this is about, and moves. whole: all of the moves, however
 * small; else the last few. last: the last of them is the one that the board shows.
 *
 * @typedef {{label: string, note: string, of?: {number: number, san: string}[], steps: {number: number, san: string}[], whole: boolean, last: boolean}} Told
 */

/** Strip is the quiet row: the opening, the last moves, a correction; or what the desk shows in place of the game. */
export class Strip {
  #root = byId('strip');
  #opening;
  #moves;
  #drawn = '';
  /** @type {Board | null} */ #board = null;
  /** @type {Correction | null} */ #fix = null;
  #named = '';
  #cut = 0; // how many parts the name has lost

  /** @param {HTMLElement} opening @param {HTMLElement} moves */
  constructor(opening, moves) {
    this.#opening = opening;
    this.#moves = moves;
  }

  /** @param {Board} board @param {number} now show time */
  draw(board, now) {
    const fix = told(board, now);
    if (board === this.#board && fix === this.#fix) return;
    [this.#board, this.#fix] = [board, fix];
    const key = JSON.stringify([board.plies.slice(-SHOWN), board.plies.length, fix, board.result, board.opening, board.control]);
    if (key === this.#drawn) return;
    this.#drawn = key;
    mark(this.#root, 'data-held', null);
    mark(this.#root, 'data-size', null);
    if (fix) mark(this.#moves, 'data-correction', `${fix.was} ${fix.is}`.trim());
    else this.#moves.removeAttribute('data-correction');
    this.#moves.replaceChildren(...line(board, fix));
    this.#name(board.opening.name || inWords(board.control.text), board.opening.name === '');
  }

  /** @param {Told} told */
  tell(told) {
    const key = JSON.stringify(told);
    if (key === this.#drawn) return;
    [this.#drawn, this.#board, this.#named] = [key, null, ''];
    mark(this.#root, 'data-held', true);
    mark(this.#root, 'data-size', null);
    mark(this.#moves, 'data-correction', null);
    mark(this.#opening, 'data-quiet', 'false');
    this.#opening.replaceChildren(el('span', {}, told.label), el('span', { class: 'note' }, told.note, ...written(told.of ?? [], false)));
    this.#moves.replaceChildren(...written(told.whole ? told.steps : told.steps.slice(-SHOWN), told.last));
    if (told.whole) this.#fit();
  }

  /** Smaller, then on two lines, then without its end. */
  #fit() {
    const label = /** @type {Element} */ (this.#opening.firstElementChild);
    for (const size of [null, 'small']) {
      mark(this.#root, 'data-size', size);
      if (label.scrollWidth <= label.clientWidth) return;
    }
    mark(this.#root, 'data-size', 'two');
    const dots = remark('…');
    while (this.#moves.offsetHeight > TWO_LINES && this.#moves.children.length > 2) {
      if (dots.parentNode) dots.previousElementSibling?.remove();
      this.#moves.append(dots);
    }
  }

  /**
   * The opening has what room the moves leave. A name once cut stays cut, so
   * that it does not grow and shrink with every move.
   *
   * @param {string} text
   * @param {boolean} quiet
   */
  #name(text, quiet) {
    mark(this.#opening, 'data-quiet', String(quiet));
    if (text !== this.#named) [this.#named, this.#cut] = [text, 0];
    const names = shorter(text);
    for (; this.#cut < names.length; this.#cut++) {
      write(this.#opening, names[this.#cut]);
      if (this.#opening.scrollWidth <= this.#opening.clientWidth) return;
    }
    this.#cut = names.length - 1;
  }
}

/**
 * An opening name, and what stays of it when its last part goes, again and
 * again: "A: B, C", "A: B", "A".
 *
 * @param {string} name
 */
export function shorter(name) {
  const names = [name];
  for (let cut = lastJoint(name); cut > 0; cut = lastJoint(name)) {
    name = name.slice(0, cut);
    names.push(name);
  }
  return names;
}

/** A time control in the language of the show, part by part. @param {string} control */
function inWords(control) {
  return control.split(/(, | \+ )/).map(word).join('');
}

/** @param {string} name */
function lastJoint(name) {
  return Math.max(name.lastIndexOf(', '), name.lastIndexOf(': '));
}

/** @param {Board} board @param {Correction | null} fix */
function line(board, fix) {
  const total = board.plies.length;
  // A correction needs room for two more words.
  const first = Math.max(0, total - (fix ? SHOWN - 1 : SHOWN));
  const nodes = [];
  const start = board.plies[0]?.number ?? fix?.ply ?? 1;
  const early = fix !== null && fix.ply - start < first;
  if (early) nodes.push(...corrected(fix, true));
  for (let i = first; i < total; i++) {
    const ply = board.plies[i];
    const here = fix !== null && !early && fix.ply === ply.number;
    if (i === first || isWhite(ply.number)) nodes.push(number(ply.number));
    if (here && fix.was) nodes.push(wrong(fix.was));
    nodes.push(move(ply.san, i === total - 1 ? 'last' : ''));
    if (here) nodes.push(remark('corrected'));
  }
  if (fix && !early && fix.ply - start >= total) nodes.push(...corrected(fix, isWhite(fix.ply) || total === 0));
  const result = resultText(board.result);
  if (result) nodes.push(el('b', { class: 'result' }, result));
  return nodes;
}

/** @param {{number: number, san: string}[]} steps @param {boolean} last */
export function written(steps, last) {
  return steps.flatMap(({ number: n, san }, i) => {
    const drawn = move(san, last && i === steps.length - 1 ? 'last' : '');
    return i === 0 || isWhite(n) ? [number(n), drawn] : [drawn];
  });
}

/** A correction away from the moves shown, or of a move taken back. @param {Correction} fix @param {boolean} numbered */
function corrected(fix, numbered) {
  const nodes = numbered ? [number(fix.ply)] : [];
  if (fix.was) nodes.push(wrong(fix.was));
  if (fix.is) nodes.push(move(fix.is));
  return [...nodes, remark(fix.is ? 'corrected' : 'taken back')];
}

/** @param {number} ply */
function number(ply) {
  return el('span', { class: 'number' }, moveNumber(ply) + (isWhite(ply) ? '' : ' …'));
}

/** @param {string} san */
function wrong(san) {
  return el('s', { 'aria-label': about('not {}', san) }, move(san));
}

/** @param {string} text */
function remark(text) {
  return el('span', { class: 'remark' }, word(text));
}
