// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
/** @typedef {import('./actions.js').Action} Action */
import { el, mark, svg, write } from '../lib/dom.js';
import { shapeOf } from '../lib/pointing.js';
import { MEANING } from '../lib/wire.js';
import { icon } from '../surface/dom.js';
import { ariaKey, keyWords } from './keymap.js';

/** What a mark means, by the action that makes it. @type {Record<string, string>} */
export const KIND = { 'mark-attention': MEANING.LOOK, 'mark-plan': MEANING.PLAN, 'mark-threat': MEANING.DANGER, 'mark-weak': MEANING.WEAK };

/** The action that makes a mark. @param {string} kind */
export const markAction = (kind) => Object.keys(KIND).find((name) => KIND[name] === kind) ?? '';

/** The other buttons, with their icons. @type {[string, string][]} */
const OTHERS = [['undo', 'undo'], ['clear-marks', 'clear'], ['keep-marks', 'keep'], ['turn', 'turn']];

/** Tools chooses the meaning of marks, and has what is done to the board. */
export class Tools {
  /** The kind of mark chosen, "" none. */
  kind = '';
  /** @type {Map<string, HTMLElement>} */ #buttons = new Map();
  #chosen;

  /** @param {HTMLElement} root @param {(name: string) => void} run @param {() => void} chosen */
  constructor(root, run, chosen) {
    this.#chosen = chosen;
    for (const name of Object.keys(KIND)) this.#add(root, name, glyph(KIND[name]), () => this.choose(KIND[name]));
    for (const [name, sign] of OTHERS) this.#add(root, name, icon(sign), () => run(name));
  }

  /** Choose a meaning, or the one that is chosen off. @param {string} kind */
  choose(kind) {
    this.kind = this.kind === kind ? '' : kind;
    for (const [name, button] of this.#buttons) if (KIND[name]) mark(button, 'aria-pressed', String(KIND[name] === this.kind));
    mark(document.body, 'data-tool', this.kind || null);
    this.#chosen();
  }

  /** @param {(name: string) => Action | undefined} actions @param {(name: string) => string} key */
  name(actions, key) {
    for (const [name, button] of this.#buttons) {
      const action = actions(name);
      write(/** @type {Element} */ (button.children[1]), action?.title ?? '');
      write(/** @type {Element} */ (button.children[2]), keyWords(key(name)));
      mark(button, 'aria-keyshortcuts', ariaKey(key(name)) || null);
      mark(button, 'title', action?.does);
    }
  }

  /** @param {Desk} desk */
  update(desk) {
    mark(this.#buttons.get('keep-marks') ?? document.body, 'aria-pressed', String(desk.keep));
    mark(this.#buttons.get('turn') ?? document.body, 'aria-pressed', String(desk.turned));
    this.#enable('undo', desk.undoable !== '');
    this.#enable('clear-marks', desk.marks.length > 0);
    const undo = this.#buttons.get('undo');
    if (undo && desk.undoable) mark(undo, 'title', `Takes back ${desk.undoable}`);
  }

  /** @param {string} name @param {boolean} can */
  #enable(name, can) {
    const button = this.#buttons.get(name);
    if (button) mark(button, 'aria-disabled', can ? null : 'true');
  }

  /** @param {HTMLElement} root @param {string} name @param {Node} sign @param {() => void} run */
  #add(root, name, sign, run) {
    const pressed = KIND[name] ? 'false' : null;
    const button = el('button', { type: 'button', class: 'tool', 'data-tool': name, 'aria-pressed': pressed }, sign, el('span', { class: 'tool-word' }), el('kbd', { 'aria-hidden': 'true' }));
    button.addEventListener('click', () => button.getAttribute('aria-disabled') !== 'true' && run());
    this.#buttons.set(name, button);
    root.append(button);
  }
}

/** A mark as it is drawn on the board. @param {string} kind */
export function glyph(kind) {
  const way = kind === MEANING.PLAN || kind === MEANING.DANGER;
  const shape = shapeOf({ kind, from: way ? 'a8' : '', to: way ? 'c8' : 'a8' }, false, false);
  if (!shape) return svg('svg');
  const line = { fill: 'none', 'stroke-linecap': 'round', 'stroke-linejoin': 'round' };
  return svg(
    'svg',
    { class: 'glyph', viewBox: way ? '30 0 260 100' : '-41 0 182 100', 'aria-hidden': 'true' },
    svg('path', { ...line, d: shape.lines, stroke: `var(--mark-${kind})`, 'stroke-width': way ? 15 : 12 }),
    svg('path', { d: shape.areas, fill: `var(--mark-${kind})` }),
  );
}
