// @ts-check
import { el, mark, write } from '../../lib/dom.js';

/** NoticePlate draws the notice that stands; it rolls out of the strip and back into it. */
export class NoticePlate {
  #place;
  #box;
  #headline = el('b');
  #evidence = el('span');
  #said = '';

  /** @param {HTMLElement} place clips the plate @param {HTMLElement} box the plate */
  constructor(place, box) {
    this.#place = place;
    this.#box = box;
    box.append(el('i'), this.#headline, this.#evidence);
  }

  /** @param {{kind: string, headline: string, evidence: string} | null} notice */
  show(notice) {
    mark(this.#box, 'data-kind', notice?.kind ?? '');
    mark(this.#place, 'data-shown', String(notice !== null));
    if (!notice) return; // the words stay while the plate rolls back
    const says = `${notice.headline} ${notice.evidence}`;
    if (says === this.#said) return;
    this.#said = says;
    mark(this.#box, 'data-look', notice.kind);
    write(this.#headline, notice.headline);
    write(this.#evidence, notice.evidence);
    mark(this.#box, 'data-narrow', null);
    const cut = [this.#headline, this.#evidence].some((e) => e.scrollWidth > e.clientWidth);
    mark(this.#box, 'data-narrow', cut); // half a sentence is worse than none
  }
}
