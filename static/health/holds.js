// @ts-check
/** @typedef {import('../lib/wire.js').Holds} HoldsFrame */
/** @typedef {import('../lib/wire.js').PageCount} PageCount */
import { byId, el, mark, write } from '../lib/dom.js';
import { keepRows } from '../surface/dom.js';
import { count } from '../surface/words.js';
import { moreGroupsWords } from './pagewords.js';
import { Said } from './said.js';
import { Sender } from './sender.js';

/** @typedef {{group: string, holdMs: number | null, pages: number}} Held a group, null: not set */

/** Seconds as they are written: "12", "7.5". @param {number} ms */
export const secondsText = (ms) => String(ms / 1000);

/**
 * Every group there is something to tell of: those that were set, then those that only
 * a page names.
 *
 * @param {{group: string, holdMs: number}[]} groups
 * @param {PageCount[]} pages how many name each group
 * @returns {Held[]}
 */
export function heldGroups(groups, pages) {
  const named = pages.map((p) => p.name).filter((name) => !groups.some((h) => h.group === name));
  const all = [...groups, ...named.sort().map((group) => ({ group, holdMs: null }))];
  return all.map(({ group, holdMs }) => ({ group, holdMs, pages: pages.find((p) => p.name === group)?.count ?? 0 }));
}

/** @param {Held} held */
export function groupWords({ holdMs, pages }) {
  const scenes = pages ? count(pages, 'scene') : 'no scene';
  return holdMs === null ? `not set: ${scenes} shown nothing` : `${secondsText(holdMs)} s, ${scenes}`;
}

/** What is wrong with what was typed, and where; null: nothing that this page knows of. @param {string} group @param {string} seconds @param {number} mostMs */
export function holdFault(group, seconds, mostMs) {
  if (!group) return { field: 'group', words: 'Write the name of a group, such as air.' };
  if (!/^\d+(\.\d+)?$/.test(seconds) || Number(seconds) * 1000 > mostMs) return { field: 'seconds', words: `Write a number of seconds, 0 to ${secondsText(mostMs)}.` };
  return null;
}

/** Holds lists the groups of scenes that are held back, and lets the producer set by how much. */
export class Holds {
  /** @type {Map<string, HoldRow>} */ #rows = new Map();
  /** @type {HoldsFrame | null} */ #frame = null;
  /** @type {PageCount[]} */ #pages = [];
  #list = byId('holds');
  #more = byId('more-holds');
  #fields = { group: input('hold-group'), seconds: input('hold-seconds') };
  #sender;
  #said;
  #sending = false;

  /** @param {import('./sender.js').Post} post */
  constructor(post) {
    const form = byId('hold-form');
    this.#sender = new Sender(post);
    this.#said = new Said(this.#sender);
    form.append(this.#said.root);
    for (const field of Object.values(this.#fields)) {
      mark(field, 'aria-describedby', this.#said.id);
      field.addEventListener('input', () => this.#touched());
    }
    form.addEventListener('submit', (e) => {
      e.preventDefault();
      if (!this.#sending) this.#submit(this.#fields.group.value.trim(), this.#fields.seconds.value.trim().replace(',', '.'));
    });
  }

  /** @param {HoldsFrame} frame */
  update(frame) {
    this.#frame = frame;
    this.#draw();
  }

  /** @param {import('../lib/wire.js').Pages} frame */
  pages({ groups, moreGroups }) {
    this.#pages = groups;
    this.#draw();
    write(this.#more, moreGroupsWords(moreGroups));
    mark(this.#more, 'hidden', moreGroups === 0);
  }

  #draw() {
    const groups = heldGroups(this.#frame?.groups ?? [], this.#pages);
    const rows = keepRows(this.#list, this.#rows, groups, (g) => g.group, (g) => new HoldRow(g.group, (group) => this.#choose(group)));
    rows.forEach((row, i) => row.update(groups[i]));
  }

  /** @param {string} group */
  #choose(group) {
    this.#touched();
    this.#fields.group.value = group;
    const set = this.#frame?.groups.find((g) => g.group === group);
    this.#fields.seconds.value = set ? secondsText(set.holdMs) : '';
    this.#fields.seconds.focus();
    this.#fields.seconds.select?.();
  }

  #touched() {
    if (this.#sending) return;
    this.#said.show('none');
    for (const field of Object.values(this.#fields)) mark(field, 'aria-invalid', null);
  }

  /** @param {string} group @param {string} seconds */
  async #submit(group, seconds) {
    this.#touched();
    const fault = holdFault(group, seconds, this.#frame?.mostMs ?? Infinity);
    if (fault) return this.#wrong(fault.field === 'group' ? this.#fields.group : this.#fields.seconds, fault.words);
    this.#sending = true;
    const done = await this.#said.follow(this.#sender, { act: 'hold', text: group, hold: seconds }, `hold of ${group}`, `${group} is held back by ${seconds} s.`);
    this.#sending = false;
    if (!done && this.#said.kind === 'error') mark(this.#fields.group, 'aria-invalid', 'true');
  }

  /** @param {HTMLInputElement} field @param {string} words */
  #wrong(field, words) {
    this.#said.show('error', words);
    mark(field, 'aria-invalid', 'true');
    field.focus();
  }
}

class HoldRow {
  #words = el('span', { class: 'hold-words' });

  /** @param {string} group @param {(group: string) => void} choose */
  constructor(group, choose) {
    const change = el('button', { type: 'button', class: 'button', 'data-hold-group': group, 'aria-label': `Change the hold of ${group}` }, 'Change');
    change.addEventListener('click', () => choose(group));
    this.root = el('li', { class: 'hold' }, el('strong', {}, group), this.#words, change);
  }

  /** @param {Held} held */
  update(held) {
    mark(this.root, 'data-unset', held.holdMs === null);
    write(this.#words, groupWords(held));
  }
}

/** @param {string} id @returns {HTMLInputElement} */
const input = (id) => /** @type {HTMLInputElement} */ (byId(id));
