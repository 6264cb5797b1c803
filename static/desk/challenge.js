// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('../lib/wire.js').DeskAct} DeskAct */
/** @typedef {import('../lib/wire.js').DeskChallenge} DeskChallenge */
import { el, mark, write } from '../lib/dom.js';
import { CHALLENGE } from '../lib/wire.js';
import { icon } from '../surface/dom.js';
import { ChallengeForm } from './challengeform.js';
import { lineTo } from './tree.js';
import { afterWords, countdown, lineWords, numbered } from './words.js';

/**
 * @typedef {object} Told
 * @property {(name: string, fields: Partial<DeskAct>) => void} act
 * @property {(name: string) => string} title of an action
 */

/** ChallengeView sets a question up, and has what is done while it is on the air. */
export class ChallengeView {
  #form;
  #open = el('button', { type: 'button', class: 'button small', 'aria-expanded': 'false' }, icon('ask'), el('span'));
  #state = el('p', { class: 'ask-state' });
  #question = el('p', { class: 'ask-question', dir: 'auto' });
  #clock = el('p', { class: 'ask-clock' });
  #bar = el('i');
  #facts = el('p', { class: 'ask-facts', dir: 'auto' });
  #hints = el('ol', { class: 'ask-hints', 'aria-label': 'Hints' });
  #own = el('form', { class: 'ask-own', autocomplete: 'off' });
  #does = el('div', { class: 'ask-does' });
  #up = el('div', { class: 'ask-up' });
  /** @type {Map<string, HTMLButtonElement>} */ #buttons = new Map();
  /** @type {DeskChallenge | null} */ #challenge = null;
  /** @type {Desk | null} */ #desk = null;
  #told;
  #root;

