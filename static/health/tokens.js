// @ts-check
/** @typedef {import('../lib/wire.js').AccessRole} AccessRole */
/** @typedef {import('../lib/wire.js').Renewed} Renewed */
import { byId, el, mark, write } from '../lib/dom.js';
import { ARMED_MS, Twice } from '../surface/twice.js';
import { AddressField } from './addressfield.js';

/** What each role may open, for the producer to choose by. @type {Record<string, string>} */
const OPENS = { viewer: 'Scenes', panel: 'Panel', desk: 'Desk', producer: 'Health' };

/** When a link was made. @param {number} made wall ms @param {string} [locale] */
export function madeWords(made, locale) {
  return `made ${new Date(made).toLocaleString(locale, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' })}`;
}

/** Tokens lists the links by which people come in, and makes a new one after a second press. */
export class Tokens {
  #list = byId('tokens');
  /** @type {Map<string, Row>} */ #rows = new Map();
  #renewed;

  /** @param {() => void} renewed called when there is a new one */
  constructor(renewed) {
    this.#renewed = renewed;
  }

  /** @param {AccessRole[]} roles none: nobody is asked for a token */
  update(roles) {
    mark(byId('tokens-part'), 'hidden', roles.length === 0);
    for (const { role, made } of roles) {
      let row = this.#rows.get(role);
      if (!row) {
        this.#rows.set(role, (row = new Row(role, this.#renewed)));
        this.#list.append(row.root);
      }
      row.update(made);
    }
  }
}

class Row {
  #role;
  #renewed;
  #twice = new Twice();
  #timer = 0;
  #about = el('span', { class: 'about' });
  #said = el('p', { class: 'token-said', role: 'status' });
  #button;
  #address;

  /** @param {string} role @param {() => void} renewed */
  constructor(role, renewed) {
    this.#role = role;
    this.#renewed = renewed;
    const name = OPENS[role] ?? role;
    this.#button = el('button', { type: 'button', class: 'button', 'data-renew': role, 'aria-label': `Make a new link: ${name}` }, 'New link');
    this.#button.addEventListener('click', () => this.#press());
    this.#address = new AddressField(`the new link: ${name}`);
    const words = el('p', { class: 'link-name' }, el('strong', {}, name), this.#about);
    this.root = el('li', { class: 'token' }, words, this.#button, this.#said);
  }

  /** @param {number} made */
  update(made) {
    write(this.#about, madeWords(made));
  }

  #press() {
    clearTimeout(this.#timer);
    if (this.#twice.press(this.#role, performance.now())) return void this.#renew();
    write(this.#said, 'Press again for a new link. The old one ends, for everybody who has come with it.');
    this.#timer = window.setTimeout(() => write(this.#said, ''), ARMED_MS);
  }

  async #renew() {
    write(this.#said, 'Making it …');
    try {
      const response = await fetch(`/api/access/${this.#role}`, { method: 'POST', cache: 'no-store' });
      const answer = /** @type {Renewed} */ (await response.json());
      if (!answer.done) return write(this.#said, answer.error);
      this.#address.show(location.origin + answer.path);
      this.root.append(this.#address.field, this.#address.button);
      write(this.#said, 'This link is shown here only now: copy it.');
      this.#renewed();
    } catch {
      write(this.#said, 'No answer came: whether there is a new link is not known. Make one again.');
    }
  }
}
