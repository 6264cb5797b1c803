// @ts-check
/** @typedef {import('../lib/wire.js').Desk} Desk */
import { el, mark, write } from '../lib/dom.js';
import { icon } from '../surface/dom.js';
import { Press } from '../surface/press.js';

/** Who leads, as this desk is told. @param {Pick<Desk, 'lead' | 'asks'>} desk @param {string} me */
export function leadWords({ lead, asks }, me) {
  if (lead === '') return 'Nobody leads: whoever acts first does.';
  if (lead !== me) return `${lead} leads. You see what ${lead} does; what you do here waits until you lead.${asks !== '' && asks === me ? ' You have asked for the lead.' : ''}`;
  return asks && asks !== me ? `You lead, and ${asks} asks for the lead.` : 'You lead.';
}

/** Lead says whose acts count, and changes it: nobody's lead ends without a word. */
export class Lead {
  #words = el('p', { class: 'lead-words', dir: 'auto' });
  /** @type {Record<string, HTMLElement>} */ #buttons = {};
  #over;
  #root;
  #title;

  /** @param {HTMLElement} root @param {(name: string, fields?: {over?: boolean}) => void} act @param {(name: string) => string} title */
  constructor(root, act, title) {
    this.#root = root;
    this.#title = title;
    this.#over = new Press({ class: 'button small' }, () => act('lead', { over: true }));
    const does = el('div', { class: 'lead-does' });
    for (const name of ['lead', 'ask-for-lead', 'hand-over']) {
      const button = el('button', { type: 'button', class: 'button small', 'data-act': name }, el('span'));
      this.#buttons[name] = button;
      does.append(button);
    }
    does.append(this.#over.root);
    root.append(icon('hand'), this.#words, does);
  }

  /** @param {Desk} desk @param {string} me */
  update(desk, me) {
    const others = desk.lead !== '' && desk.lead !== me;
    mark(this.#root, 'data-others', others);
    mark(this.#root, 'data-asked', !others && desk.lead !== '' && desk.asks !== '' && desk.asks !== me);
    mark(document.body, 'data-follows', others);
    write(this.#words, leadWords(desk, me));
    mark(this.#buttons.lead, 'hidden', desk.lead !== '');
    mark(this.#buttons['ask-for-lead'], 'hidden', !others || desk.asks === me);
    mark(this.#buttons['hand-over'], 'hidden', others || desk.lead === '');
    mark(this.#over.root, 'hidden', !others);
    this.#over.says(this.#title('lead'), `Take it from ${desk.lead}?`, desk.lead);
  }
}
