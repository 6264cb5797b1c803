// @ts-check
/** @typedef {import('./shared.js').ShownNote} ShownNote */
import { byId, el, mark, write } from '../lib/dom.js';
import { icon, keepRows } from '../surface/dom.js';
import { Press } from '../surface/press.js';
import { count } from '../surface/words.js';
import { who } from './cardwords.js';

/** Characters of a note or a sentence of one's own, as in relay/atpanel.go. */
export const TEXT_MOST = 200;
/** So near to the limit it is told. */
const NEAR = 40;

/** How a text stands against the limit: characters as the relay counts them. @param {string} text */
export function room(text) {
  const left = TEXT_MOST - [...text.trim()].length;
  const words = left < 0 ? `${count(-left, 'character')} too many` : left <= NEAR ? `${count(left, 'character')} left` : '';
  return { fits: left >= 0 && left < TEXT_MOST, over: left < 0, words };
}

/** "18:42". @param {number} at show ms */
export function clockTime(at) {
  const d = new Date(at);
  return `${d.getHours()}:${String(d.getMinutes()).padStart(2, '0')}`;
}

/** @typedef {{note: (text: string) => void, wipe: (id: string) => void, air: (text: string) => void}} Actions */

/** Notes are what the co-hosts write to each other, and the field for it; a sentence of one's own goes on the air from there. */
export class Notes {
  /** @type {Map<string, NoteRow>} */ #rows = new Map();
  #actions;
  #field = /** @type {HTMLInputElement} */ (byId('note'));
  #send = /** @type {HTMLButtonElement} */ (byId('note-send'));
  #air = /** @type {HTMLButtonElement} */ (byId('note-air'));
  #all = byId('notes-all');
  #open = false;
  #count = 0;

  /** @param {Actions} actions */
  constructor(actions) {
    this.#actions = actions;
    byId('note-form').addEventListener('submit', (e) => {
      e.preventDefault();
      this.#take(actions.note);
    });
    this.#air.addEventListener('click', () => this.#take(actions.air));
    this.#field.addEventListener('input', () => this.#measure());
    this.#field.addEventListener('keydown', (e) => e.key === 'Escape' && this.#field.blur());
    this.#all.addEventListener('click', () => this.#unfold(!this.#open));
    this.#measure();
  }

  focus() {
    this.#field.focus({ preventScroll: true });
  }

  get count() {
    return this.#count;
  }

  /** @param {ShownNote[]} notes oldest first @param {string} me */
  update(notes, me) {
    this.#count = notes.length;
    const newest = [...notes].reverse();
    const make = (/** @type {ShownNote} */ n) => new NoteRow(() => this.#actions.wipe(n.id));
    const rows = keepRows(byId('notes-list'), this.#rows, newest, (n) => n.id, make);
    rows.forEach((row, i) => row.update(newest[i], me));
    mark(byId('notes-list'), 'hidden', notes.length === 0);
    mark(this.#all, 'hidden', notes.length < 2);
    this.#unfold(this.#open);
  }

  /** @param {(text: string) => void} send */
  #take(send) {
    const text = this.#field.value.trim().replace(/\p{Cc}/gu, ' ');
    if (!room(text).fits) return this.#field.focus();
    this.#field.value = '';
    this.#measure();
    send(text);
  }

  #measure() {
    const { fits, over, words } = room(this.#field.value);
    write(byId('note-room'), words);
    mark(byId('note-room'), 'hidden', words === '');
    mark(byId('note-room'), 'data-over', over);
    mark(this.#field, 'aria-invalid', over && 'true');
    this.#send.disabled = this.#air.disabled = !fits;
  }

  /** @param {boolean} open */
  #unfold(open) {
    this.#open = open;
    mark(byId('notes-list'), 'data-open', open);
    mark(this.#all, 'aria-expanded', String(open));
    write(/** @type {Element} */ (this.#all.firstElementChild), open ? 'fewer' : `all ${this.#count}`);
  }
}

class NoteRow {
  #by = el('strong', { dir: 'auto' });
  #when = el('span', { class: 'when' });
  #text = el('span', { class: 'note-text', dir: 'auto' });
  #wipe;

  /** @param {() => void} wipe */
  constructor(wipe) {
    this.#wipe = new Press({ class: 'button wipe' }, wipe, icon('wipe'));
    this.root = el('li', {}, el('p', {}, this.#by, ' ', this.#when, ' ', this.#text), this.#wipe.root);
  }

  /** @param {ShownNote} note @param {string} me */
  update(note, me) {
    this.root.id = `note-${note.id}`;
    write(this.#by, who(note.by, me));
    write(this.#when, note.waits ? 'not sent yet' : clockTime(note.at));
    write(this.#text, note.text);
    this.#wipe.says('Wipe', 'Wipe it?', note.id);
    mark(this.#wipe.root, 'aria-label', null);
    mark(this.#wipe.root, 'aria-describedby', this.root.id);
  }
}
