// @ts-check
/** @typedef {import('./actions.js').Action} Action */
/** @typedef {import('./keymap.js').Keymap} Keymap */
import { el, mark, write } from '../lib/dom.js';
import { dialog } from './dialogs.js';
import { keyOf, keyWords } from './keymap.js';

/** What the hands do on the board, which no key of the table does. @type {[string, string][]} */
const HANDS = [
  ['drag, or two taps', 'a move'],
  ['arrows, Enter', 'on the board: go from square to square, pick up and put down'],
  ['right button', 'a square to look at; dragged, a plan'],
  ['Shift and drag', 'a threat'],
  ['Alt and drag', 'what is weak'],
  ['S', 'the second opinion: show it, or fold it away'],
  ['Esc', 'let go'],
];

/**
 * Show every action with what it does and its key: each can be done from here, and
 * given another key.
 *
 * @param {Action[]} actions
 * @param {Keymap} keymap
 * @param {(name: string) => void} run
 * @param {() => void} changed a key is another now
 */
export function showHelp(actions, keymap, run, changed) {
  const said = el('p', { class: 'help-said', role: 'status' });
  const reset = el('button', { type: 'button', class: 'button small' }, 'All keys as they were');
  const close = el('button', { type: 'button', class: 'button small' }, 'Close');
  /** @type {Row[]} */ const rows = [];
  const groups = [...new Set(actions.map((a) => a.group))].map((group) => {
    const own = actions.filter((a) => a.group === group).map((a) => new Row(a, keymap, { run: (name) => (box.close(), run(name)), tell }));
    rows.push(...own);
    return el('section', { class: 'help-group' }, el('h3', {}, group), el('ul', {}, ...own.map((r) => r.root)));
  });
  const hands = el('section', { class: 'help-group' }, el('h3', {}, 'by hand'), el('dl', {}, ...HANDS.flatMap(([how, what]) => [el('dt', {}, how), el('dd', {}, what)])));
  const box = dialog('help', 'All actions and keys', el('div', { class: 'help-foot' }, said, reset, close), el('div', { class: 'help-groups' }, ...groups, hands));
  const draw = () => (rows.forEach((r) => r.draw()), mark(reset, 'hidden', !keymap.changed));
  /** @param {string} words */
  function tell(words) {
    write(said, words || 'Choose a key to give the action another one.');
    changed();
    draw();
  }
  close.addEventListener('click', () => box.close());
  reset.addEventListener('click', () => (keymap.reset(), tell('All keys are as they were.')));
  // Escape lets go of the key that is asked for first.
  box.addEventListener('cancel', (e) => rows.some((r) => r.stop()) && e.preventDefault());
  tell('');
}

/** One action in the help. */
class Row {
  #key = el('button', { type: 'button', class: 'help-key' });
  #asks = false;
  /** @type {Action} */ #action;
  /** @type {Keymap} */ #keymap;
  /** @type {(words: string) => void} */ #tell;

  /** @param {Action} action @param {Keymap} keymap @param {{run: (name: string) => void, tell: (words: string) => void}} told */
  constructor(action, keymap, { run, tell }) {
    [this.#action, this.#keymap, this.#tell] = [action, keymap, tell];
    const title = el('button', { type: 'button', class: 'help-title' }, action.title);
    title.addEventListener('click', () => run(action.name));
    this.#key.addEventListener('click', () => this.#ask());
    this.#key.addEventListener('keydown', (e) => this.#pressed(e));
    this.#key.addEventListener('blur', () => this.stop());
    this.root = el('li', {}, this.#key, title, el('span', { class: 'help-does' }, action.does));
  }

  draw() {
    mark(this.#key, 'data-asks', this.#asks);
    const key = this.#keymap.key(this.#action.name);
    write(this.#key, this.#asks ? 'press it' : keyWords(key) || 'none');
    mark(this.#key, 'aria-label', `Key of “${this.#action.title}”: ${keyWords(key) || 'none'}. Change it`);
  }

  /** No longer wait for a key; whether it did. */
  stop() {
    const was = this.#asks;
    this.#asks = false;
    if (was) this.draw();
    return was;
  }

  #ask() {
    this.#asks = true;
    this.#tell(`Press the new key of “${this.#action.title}”; Esc leaves it.`);
  }

  /** @param {KeyboardEvent} event */
  #pressed(event) {
    if (!this.#asks || ['Shift', 'Control', 'Alt', 'Meta', 'Escape', 'Tab', 'AltGraph'].includes(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
    this.#asks = false;
    const key = keyOf(event);
    const why = this.#keymap.assign(this.#action.name, key);
    this.#tell(why || `${keyWords(key)} is now “${this.#action.title}”.`);
  }
}
