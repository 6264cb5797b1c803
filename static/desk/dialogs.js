// @ts-check
/** @typedef {import('./actions.js').Action} Action */
/** @typedef {import('./actions.js').Field} Field */
import { el } from '../lib/dom.js';
import { piece } from '../pieces/pieces.js';
import { manWords } from './squares.js';

/** @param {string} name for styles @param {string} title @param {...(Node | string)} inside */
export function dialog(name, title, ...inside) {
  const id = `${name}-title`;
  const box = /** @type {HTMLDialogElement} */ (el('dialog', { class: `dialog ${name}`, 'aria-labelledby': id }, el('h2', { id, dir: 'auto' }, title), ...inside));
  box.addEventListener('close', () => box.remove());
  box.addEventListener('click', (e) => e.target === box && box.close()); // beside it
  document.body.append(box);
  box.showModal();
  return box;
}

const closer = () => {
  const button = el('button', { type: 'button', class: 'button plain' }, 'Cancel');
  button.addEventListener('click', () => button.closest('dialog')?.close());
  return button;
};

/**
 * Ask what a pawn becomes.
 *
 * @param {string[]} choices letters as in a move, "q" first
 * @param {boolean} white
 * @param {(letter: string) => void} chosen
 */
export function askPromotion(choices, white, chosen) {
  const buttons = choices.map((letter) => {
    const man = white ? letter.toUpperCase() : letter;
    const button = el('button', { type: 'button', class: 'man-choice', 'aria-label': manWords(man).split(' ')[1] }, piece(man), el('kbd', { 'aria-hidden': 'true' }, letter.toUpperCase()));
    button.addEventListener('click', () => (box.close(), chosen(letter)));
    return button;
  });
  const box = dialog('promote', 'What does the pawn become?', el('div', { class: 'man-choices' }, ...buttons), el('div', { class: 'dialog-does' }, closer()));
  box.addEventListener('keydown', (e) => {
    const at = buttons[choices.indexOf(e.key.toLowerCase())];
    if (at && !e.ctrlKey && !e.metaKey && !e.altKey) at.click();
    const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
    const from = buttons.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    if (step && from >= 0) buttons[(from + step + buttons.length) % buttons.length].focus();
  });
}

/**
 * Ask for what an action has to be told.
 *
 * @param {Action} action
 * @param {Record<string, string>} given what stands there before
 * @param {(fields: Record<string, unknown>) => void} run
 */
export function askFields(action, given, run) {
  const rows = action.fields.map((f) => ({ f, input: field(action, f, given[f.name] ?? '') }));
  const labels = rows.flatMap(({ f, input }) => [el('label', { for: input.id }, sentence(f.does)), input]);
  const does = el('div', { class: 'dialog-does' }, el('button', { type: 'submit', class: 'button' }, action.title), closer());
  const form = el('form', { autocomplete: 'off' }, el('p', { class: 'hint' }, action.does), ...labels, does);
  const box = dialog('ask', action.title, form);
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    box.close();
    run(Object.fromEntries(rows.flatMap(({ f, input }) => (input.value === '' && !given[f.name] ? [] : [[f.name, typed(f, input.value)]]))));
  });
  rows[0]?.input.focus();
  rows[0]?.input.select();
}

/** @param {Action} action @param {Field} f @param {string} value */
function field(action, f, value) {
  const number = f.type === 'integer' || f.type === 'number';
  // An empty name takes a line's name off: a text may be empty though it is required.
  const required = f.required && number;
  return /** @type {HTMLInputElement} */ (el('input', { id: `ask-${action.name}-${f.name}`, type: 'text', value, required, inputmode: number ? 'numeric' : null, pattern: number ? '[0-9]+' : null }));
}

/** @param {Field} f @param {string} text */
function typed(f, text) {
  if (f.type === 'integer' || f.type === 'number') return Number(text);
  if (f.type === 'array') return text.split(';').map((t) => t.trim()).filter(Boolean);
  return f.type === 'boolean' ? text === 'true' : text;
}

/** @param {string} words */
const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);
