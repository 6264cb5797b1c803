// @ts-check
/** What the single keys of the panel do. */
import { byId, mark } from '../lib/dom.js';
import { listen, next } from '../surface/keys.js';

const CARDS = 'article.card';

/**
 * @typedef {object} Hands
 * @property {() => HTMLElement | null} card the one that the keyboard stands on
 * @property {() => boolean} undo takes back the last step, whatever the card
 * @property {() => boolean} off takes off the air what is on it
 * @property {() => boolean} showNew
 * @property {() => boolean} note goes to the field for notes
 * @property {() => boolean} reference
 */

/** @param {Hands} hands */
export function useKeys(hands) {
  const act = (/** @type {string[]} */ ...names) => () => press(hands.card(), names);
  listen({
    ArrowDown: () => go(hands.card(), 1),
    ArrowUp: () => go(hands.card(), -1),
    T: act('take'),
    S: act('said'),
    P: act('pin', 'unpin'),
    D: act('drop'),
    A: () => act('off', 'air')() || hands.off(),
    U: () => act('undo')() || hands.undo(),
    N: hands.note,
    V: hands.showNew,
    R: hands.reference,
    '?': () => help(),
    Escape: () => leave(hands.card()),
  });
  byId('keys').addEventListener('click', () => help());
  help(matchMedia('(hover: hover) and (pointer: fine)').matches); // a tablet rarely has keys
}

/** Press the button of a card that does one of these. @param {HTMLElement | null} card @param {string[]} names */
function press(card, names) {
  const buttons = names.flatMap((n) => [...(card?.querySelectorAll(`[data-action="${n}"]`) ?? [])]);
  const button = buttons.find((b) => !b.closest('[hidden], :disabled'));
  if (!(button instanceof HTMLElement)) return false;
  button.click();
  return true;
}

/** @param {HTMLElement | null} from @param {1 | -1} step */
function go(from, step) {
  const over = (/** @type {HTMLElement} */ c) => c.hasAttribute('data-end') && !c.hasAttribute('data-mine') && !c.hasAttribute('data-pinned');
  const alive = (/** @type {HTMLElement} */ c) => c === from || (c.offsetParent !== null && !over(c));
  const cards = /** @type {HTMLElement[]} */ ([...document.querySelectorAll(CARDS)]).filter(alive);
  const card = next(cards, from, step);
  card?.focus({ preventScroll: true });
  card?.scrollIntoView({ block: 'nearest' });
  return card !== undefined;
}

/** Show or hide what the keys do. */
function help(open = byId('help').hidden) {
  mark(byId('help'), 'hidden', !open);
  mark(byId('keys'), 'aria-expanded', String(open));
  return true;
}

/** @param {HTMLElement | null} card */
function leave(card) {
  card?.focus();
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  return true;
}
