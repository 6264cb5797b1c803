// @ts-check
/** @typedef {import('../lib/wire.js').BoardHead} BoardHead */
import { el, mark, write } from '../lib/dom.js';
import { icon, keepRows } from '../surface/dom.js';

/** How long a button says that it copied; wall milliseconds. */
const COPIED_MS = 2000;

/** @typedef {{name: string, about: string, path: string}} Link */

/** Every address somebody may need, scenes first. @param {BoardHead[]} boards @returns {Link[]} */
export function linksFor(boards) {
  const scenes = boards.map(({ board, white, black }) => ({
    name: `Board ${board}`,
    about: white || black ? `${white || 'White'} – ${black || 'Black'}` : 'scene',
    path: `/scene/board?board=${board}`,
  }));
  const others = [
    { name: 'Panel', about: 'for co-hosts', path: '/panel' },
    { name: 'Metrics', about: 'for Prometheus', path: '/metrics' },
  ];
  return [...scenes, ...others];
}

/** Whether an address reaches nobody but this machine. @param {string} host */
export function onlyHere(host) {
  return host === 'localhost' || host === '[::1]' || /^127(\.\d+){3}$/.test(host);
}

/** Links lists the addresses to paste, each with a button that copies it. */
export class Links {
  /** @type {Map<string, LinkRow>} */ #rows = new Map();
  #list;

  /** @param {Element} list */
  constructor(list) {
    this.#list = list;
  }

  /** @param {BoardHead[]} boards */
  update(boards) {
    const links = linksFor(boards);
    const rows = keepRows(this.#list, this.#rows, links, (link) => link.path, (link) => new LinkRow(link));
    rows.forEach((row, i) => row.update(links[i]));
  }
}

class LinkRow {
  #about = el('span', { class: 'about', dir: 'auto' });
  #word = el('span', {}, 'Copy');
  #field;
  #timer = 0;

  /** @param {Link} link */
  constructor(link) {
    const url = new URL(link.path, location.href).href;
    this.#field = /** @type {HTMLInputElement} */ (el('input', { type: 'text', readonly: true, value: url, 'aria-label': `Address of ${link.name}` }));
    this.#field.addEventListener('focus', () => this.#field.select());
    const copy = el('button', { type: 'button', class: 'button', 'aria-label': `Copy the address of ${link.name}` }, icon('copy'), this.#word);
    copy.addEventListener('click', () => this.#copy());
    const open = el('a', { class: 'link-name', href: link.path, target: '_blank', rel: 'noopener' }, el('strong', {}, link.name), ' ', this.#about);
    this.root = el('li', { class: 'link' }, open, this.#field, copy);
  }

  /** @param {Link} link */
  update(link) {
    write(this.#about, link.about);
  }

  async #copy() {
    const done = await this.#toClipboard();
    write(this.#word, done ? 'Copied' : 'Press Ctrl C');
    mark(this.root, 'data-copied', done);
    clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => write(this.#word, 'Copy'), COPIED_MS);
  }

  /** Pages that came over plain HTTP from another machine have no clipboard: there the selection is copied. */
  async #toClipboard() {
    try {
      await navigator.clipboard.writeText(this.#field.value);
      return true;
    } catch {
      this.#field.focus();
      this.#field.select();
      return document.execCommand('copy');
    }
  }
}
