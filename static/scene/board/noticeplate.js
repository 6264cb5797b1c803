// @ts-check
import { el, mark, write } from '../../lib/dom.js';
import { gist } from '../news.js';

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
    box.append(el('i', { class: 'edge' }), this.#headline, this.#evidence);
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
    mark(this.#box, 'data-narrow', null);
    for (const evidence of [notice.evidence, gist(notice.evidence)]) {
      write(this.#evidence, evidence);
      if (![this.#headline, this.#evidence].some((e) => e.scrollWidth > e.clientWidth)) return;
    }
    mark(this.#box, 'data-narrow', true); // half a sentence is worse than none
  }
}
