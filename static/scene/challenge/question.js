// @ts-check
/** @typedef {import('../../lib/wire.js').AirChallenge} AirChallenge */
/** @typedef {import('../../lib/wire.js').Board} Board */
import { byId, el, mark, write } from '../../lib/dom.js';
import { spoken } from '../../lib/placement.js';
import { moveNumber } from '../../lib/san.js';
import { saysTurn, toMove } from '../airwords.js';
import { written } from '../board/strip.js';
import { fit } from '../caption/fit.js';

/** A question in the place that it shares with the countdown: in the largest of these that holds it. */
const ASKED = [
  { size: 64, leading: 72, lines: 1, width: 1400 },
  { size: 52, leading: 60, lines: 1, width: 1400 },
  { size: 42, leading: 44, lines: 2, width: 1400 },
  { size: 32, leading: 34, lines: 2, width: 1400 },
  { size: 26, leading: 29, lines: 3, width: 1400 },
];
/** Above its answer. */
const ANSWERED = [
  { size: 32, leading: 40, lines: 1, width: 1680 },
  { size: 26, leading: 34, lines: 1, width: 1680 },
  { size: 22, leading: 26, lines: 2, width: 1680 },
];
/** The answer. */
const PLAYED = [
  { size: 60, leading: 72, lines: 1, width: 1680 },
  { size: 48, leading: 60, lines: 1, width: 1680 },
  { size: 36, leading: 42, lines: 2, width: 1680 },
  { size: 28, leading: 30, lines: 3, width: 1680 },
];
/** As --plate in tokens.css. */
const PLATE_MS = 250;
/** Hints may take so many pixels above the strip; where they would take more, the first go. */
const HINTS_MOST = 216;

/** Question writes what is asked, the hints and the answer. */
export class Question {
  #said = '';
  #hinted = '';
  #answered = '';

  /** What fitted, fits no longer: the type has come. */
  forget() {
    this.#said = this.#hinted = this.#answered = '';
  }

  /**
   * @param {AirChallenge} challenge @param {Board | null} board @param {import('../picture.js').Picture} picture
   * @param {import('../airwords.js').AirWords} words
   */
  draw(challenge, board, picture, words) {
    const asked = picture.state === 'asked';
    const black = challenge.fen.split(' ')[1] === 'b';
    mark(byId('turn'), 'data-side', black ? 'black' : 'white');
    write(byId('opening'), !asked ? words.answer : saysTurn(words, challenge) ? '' : toMove(words, challenge.fen));
    const names = board?.white.short && board.black.short ? `${board.white.short} – ${board.black.short}` : '';
    write(byId('names'), names);
    write(byId('moment'), words.at(moveNumber(challenge.number)));
    mark(byId('board'), 'aria-label', `${spoken(picture.fen)} ${asked ? toMove(words, challenge.fen) : ''}`.trim());
    this.#ask(challenge, asked);
    this.#hint(asked ? challenge.hints : [], challenge.id, words);
    this.#answer(asked ? null : picture);
  }

  /** @param {AirChallenge} challenge @param {boolean} asked */
  #ask({ id, question }, asked) {
    const key = JSON.stringify([id, question, asked]);
    if (key === this.#said) return;
    this.#said = key;
    write(byId('question'), question);
    set(byId('question'), asked ? ASKED : ANSWERED);
  }

  /** @param {string[]} hints @param {number} id @param {import('../airwords.js').AirWords} words */
  #hint(hints, id, words) {
    const key = JSON.stringify([id, hints, words.hint(1)]);
    if (key === this.#hinted) return;
    this.#hinted = key;
    const place = byId('hints');
    const lines = hints.map((text, i) => el('p', {}, el('b', {}, words.hint(i + 1)), el('span', { dir: 'auto' }, text)));
    place.replaceChildren(...lines);
    mark(place, 'hidden', lines.length === 0);
    for (const small of [false, true]) {
      mark(place, 'data-small', small);
      if (place.offsetHeight <= HINTS_MOST) break;
    }
    while (lines.length > 1 && place.offsetHeight > HINTS_MOST) lines.shift()?.remove();
    if (document.body.dataset.motion === 'on' && !document.hidden) lines[lines.length - 1]?.animate({ opacity: [0, 1] }, PLATE_MS);
  }

  /** All of it takes its place at once, so that nothing moves as it comes. @param {import('../picture.js').Picture | null} picture */
  #answer(picture) {
    const place = byId('answer');
    const key = picture ? JSON.stringify(picture.steps.map((s) => s.san)) : '';
    if (key !== this.#answered) {
      this.#answered = key;
      place.replaceChildren(...(picture ? written(picture.steps, false) : []));
      if (picture) set(place, PLAYED);
    }
    let played = 0;
    for (const part of place.children) {
      const isMove = part.matches('.move');
      mark(part, 'data-to-come', picture !== null && played >= picture.shown);
      if (isMove) mark(part, 'class', ++played === picture?.shown ? 'move last' : 'move');
    }
  }
}

/** Set a text in the largest step that holds it. @param {HTMLElement} place @param {import('../caption/fit.js').Step[]} steps */
function set(place, steps) {
  /** @type {(step: import('../caption/fit.js').Step, width: number) => import('../caption/fit.js').Lines} */
  const run = ({ size, leading }, width) => {
    const { style } = place;
    [style.fontSize, style.lineHeight, style.width, style.overflowWrap] = [`${size}px`, `${leading}px`, `${width}px`, 'normal'];
    const broken = place.scrollWidth > width;
    if (broken) style.overflowWrap = 'anywhere';
    return { lines: Math.round(place.offsetHeight / leading), broken };
  };
  const { step, width } = fit(steps, run);
  run(step, Math.min(step.width, width + 1)); // a browser tells widths rounded
}
