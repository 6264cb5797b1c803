// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
import { el, mark, write } from '../lib/dom.js';
import { endOf, lineTo, branches } from './tree.js';
import { afterWords, lineWords } from './words.js';

/** Times for thinking to choose from, in seconds; the usual one in the middle. */
const TIMES = [15, 30, 60, 90, 120];
const USUAL = 60;
/** Hints to give one by one, as in relay/desk. */
const HINTS_MOST = 5;

/** ChallengeForm is the set-up of a question about where the desk stands. */
export class ChallengeForm {
  #where = el('p', { class: 'hint', dir: 'auto' });
  #question = /** @type {HTMLInputElement} */ (el('input', { id: 'ask-text', type: 'text', maxlength: 120, placeholder: 'Without words of yours the desk finds some' }));
  #times = el('fieldset', { class: 'choice' }, el('legend', {}, 'Time to think'));
  #answers = el('fieldset', { class: 'choice answers' });
  #hints = el('div', { class: 'hint-fields' });
  #submit = el('button', { type: 'submit', class: 'button' });
  #drawn = '';

  /** @param {(fields: Partial<DeskAct>) => void} prepare */
  constructor(prepare) {
    for (const s of TIMES) this.#times.append(...choice('ask-time', String(s), s < 120 ? `${s} s` : `${s / 60} min`, s === USUAL));
    this.#hint();
    this.root = el(
      'form',
      { class: 'ask-form', autocomplete: 'off' },
      this.#where,
      el('label', { for: 'ask-text' }, 'Question'),
      this.#question,
      this.#times,
      this.#answers,
      el('p', { class: 'label', id: 'ask-hints-label' }, 'Hints, to be given one by one'),
      this.#hints,
      el('div', { class: 'ask-does' }, this.#submit),
    );
    this.root.addEventListener('submit', (e) => {
      e.preventDefault();
      prepare(this.#fields());
    });
  }

  focus() {
    this.#question.focus();
  }

  /** @param {string} title of the action */
  name(title) {
    write(this.#submit, title);
  }

  /** @param {Desk} desk */
  update({ place, lines }) {
    write(this.#where, `The question is about ${place.live ? 'the live position' : 'where the desk stands'}, ${afterWords(place.last)}.`);
    const from = place.move ? [] : branches(lines).filter((b) => b.depth === 0 && b.ply === place.ply);
    const after = place.move ? lines.filter((l) => l.after === place.move) : from.map((b) => b.moves[0]);
    const ends = after.flatMap((m) => endOf(lines, m.id) ?? []);
    const drawn = JSON.stringify([place.move, place.ply, ends.map((m) => m.id)]);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    const chosen = value(this.#answers);
    const own = ends.map((end) => [String(end.id), lineWords(lineTo(lines, end.id).slice(place.move ? lineTo(lines, place.move).length : 0).map((m) => m.step))]);
    const all = [['0', 'the move that is played'], ...own];
    const kept = all.some(([v]) => v === chosen) ? chosen : '0';
    this.#answers.replaceChildren(el('legend', {}, 'Answer, hidden until it is revealed'), ...all.flatMap(([v, words]) => choice('ask-answer', v, words, v === kept)));
  }

  /** @returns {Partial<DeskAct>} */
  #fields() {
    const hints = this.#inputs().map((i) => i.value.trim()).filter(Boolean);
    return { text: this.#question.value.trim(), seconds: Number(value(this.#times)), hints, move: Number(value(this.#answers)) };
  }

  #inputs() {
    return /** @type {HTMLInputElement[]} */ ([...this.#hints.querySelectorAll('input')]);
  }

  /** Another field, as soon as the last one is written in. */
  #hint() {
    const n = this.#inputs().length + 1;
    const field = /** @type {HTMLInputElement} */ (el('input', { type: 'text', maxlength: 120, placeholder: `Hint ${n}`, 'aria-label': `Hint ${n}` }));
    field.addEventListener('input', () => field === this.#inputs().pop() && field.value && n < HINTS_MOST && this.#hint());
    this.#hints.append(field);
    mark(this.#hints, 'data-count', n);
  }
}

/** @param {string} name @param {string} value @param {string} words @param {boolean} checked */
function choice(name, value, words, checked) {
  const id = `${name}-${value}`;
  return [el('input', { type: 'radio', name, id, value, checked }), el('label', { for: id, dir: 'auto' }, words)];
}

/** @param {Element} choices */
function value(choices) {
  return /** @type {HTMLInputElement | null} */ (choices.querySelector('input:checked'))?.value ?? '';
}
