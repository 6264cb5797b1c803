/** Texts in modules that are selectors, style, elements, attributes or events. */
import ts from 'typescript';
import { checkCSS } from './css.mjs';
import { feature } from './data.mjs';
import { attributeAnywhere, cssName, event } from './members.mjs';
import { lineage } from './program.mjs';

/**
 * @typedef {{key: string, since: number}} Feature
 * @typedef {(found: Feature | null, node: ts.Node) => void} Use
 * @typedef {{checker: ts.TypeChecker}} Program
 */

/** @param {ts.Node | undefined} node @returns {string | null} a text; a 0 stands for what is put into it */
function text(node) {
  if (!node) return null;
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isTemplateExpression(node)) return node.head.text + node.templateSpans.map((s) => `0${s.literal.text}`).join('');
  return null;
}

/** @param {ts.Node} node @param {string} css @param {string} context @param {Use} use */
const css = (node, css, context, use) => checkCSS(css, (found) => use(found, node), context);

/** @param {Use} use @param {ts.Node} node @param {string} root "html" or "svg" @param {string} name */
const element = (use, node, root, name) => use(feature(root, 'elements', name), node);

/** The functions that take such texts, here and in lib/dom.js, by name. @type {Record<string, (call: ts.CallExpression, a: string, b: string | null, use: Use, types: () => string[]) => void>} */
const TAKERS = {
  querySelector: (call, a, _, use) => css(call, a, 'selectorList', use),
  matchMedia: (call, a, _, use) => css(call, a, 'mediaQueryList', use),
  createElement: (call, a, _, use) => element(use, call, 'html', a),
  createElementNS: (call, _, b, use) => element(use, call, 'svg', b ?? ''),
  setAttribute: (call, a, _, use) => use(attributeAnywhere(a), call),
  mark: (call, _, b, use) => use(b ? attributeAnywhere(b) : null, call),
  setProperty: (call, a, b, use) => css(call, `${a}: ${b ?? '0'}`, 'declarationList', use),
  addEventListener: (call, a, _, use, types) => use(event(types(), a), call),
  el: (call, a, _, use) => made(call, a, 'html', use),
  svg: (call, a, _, use) => made(call, a, 'svg', use),
};
for (const other of ['querySelectorAll', 'matches', 'closest']) TAKERS[other] = TAKERS.querySelector;
for (const other of ['toggleAttribute', 'hasAttribute', 'getAttribute', 'removeAttribute']) TAKERS[other] = TAKERS.setAttribute;
for (const other of ['removeEventListener']) TAKERS[other] = TAKERS.addEventListener;

/** @param {ts.CallExpression} call @param {Program} program @param {Use} use */
export function checkLiterals(call, { checker }, use) {
  const { expression: e } = call;
  const name = ts.isPropertyAccessExpression(e) ? e.name.text : ts.isIdentifier(e) ? e.text : '';
  const [a, b] = [text(call.arguments[0]), text(call.arguments[1])];
  if (!Object.hasOwn(TAKERS, name) || (a === null && b === null)) return;
  const types = () => (ts.isPropertyAccessExpression(e) ? lineage(checker, checker.getTypeAtLocation(e.expression)) : ['Window']);
  TAKERS[name](call, a ?? '', b, use, types);
}

/** An element made by lib/dom.js, with attributes. @param {ts.CallExpression} call @param {string} name @param {string} root @param {Use} use */
function made(call, name, root, use) {
  element(use, call, root, name);
  const attributes = call.arguments[1];
  if (!attributes || !ts.isObjectLiteralExpression(attributes)) return;
  for (const { name: key } of attributes.properties) {
    const word = key && (ts.isIdentifier(key) || ts.isStringLiteralLike(key)) ? key.text : '';
    use(feature(root, 'elements', name, word) ?? attributeAnywhere(word), key ?? call);
  }
}

/** What is assigned to a style. @param {ts.BinaryExpression} node @param {Program} program @param {Use} use */
export function styleValue({ left, operatorToken, right }, { checker }, use) {
  const value = text(right);
  if (operatorToken.kind !== ts.SyntaxKind.EqualsToken || value === null || !ts.isPropertyAccessExpression(left)) return;
  if (!lineage(checker, checker.getTypeAtLocation(left.expression)).some((t) => /^CSSStyle/.test(t))) return;
  const declarations = left.name.text === 'cssText' ? value : `${cssName(left.name.text)}: ${value}`;
  if (value !== '') css(right, declarations, 'declarationList', use);
}

/** A keyframe of an animation: properties of CSS. @param {ts.ObjectLiteralExpression} node @param {Use} use */
export function keyframe(node, use) {
  for (const property of node.properties) {
    if (!property.name || !ts.isIdentifier(property.name) || ['offset', 'easing', 'composite'].includes(property.name.text)) continue;
    const value = ts.isPropertyAssignment(property) ? text(property.initializer) : null;
    css(property, `${cssName(property.name.text)}: ${value ?? 'inherit'}`, 'declarationList', use);
  }
}
