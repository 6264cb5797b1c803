// @ts-check
/** @typedef {import('../lib/wire.js').FeedItem} FeedItem */
import { timeText } from '../lib/clock.js';
import { el, mark, write } from '../lib/dom.js';
import { icon, keepRows } from '../surface/dom.js';
import { age, count } from '../surface/words.js';
import { Rhythm } from './drawing.js';
import { mergeItems } from './items.js';

/** @type {Record<string, {word: string, icon: string}>} */
const STATES = {
  ok: { word: 'fine', icon: 'fine' },
  late: { word: 'late', icon: 'warning' },
  stale: { word: 'silent', icon: 'stale' },
  waiting: { word: 'waiting', icon: 'waiting' },
};
const KINDS = new Map([['http', 'HTTP'], ['growing', 'growing file'], ['push', 'sent to us'], ['stdin', 'standard input']]);

/** Feeds draws a row for every feed. */
export class Feeds {
  /** @type {Map<string, FeedRow>} */ #rows = new Map();
  /** @type {FeedItem[]} */ #items = [];
  #list;
  #empty;

  /** @param {Element} list @param {Element} empty said when there is no feed */
  constructor(list, empty) {
    this.#list = list;
    this.#empty = empty;
  }

  /** @param {import('../lib/wire.js').Feeds} frame */
  update(frame) {
    const items = (this.#items = mergeItems(this.#items, frame, (item) => item.name));
    const rows = keepRows(this.#list, this.#rows, items, (item) => item.name, () => new FeedRow());
    rows.forEach((row, i) => row.update(items[i]));
    mark(this.#empty, 'hidden', items.length > 0);
    mark(this.#list, 'data-none', items.length === 0);
  }

  /** @param {import('../surface/clocks.js').Times} times */
  tick(times) {
    for (const row of this.#rows.values()) row.tick(times);
  }
}

class FeedRow {
  /** @type {FeedItem | null} */ #item = null;
  #state = el('p', { class: 'state' });
  #word = el('span');
  #name = el('h3', { dir: 'auto' });
  #facts = el('p');
  #late = el('p', { class: 'lateness', title: 'beyond the least delay of the feed, which cannot be learnt from it' });
  #note = el('p', { class: 'watched', dir: 'auto' });
  #address = el('p', { class: 'address', dir: 'ltr' });
  #rhythm = new Rhythm();
  #age = el('p', { class: 'figure' });
  #unit = el('span', { class: 'unit' });
  #number = el('span');
  #fresh = el('p', { class: 'fresh' });
  #fault = el('p', { class: 'fault-text', dir: 'auto' });
  #faultAge = el('p', { class: 'fault-age' });
  #reading = new Reading();

  constructor() {
    this.#age.append(el('span', { class: 'unseen' }, 'last good answer '), this.#number, this.#unit);
    this.root = el(
      'li',
      { class: 'feed' },
      this.#state,
      el('div', { class: 'who' }, this.#name, this.#facts, this.#late, this.#address, this.#note),
      this.#rhythm.root,
      el('div', { class: 'age' }, this.#age, this.#fresh),
      el('div', { class: 'last-fault' }, this.#fault, this.#faultAge),
      this.#reading.root,
    );
  }

  /** @param {FeedItem} item */
  update(item) {
    this.#item = item;
    mark(this.root, 'data-feed', item.name);
    if (this.root.getAttribute('data-state') !== item.state) this.#look(item.state);
    write(this.#name, item.name);
    const every = item.everyMs > 0 ? `every ${seconds(item.everyMs)}` : '';
    const backup = item.backupOf && `backup of ${item.backupOf}`;
    write(this.#facts, [KINDS.get(item.kind) ?? item.kind, backup, every, count(item.games, 'game')].filter(Boolean).join(', ').replace(/(\d) /g, '$1\u00a0'));
    write(this.#late, latenessWords(item.lateMs));
    write(this.#address, item.address);
    write(this.#note, watchedWords(item));
    mark(this.#note, 'hidden', item.note === '');
    write(this.#fault, item.lastFault ? item.lastFault.text : 'No fault so far');
    mark(this.root, 'data-faulty', item.faults > 0);
    this.#rhythm.update(item);
    this.#reading.update(item.reading);
  }

  /** @param {string} state */
  #look(state) {
    mark(this.root, 'data-state', state);
    this.#state.replaceChildren(icon(STATES[state]?.icon ?? 'warning'), this.#word);
  }

  /** Ages run on without the relay, the state does not: it was so. @param {import('../surface/clocks.js').Times} times */
  tick({ now, lostAt }) {
    const item = this.#item;
    if (!item) return;
    const word = STATES[item.state]?.word ?? item.state;
    write(this.#word, lostAt === null ? word : `was ${word}`);
    const ms = now - item.lastGood;
    const short = ms < 100_000;
    write(this.#number, item.lastGood === 0 ? 'none yet' : short ? String(Math.max(0, Math.floor(ms / 1000))) : timeText(ms));
    write(this.#unit, item.lastGood > 0 && short ? 's' : '');
    mark(this.#age, 'data-none', item.lastGood === 0);
    write(this.#fresh, item.lastNew > 0 ? `new ${age(now - item.lastNew)} ago` : 'nothing new yet');
    write(this.#faultAge, faultWords(item, now));
    this.#rhythm.tick(now, lostAt ?? now);
  }
}

/** What could not be read, folded away until asked for. */
class Reading {
  #summary = el('summary');
  #list = el('ul');
  #said = '';

  constructor() {
    this.root = el('details', { class: 'reading', hidden: true }, this.#summary, this.#list);
  }

  /** @param {string[]} lines */
  update(lines) {
    const said = lines.join('\n');
    if (said === this.#said) return;
    this.#said = said;
    mark(this.root, 'hidden', lines.length === 0);
    write(this.#summary, `${count(lines.length, 'thing')} could not be read`);
    this.#list.replaceChildren(...lines.map((line) => el('li', { dir: 'auto' }, line)));
  }
}

/** How late moves usually come, beyond the feed's least delay. @param {number | null} ms null: not learnt yet */
export function latenessWords(ms) {
  if (ms === null) return 'lateness of moves not learnt yet';
  const s = Math.round(ms / 1000);
  return s === 0 ? 'moves arrive in time, as far as can be told' : `moves arrive about ${s} s late`;
}

/** How a file or a folder is watched, where that is worth a sentence. @param {FeedItem} item */
export function watchedWords(item) {
  return item.note && `${item.kind === 'folder' ? 'The folder' : 'The file'} is ${item.note}`;
}

/** @param {FeedItem} item @param {number} now */
export function faultWords(item, now) {
  if (!item.lastFault) return '';
  const when = `${age(now - item.lastFault.at)} ago`;
  if (item.faults === 0) return `${when}; answers since`;
  return item.faults === 1 ? when : `${when}; ${item.faults} in a row`;
}

/** "3 s", "0.5 s", "2 min". @param {number} ms */
export function seconds(ms) {
  return ms < 60_000 ? `${Number((ms / 1000).toFixed(1))} s` : `${Number((ms / 60_000).toFixed(1))} min`;
}
