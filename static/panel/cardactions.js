// @ts-check
/** @typedef {import('./stream.js').Card} Card */
import { el, mark } from '../lib/dom.js';
import { PROMPT } from '../lib/wire.js';
import { ActButton } from './actbutton.js';

/** The five buttons of a card, always in this order and place. */
export class CardActions {
  /** @param {string} about id of the sentence @param {(action: string) => void} run */
  constructor(about, run) {
    const button = (/** @type {string} */ place) => new ActButton(place, about, run);
    this.take = button('take');
    this.said = button('said');
    this.pin = button('pin');
    this.drop = button('drop');
    this.air = button('air');
    const all = [this.take, this.said, this.pin, this.drop, this.air];
    this.root = el('div', { class: 'actions' }, ...all.map((b) => b.root));
  }

  /** @param {Card} card @param {import('./card.js').Aired} aired */
  update({ use, mine, end }, aired) {
    const holds = end === '';
    const taken = use.state === PROMPT.TAKEN;
    if (taken && mine) this.take.says('undo', 'Give back');
    else this.take.says('take', 'Take', holds && use.state === PROMPT.OPEN);
    if (use.state === PROMPT.SAID) this.said.says('undo', 'Undo');
    else this.said.says('said', 'Said', (holds || mine) && (!taken || mine));
    if (use.pinned) this.pin.says('unpin', 'Unpin', true, 'pinned');
    else this.pin.says('pin', 'Pin', holds, 'pinned');
    if (use.state === PROMPT.DROPPED) this.drop.says('undo', 'Undo');
    else this.drop.says('drop', 'Drop', (holds || mine || use.pinned !== '') && use.state !== PROMPT.SAID);
    const to = aired === 'coming' || aired === 'leaving';
    if (aired === 'on' || aired === 'leaving') this.air.says('off', 'Take off', true, 'off');
    else this.air.says('air', 'Put on air', holds);
    mark(this.air.root, 'aria-busy', to && 'true');
  }
}
