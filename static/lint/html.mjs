/** What a document or a picture in SVG needs. */
import { parse } from 'parse5';
import { checkCSS } from './css.mjs';
import { feature } from './data.mjs';

/** @typedef {(found: {key: string, since: number}, line: number, text: string) => void} Report */

/** @param {string} text @param {Report} report */
export function checkHTML(text, report) {
  const visit = (/** @type {any} */ node) => {
    if (node.tagName && node.sourceCodeLocation) element(node, report);
    for (const child of [...(node.childNodes ?? []), ...(node.content?.childNodes ?? [])]) visit(child);
  };
  visit(parse(text, { sourceCodeLocationInfo: true }));
}

/** @param {any} node @param {Report} report */
function element(node, report) {
  const root = node.namespaceURI.endsWith('svg') ? 'svg' : 'html';
  const line = node.sourceCodeLocation.startLine;
  const use = (/** @type {any} */ found, /** @type {string} */ what) => found && report(found, line, what);
  use(feature(root, 'elements', node.tagName), `<${node.tagName}>`);
  for (const { name, value } of node.attrs) {
    const own = feature(root, 'elements', node.tagName, name);
    const place = own ? [root, 'elements', node.tagName, name] : [root, 'global_attributes', name];
    use(own ?? feature(...place), name);
    for (const word of value.split(/\s+/)) use(feature(...place, word) ?? feature(...place, `${name}_${word}`), `${name}="${value}"`);
    if (name === 'type') use(feature(root, 'elements', node.tagName, `type_${value}`), `type="${value}"`);
    if (name === 'style') checkCSS(value, (f, _, t) => report(f, line, t), 'declarationList');
    if (name === 'media') checkCSS(value, (f, _, t) => report(f, line, t), 'mediaQueryList');
  }
  if (node.tagName === 'style') checkCSS(node.childNodes[0]?.value ?? '', (f, l, t) => report(f, line + l - 1, t));
}
