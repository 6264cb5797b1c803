// @ts-check
/** @typedef {import('../surface/heads.js').Head} Head */
/** @typedef {import('../lib/wire.js').Holds} HoldsFrame */
import { byId, el, mark, write } from '../lib/dom.js';
import { AddressField } from './addressfield.js';
import { addressOf, boardsOf, holdTyped, holdWrong, sceneOf } from './address.js';

/** Builder writes the address of a scene for the streaming software, from what is chosen in its form. */
export class Builder {
  #origin;
  #form = byId('builder');
  #scene = new Choice('scene', 'Scene');
  #board = new Choice('board', 'Board');
  #options = el('div', { class: 'builder-options' });
  /** @type {Map<string, Choice>} of every scene so far, by scene and name */ #chosen = new Map();
  #hold = /** @type {HTMLInputElement} */ (byId('builder-hold'));
  #said = byId('builder-said');
  #address = new AddressField('the scene chosen');
  #open = byId('builder-open');
  /** @type {readonly import('./address.js').Named[]} */ #boards = [];
  /** @type {HoldsFrame | null} */ #holds = null;
  #token = '';

  /** @param {string} origin of the addresses */
  constructor(origin) {
    this.#origin = origin;
    byId('builder-choices').append(this.#scene.root, this.#board.root, this.#options, byId('builder-hold-label'));
    byId('builder-address').append(this.#address.field, this.#address.button);
    this.#form.addEventListener('submit', (e) => e.preventDefault());
    this.#form.addEventListener('change', () => this.#draw());
    this.#form.addEventListener('input', () => this.#draw());
    mark(this.#scene.root, 'class', 'choice scene');
    mark(this.#board.root, 'class', 'choice wide');
    this.boards([]);
  }

  /** @param {HoldsFrame} frame */
  holds(frame) {
    this.#holds = frame;
    this.#scene.offer(frame.scenes.map((path) => [path, sceneOf(path).name]));
    this.#draw();
  }

  /** @param {string} token the viewers' */
  token(token) {
    this.#token = token;
    this.#draw();
  }

  /** @param {Head[]} boards */
  boards(boards) {
    const named = boards.map(({ board, white, black }) => /** @type {const} */ ([String(board), `${board} · ${white || 'White'} – ${black || 'Black'}`]));
    this.#boards = named.length ? named : [['1', '1']];
    this.#draw();
  }

  #draw() {
    if (!this.#holds || !this.#scene.value) return mark(this.#form, 'hidden', true);
    mark(this.#form, 'hidden', null);
    const scene = this.#scene.value;
    const chosen = sceneOf(scene);
    const { board, options } = chosen;
    mark(this.#board.root, 'hidden', !board);
    if (board) this.#board.offer(boardsOf(chosen, this.#boards));
    const choices = options.map((option) => this.#choice(scene, option));
    const fields = choices.map((c) => c.root);
    if (fields.some((field, i) => this.#options.children[i] !== field) || this.#options.children.length !== fields.length) this.#options.replaceChildren(...fields);
    const hold = holdTyped(this.#hold.value);
    const wrong = holdWrong(hold, this.#holds.mostMs);
    this.#tell(hold, wrong);
    this.#show(wrong ? '' : addressOf(this.#origin, { scene, board: this.#board.value, hold, options: Object.fromEntries(choices.map((c) => [c.name, c.value])), token: this.#token }));
  }

  /** What is chosen for one scene waits for when it is chosen again; what all share is chosen once. @param {string} scene @param {import('./address.js').Option} option */
  #choice(scene, { name, label, values }) {
    const key = `${name} ${values.map(([value]) => value)}`;
    let choice = this.#chosen.get(key);
    if (!choice) this.#chosen.set(key, (choice = new Choice(name, label)));
    choice.offer(values);
    return choice;
  }

  /** @param {string} hold @param {string} wrong */
  #tell(hold, wrong) {
    const unset = !wrong && /^[a-z]/.test(hold) && !this.#holds?.groups.some((g) => g.group === hold);
    mark(this.#hold, 'aria-invalid', wrong ? 'true' : null);
    mark(this.#said, 'data-wrong', wrong !== '');
    write(this.#said, wrong || (unset ? `The hold of ${hold} is not set: until it is, below, the scene shows nothing.` : ''));
  }

  /** @param {string} address */
  #show(address) {
    this.#address.show(address);
    mark(this.#open, 'hidden', address === '');
    if (address) mark(this.#open, 'href', address);
  }
}

/** Choice is a labelled list of which one is chosen. */
class Choice {
  #select;
  #offered = '';

  /** @param {string} name @param {string} label */
  constructor(name, label) {
    this.name = name;
    this.#select = /** @type {HTMLSelectElement} */ (el('select', { class: 'field', name }));
    this.root = el('label', { class: 'choice' }, el('span', {}, label), this.#select);
  }

  get value() {
    return this.#select.value;
  }

  /** Another list; what was chosen stays so, if it still can be. @param {readonly (readonly [string, string])[]} values */
  offer(values) {
    const offered = JSON.stringify(values);
    if (offered === this.#offered) return;
    this.#offered = offered;
    const was = this.#select.value;
    this.#select.replaceChildren(...values.map(([value, words]) => el('option', { value }, words)));
    this.#select.value = values.some(([value]) => value === was) ? was : (values[0]?.[0] ?? '');
  }
}