  /** @param {HTMLElement} root @param {Told} told */
  constructor(root, told) {
    this.#told = told;
    this.#root = root;
    this.#form = new ChallengeForm((fields) => (told.act('prepare-challenge', fields), this.unfold(false)));
    this.#open.addEventListener('click', () => this.unfold(this.#form.root.hidden));
    root.querySelector('.part-head')?.append(this.#open);
    for (const name of ['ask', 'give-hint', 'reveal', 'end-challenge']) this.#button(name, () => told.act(name, name === 'reveal' ? this.answer() : {}));
    const time = el('div', { class: 'ask-time' }, this.#clock, el('span', { class: 'ask-bar', 'aria-hidden': 'true' }, this.#bar));
    this.#up.append(this.#state, this.#question, time, this.#facts, this.#hints, this.#own, this.#does);
    this.#ownHint();
    root.append(this.#form.root, this.#up);
    this.unfold(false);
  }

  /** @param {boolean} open @param {boolean} [focus] */
  unfold(open, focus = open) {
    mark(this.#form.root, 'hidden', !open);
    mark(this.#open, 'aria-expanded', String(open));
    mark(this.#root, 'data-open', open);
    if (focus) this.#root.scrollIntoView({ block: 'start' });
    else this.#root.closest('.column')?.scrollTo(0, 0);
    if (focus) this.#form.focus();
  }

  /** Words of the table. */
  name() {
    for (const [name, button] of this.#buttons) write(/** @type {Element} */ (button.firstElementChild), this.#told.title(name));
    write(/** @type {Element} */ (this.#open.lastElementChild), this.#told.title('prepare-challenge'));
    this.#form.name(this.#told.title('prepare-challenge'));
  }

  /** @param {Desk} desk */
  update(desk) {
    const { challenge, lines } = desk;
    [this.#desk, this.#challenge] = [desk, challenge];
    this.#form.update(desk);
    mark(this.#up, 'hidden', challenge === null);
    mark(this.#root, 'data-up', challenge !== null);
    mark(this.#open, 'hidden', challenge !== null && challenge.air.state !== CHALLENGE.READY);
    if (!challenge) return;
    const { air, all, line, forMs } = challenge;
    const ready = air.state === CHALLENGE.READY;
    mark(this.#up, 'data-state', air.state);
    write(this.#state, { [CHALLENGE.READY]: 'Ready. Only the desk knows of it.', [CHALLENGE.ASKED]: 'On the air. Scenes get nothing newer of this board.' }[air.state] ?? 'Answered on the air.');
    write(this.#question, air.question);
    const answer = line ? lineWords(lineTo(lines, line).map((m) => m.step)) : `the move played${challenge.played ? '' : ', once it is'}`;
    const plays = this.answer().move ? ' Reveal it now, and the side line in which the desk stands is played.' : '';
    mark(this.#own, 'hidden', air.state !== CHALLENGE.ASKED);
    write(this.#facts, `Board ${air.board}, ${afterWords(air.last)}; to find: ${numbered(air.number)} Answer: ${answer}.${ready ? ` ${countdown(forMs)} to think.` : plays}`);
    this.#hints.replaceChildren(...all.concat(air.hints.filter((h) => !all.includes(h))).map((h) => el('li', { dir: 'auto', 'data-given': air.hints.includes(h) }, h, ...(air.hints.includes(h) ? [el('span', { class: 'given' }, ' given')] : []))));
    mark(this.#hints, 'hidden', this.#hints.children.length === 0);
    this.#show('ask', ready);
    this.#show('give-hint', air.state === CHALLENGE.ASKED && air.hints.length < all.length);
    this.#show('reveal', air.state === CHALLENGE.ASKED);
    this.#show('end-challenge', true);
  }

  /** @param {number} now show ms */
  tick(now) {
    const c = this.#challenge;
    const asked = c?.air.state === CHALLENGE.ASKED;
    mark(/** @type {Element} */ (this.#clock.parentElement), 'hidden', !asked);
    if (!c || !asked) return this.#until(c, now);
    const left = c.air.ends - now;
    write(this.#clock, left > 0 ? countdown(left) : 'time is up');
    this.#bar.style.transform = `scaleX(${Math.min(1, Math.max(0, left / c.forMs))})`;
    this.#until(c, now);
  }

  /** When it ends by itself. @param {DeskChallenge | null} c @param {number} now */
  #until(c, now) {
    const end = this.#buttons.get('end-challenge');
    const soon = c && c.until > 0 ? `${this.#told.title('end-challenge')}, by itself in ${countdown(c.until - now)}` : this.#told.title('end-challenge');
    if (end && c) write(/** @type {Element} */ (end.firstElementChild), soon);
  }

  /** The answer to be played: the line in which the desk stands, if it answers the question and nothing else was prepared. @returns {Partial<DeskAct>} */
  answer() {
    const [c, desk] = [this.#challenge, this.#desk];
    if (!c || !desk || c.air.state !== CHALLENGE.ASKED || c.line || c.played || !desk.place.move) return {};
    return { move: desk.place.move };
  }

  /** A field for a hint that nobody prepared. */
  #ownHint() {
    const field = /** @type {HTMLInputElement} */ (el('input', { type: 'text', maxlength: 120, placeholder: 'A hint of your own', 'aria-label': 'A hint of your own' }));
    this.#own.append(field, el('button', { type: 'submit', class: 'button small' }, icon('send'), el('span', {}, 'Give')));
    this.#own.addEventListener('submit', (e) => {
      e.preventDefault();
      if (field.value.trim()) this.#told.act('give-hint', { text: field.value.trim() });
      field.value = '';
    });
  }

  /** @param {string} name @param {() => void} run */
  #button(name, run) {
    const button = /** @type {HTMLButtonElement} */ (el('button', { type: 'button', class: 'button', 'data-does': name }, el('span')));
    button.addEventListener('click', run);
    this.#buttons.set(name, button);
    this.#does.append(button);
  }

  /** @param {string} name @param {boolean} shown */
  #show(name, shown) {
    const button = this.#buttons.get(name);
    if (button) mark(button, 'hidden', !shown);
  }
}
