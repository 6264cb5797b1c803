// @ts-check
import { el } from './dom.js';
import { parts } from './san.js';
import { figurine } from '../pieces/pieces.js';

/**
 * A move with figurines. Its name for screen readers is the plain notation.
 *
 * @param {string} san
 * @param {string} [name] a class
 */
export function move(san, name = '') {
  const drawn = parts(san).map((p) => (p.piece ? figurine(p.piece) : (p.text ?? '')));
  return el('span', { class: `move ${name}`.trim(), role: 'img', 'aria-label': san }, ...drawn);
}
