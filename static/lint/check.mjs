/** All checks over a set of files. */
import path from 'node:path';
import { checkCSS } from './css.mjs';
import { FLOOR } from './data.mjs';
import { checkHTML } from './html.mjs';
import { checkScripts } from './script.mjs';

/** What browsers get but neither runs nor lays out. */
const PASSED_OVER = ['.woff2', '.txt'];

/**
 * @typedef {{file: string, line: number, key: string, since: number, text: string}} Finding
 *
 * @param {Map<string, string>} files text by absolute path
 * @returns {{findings: Finding[], uses: number, unlisted: string[]}} what is too new, how much was looked up, and
 *   which names of the platform the data has not
 * @throws {Error} at a file of a kind that it has no check for
 */
export function check(files) {
  /** @type {Finding[]} */
  const findings = [];
  const unlisted = new Set();
  let uses = 0;
  const reportFor = (/** @type {string} */ file) => (/** @type {any} */ found, /** @type {number} */ line, /** @type {string} */ text) => {
    uses++;
    if (!(found.since <= FLOOR)) findings.push({ file, line, key: found.key, since: found.since, text });
  };
  const modules = new Map();
  for (const [file, text] of files) {
    const kind = path.extname(file);
    if (kind === '.js') modules.set(file, text);
    else if (kind === '.css') checkCSS(text, reportFor(file));
    else if (kind === '.html' || kind === '.svg') checkHTML(text, reportFor(file));
    else if (!PASSED_OVER.includes(kind)) throw new Error(`${file}: no check for files of this kind`);
  }
  checkScripts(modules, reportFor, (name) => unlisted.add(name));
  return { findings, uses, unlisted: [...unlisted].sort() };
}
