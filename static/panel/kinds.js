// @ts-check
import { byId, el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { Roving } from '../surface/roving.js';

/** Kinds of prompts, with the word on the button. */
export const KINDS = [
  ['', 'all kinds'], ['tell', 'tell'], ['clock', 'clock'], ['facts', 'facts'], ['reference', 'reference'], ['engine', 'engine'], ['match', 'match'], ['feed', 'feed'],
];

/** Kinds narrow the panel to one kind, and hide what was said; on a phone they stand behind one button. */
export class Kinds {
  /** @type {Map<string, HTMLElement>} */ #buttons = new Map();
  #hide = el('button', { type: 'button', class: 'chip hide-said', 'aria-pressed': 'false' }, 'hide said');
  #toggle = byId('kinds-toggle');
  #root = byId('kind-filters');
  #roving;
  kind = '';
  hideSaid = false;

  /** @param {() => void} changed */
  constructor(changed) {
    const row = byId('kinds');
    this.#roving = new Roving(row);
    for (const [kind, word] of KINDS) {
      const button = el('button', { type: 'button', class: 'chip', 'data-kind-filter': kind }, ...(kind ? [icon(kind)] : []), word);
      button.addEventListener('click', () => {
        this.choose(kind);
        this.#unfold(false);
        changed();
      });
      this.#buttons.set(kind, button);
      row.append(button);
    }
    this.#hide.addEventListener('click', () => {
      this.hideSaid = !this.hideSaid;
      this.choose(this.kind);
      changed();
    });
    this.#root.append(this.#hide);
    this.#toggle.addEventListener('click', () => this.#unfold(!this.#root.hasAttribute('data-open')));
    this.choose('');
  }

  /** @param {string} kind */
  choose(kind) {
    this.kind = kind;
    for (const [k, button] of this.#buttons) mark(button, 'aria-pressed', String(k === kind));
    mark(this.#hide, 'aria-pressed', String(this.hideSaid));
    write(/** @type {Element} */ (this.#toggle.firstElementChild), KINDS.find(([k]) => k === kind)?.[1] ?? kind);
    mark(this.#toggle, 'data-narrow', kind !== '' || this.hideSaid);
    this.#roving.refresh();
  }

  /** @param {boolean} open */
  #unfold(open) {
    mark(this.#root, 'data-open', open);
    mark(this.#toggle, 'aria-expanded', String(open));
  }
}
