// @ts-check
/** The keyboard's place among the cards, while they come and go. */
import { heir } from './keys.js';

const CARDS = 'article.card';

/** Whether a card stands among the sentences to say. @param {Element} card */
const stands = (card) => card.isConnected && !card.hasAttribute('data-settled');

/**
 * Change the column and keep the focus: on its card while that stands, however
 * far it moves; else on the next one.
 *
 * @param {HTMLElement | null} card the one that has the focus
 * @param {() => void} change
 */
export function keepPlace(card, change) {
  if (!card) return change();
  const byKeyboard = document.activeElement?.matches(':focus-visible') === true;
  const before = /** @type {HTMLElement[]} */ ([...document.querySelectorAll(CARDS)]);
  const stood = stands(card);
  const top = byKeyboard ? card.getBoundingClientRect().top : 0;
  change();
  if (card.isConnected && stands(card) === stood) {
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
