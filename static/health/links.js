// @ts-check
/** @typedef {import('../surface/heads.js').Head} Head */
import { el, mark, write } from '../lib/dom.js';
import { keepRows } from '../surface/dom.js';
import { AddressField } from './addressfield.js';

/** @typedef {{name: string, about: string, path: string}} Link */

/** Every address somebody may need, scenes first. @param {Head[]} boards @param {string} [token] the viewers', "" for none @returns {Link[]} */
export function linksFor(boards, token = '') {
  const shown = token ? `&token=${encodeURIComponent(token)}` : '';
  const scenes = boards.map(({ board, white, black }) => ({
    name: `Board ${board}`,
    about: white || black ? `${white || 'White'} – ${black || 'Black'}` : 'scene',
    path: `/scene/board?board=${board}${shown}`,
  }));
  const others = [
    { name: 'Desk', about: 'for commentators', path: '/desk' },
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
  #token = '';
  /** @type {Head[]} */ #boards = [];

  /** @param {Element} list */
  constructor(list) {
    this.#list = list;
  }

  /** @param {string} token the viewers' */
  token(token) {
    this.#token = token;
    this.update(this.#boards);
  }

  /** @param {Head[]} boards */
  update(boards) {
    this.#boards = boards;
    const links = linksFor(boards, this.#token);
    const rows = keepRows(this.#list, this.#rows, links, (link) => link.path, (link) => new LinkRow(link));
    rows.forEach((row, i) => row.update(links[i]));
  }
}

class LinkRow {
  #about = el('span', { class: 'about', dir: 'auto' });

  /** @param {Link} link */
  constructor(link) {
    const address = new AddressField(link.name, (done) => mark(this.root, 'data-copied', done));
    address.show(new URL(link.path, location.href).href);
    const open = el('a', { class: 'link-name', href: link.path, target: '_blank', rel: 'noopener' }, el('strong', {}, link.name), ' ', this.#about);
    this.root = el('li', { class: 'link' }, open, address.field, address.button);
  }

  /** @param {Link} link */
  update(link) {
    write(this.#about, link.about);
  }
}
