// @ts-check
/**
 * Single keys of the panel. They act on the card that has the focus, and never
 * together with a modifier or while a field is typed in.
 *
 * @param {Record<string, () => boolean>} actions by key, upper case for letters; false: not for us
 */
export function listen(actions) {
  addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    if (event.target instanceof Element && event.target.closest('input, textarea, select, [contenteditable]')) return;
    const key = event.key.length === 1 ? event.key.toUpperCase() : event.key;
    if (actions[key]?.()) event.preventDefault();
  });
}

/**
 * The card to go to from the one that has the focus.
 *
 * @template T
 * @param {T[]} cards
 * @param {T | null} from
 * @param {1 | -1} step
 * @returns {T | undefined} undefined at either end
 */
export function next(cards, from, step) {
  const at = from === null ? -1 : cards.indexOf(from);
  if (at < 0) return step > 0 ? cards[0] : cards[cards.length - 1];
  return cards[at + step];
}

/**
 * The card that takes the focus when one leaves: the next that stays, else the
 * nearest above.
 *
 * @template T
 * @param {T[]} cards as they stood, the leaving one among them
 * @param {T} leaving
 * @param {(card: T) => boolean} stays
 * @returns {T | undefined} undefined when none stays
 */
export function heir(cards, leaving, stays) {
  const at = cards.indexOf(leaving);
  return cards.slice(at + 1).find(stays) ?? cards.slice(0, Math.max(0, at)).reverse().find(stays);
}
