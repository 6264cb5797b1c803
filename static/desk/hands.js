// @ts-check
/** @typedef {import('./actions.js').Action} Action */
/** @typedef {import('./keymap.js').Keymap} Keymap */
import { OPINION_KEY, keyOf } from './keymap.js';

/**
 * Single keys: they do the actions of the table, and never with a modifier, in a
 * field, or while a dialog is open.
 *
 * @param {() => Keymap | null} keymap null: not known yet
 * @param {(name: string) => void} run
 * @param {{help: () => void, escape: () => boolean, opinion: () => void}} own keys of the page
 */
export function useKeys(keymap, run, own) {
  /** @type {Set<string>} what is held down does its action once */ const down = new Set();
  addEventListener('keydown', (event) => {
    const other = event.getModifierState('AltGraph'); // it makes signs
    if (event.defaultPrevented || (!other && (event.ctrlKey || event.altKey)) || event.metaKey) return;
    const target = event.target instanceof Element ? event.target : null;
    if (document.querySelector('dialog[open]') || target?.closest('input:not([type=radio]), textarea, select, [contenteditable]')) return;
    if (event.key === '?') return (event.preventDefault(), own.help());
    if (keyOf(event) === OPINION_KEY) return (event.preventDefault(), own.opinion());
    if (event.key === 'Escape') return void (own.escape() && event.preventDefault());
    if (target?.closest('input, fieldset') && event.key.startsWith('Arrow')) return; // they choose there
    const action = keymap()?.action(keyOf(event));
    if (!action) return;
    event.preventDefault();
    if (!down.has(event.code) || REPEATS.test(event.key)) run(action.name);
    down.add(event.code);
  });
  addEventListener('keyup', (event) => down.delete(event.code));
  addEventListener('blur', () => down.clear());
}

/** What may be held down: steps. */
const REPEATS = /^Arrow/;
