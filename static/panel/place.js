// @ts-check
/** The keyboard's place among the cards, while they come and go. */
import { heir } from '../surface/keys.js';

const CARDS = 'article.card';

/** Where a card stands: among the sentences to say, on the shelf, below them, or no longer. @param {Element} card */
function placeOf(card) {
  if (!card.isConnected) return '';
  return card.hasAttribute('data-settled') ? 'settled' : card.closest('.shelf') ? 'shelf' : 'stream';
}

/** @param {Element} card */
const stands = (card) => placeOf(card) === 'stream';

/**
 * Change the column and keep the focus: on its card while that stays in its
 * part of the panel, however far it moves there; else on the next one to say.
 *
 * @param {HTMLElement | null} card the one that has the focus
 * @param {() => void} change
 */
export function keepPlace(card, change) {
  if (!card) return change();
  const byKeyboard = document.activeElement?.matches(':focus-visible') === true;
  const before = /** @type {HTMLElement[]} */ ([...document.querySelectorAll(CARDS)]);
  const place = placeOf(card);
  const top = byKeyboard ? card.getBoundingClientRect().top : 0;
  change();
  if (card.isConnected && placeOf(card) === place) {
    if (!holdsFocus(card)) card.focus({ preventScroll: true });
    if (byKeyboard && card.getBoundingClientRect().top !== top) card.scrollIntoView({ block: 'nearest' });
  } else if (byKeyboard) moveTo(heir(before, card, stands));
}

/** A button that had the focus may have gone with the card's state. @param {Element} card */
function holdsFocus(card) {
  const focused = document.activeElement;
  return card.contains(focused) && !focused?.closest('[hidden], :disabled');
}

/** @param {HTMLElement | undefined} card none: nobody has the focus then */
function moveTo(card) {
  if (!card) return /** @type {HTMLElement | null} */ (document.activeElement)?.blur();
  card.focus({ preventScroll: true });
  card.scrollIntoView({ block: 'nearest' });
}
