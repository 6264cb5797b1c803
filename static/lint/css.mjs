/** What a stylesheet, a selector, a media query or a declaration needs. */
import { generate, parse, walk } from 'css-tree';
import { UNKNOWN, feature, prefixed } from './data.mjs';
import { cssFunction, cssKeyword, cssUnit } from './values.mjs';

/** Blocks of descriptors, not of properties. */
const DESCRIPTORS = ['font-face', 'property', 'counter-style', 'font-palette-values', 'view-transition', 'font-feature-values', 'function'];
/** Functions that the data does not list by name: as old as what they stand in. */
const OLD_FUNCTIONS = ['format', 'local', 'repeat', 'minmax', 'layer', 'supports'];
/** Functions in which e, pi and the like are numbers. */
const MATHS = /^(calc|min|max|clamp|round|mod|rem|sin|cos|tan|asin|acos|atan|atan2|pow|sqrt|hypot|log|exp|abs|sign)$/;

/**
 * @typedef {{key: string, since: number}} Feature
 * @typedef {(found: Feature, line: number, text: string) => void} Report
 */

/**
 * @param {string} text
 * @param {Report} report called with each feature used
 * @param {string} [context] of css-tree: "stylesheet", "selectorList", "mediaQueryList", "declarationList"
 */
export function checkCSS(text, report, context = 'stylesheet') {
  /** @type {any[]} */
  const above = [];
  const onParseError = (/** @type {any} */ error, /** @type {any} */ raw) => {
    const nested = raw.type === 'Raw' && raw.value.includes('{');
    report(nested ? nesting() : { key: `css: ${error.message}`, since: UNKNOWN }, error.line, raw.value ?? '');
  };
  const tree = parse(text, { context, positions: true, parseCustomProperty: true, onParseError });
  walk(tree, {
    enter(/** @type {any} */ node) {
      for (const found of needs(node, above)) report(found, node.loc.start.line, generate(node).slice(0, 60));
      above.push(node);
    },
    leave() {
      above.pop();
    },
  });
}

const nesting = () => /** @type {Feature} */ (feature('css', 'selectors', 'nesting'));

/**
 * @param {any} node
 * @param {any[]} above its ancestors, the outermost first
 * @returns {Feature[]} what it needs; features that the data has not are left out where anything may stand
 */
function needs(node, above) {
  if (above.some((a) => a.type === 'Condition' && a.kind === 'supports')) return []; // asks, does not use
  const by = {
    Atrule: atRule, Rule: rule, NestingSelector: () => [nesting()], PseudoClassSelector: pseudo, PseudoElementSelector: pseudo,
    Nth: nth, AttributeSelector: attribute, Feature: media, FeatureRange: range, Condition: condition,
    Declaration: declaration, Function: func, Identifier: keyword, Dimension: dimension,
  }[/** @type {string} */ (node.type)];
  return (by?.(node, above) ?? []).filter((f) => f !== null);
}

/** @param {Feature | null} found @param {string} otherwise @returns {Feature} */
const orUnknown = (found, otherwise) => found ?? { key: otherwise, since: UNKNOWN };
/** @param {any[]} above @param {string} type */
const nearest = (above, type) => above.findLast((a) => a.type === type);

/** @param {any} node @param {any[]} above */
function atRule(node, above) {
  const page = nearest(above, 'Atrule')?.name === 'page' ? feature('css', 'at-rules', 'page', `at_${node.name}`) : null;
  const parts = node.prelude?.children?.toArray?.() ?? [];
  return [
    page ?? orUnknown(prefixed(['css', 'at-rules'], node.name), `@${node.name}`),
    ...parts.map((/** @type {any} */ p) => feature('css', 'at-rules', node.name, p.name ?? '')),
  ];
}

/** @param {any} node @param {any[]} above */
const rule = (node, above) => (nearest(above, 'Rule') ? [nesting()] : []);

/** @param {any} node */
function pseudo(node) {
  const parent = ['css', 'selectors'];
  const asFunction = node.children ? feature(...parent, `${node.name}function`) : null;
  return [asFunction ?? orUnknown(prefixed(parent, node.name), `:${node.name}`)];
}

/** @param {any} node @param {any[]} above */
const nth = (node, above) => (node.selector ? [feature('css', 'selectors', above.at(-1).name, 'of_syntax')] : []);

/** @param {any} node */
const attribute = (node) => (node.flags
  ? [feature('css', 'selectors', 'attribute', node.flags === 's' ? 'case_sensitive_modifier' : 'case_insensitive_modifier')] : []);

/** @param {any} node */
function media(node) {
  if (node.kind !== 'media') return [];
  const name = node.name.replace(/^(min|max)-/, '');
  const found = prefixed(['css', 'at-rules', 'media'], node.name) ?? feature('css', 'at-rules', 'media', name);
  const value = node.value?.type === 'Identifier' ? feature('css', 'at-rules', 'media', name, node.value.name) : null;
  return [orUnknown(found, `@media (${node.name})`), value];
}

/** @param {any} node */
const range = (node) => (node.kind === 'media' ? [feature('css', 'at-rules', 'media', 'range_syntax')] : []);

/** @param {any} node */
const condition = (node) => (node.kind === 'media' && node.children.some((/** @type {any} */ c) => c.name === 'or')
  ? [feature('css', 'at-rules', 'media', 'or_syntax')] : []);

/** @param {any} node @param {any[]} above */
function declaration(node, above) {
  if (node.property.startsWith('--')) return [];
  const holder = above.findLast((a) => a.type === 'Rule' || a.type === 'Atrule');
  if (holder?.type === 'Atrule' && DESCRIPTORS.includes(holder.name)) {
    return [orUnknown(prefixed(['css', 'at-rules', holder.name], node.property), `@${holder.name} ${node.property}`)];
  }
  const descriptor = holder?.name === 'page' ? feature('css', 'at-rules', 'page', node.property) : null;
  const words = node.value.type === 'Value' ? node.value.children.toArray() : [];
  const several = node.property === 'display' && words.length > 1;
  return [
    descriptor ?? orUnknown(prefixed(['css', 'properties'], node.property), node.property),
    several ? feature('css', 'properties', 'display', 'multi-keyword_values') : null,
  ];
}

/** @param {any} node @param {any[]} above */
function func(node, above) {
  const property = nearest(above, 'Declaration')?.property ?? '';
  const found = OLD_FUNCTIONS.includes(node.name) ? null : orUnknown(cssFunction(property, node.name), `${node.name}()`);
  const words = node.children.toArray().map((/** @type {any} */ c) => c.name);
  return [
    found,
    words[0] === 'from' ? feature('css', 'types', 'color', node.name, 'relative_syntax') : null,
    words.includes('in') ? feature('css', 'types', 'gradient', node.name, 'interpolation_color_space') : null,
    nearest(above, 'Atrule')?.name === 'font-face' && node.name === 'tech' ? feature('css', 'at-rules', 'font-face', 'src', 'tech_keyword') : null,
  ];
}

/** @param {any} node @param {any[]} above */
function keyword(node, above) {
  const property = nearest(above, 'Declaration')?.property;
  const outer = nearest(above, 'Function')?.name;
  if (outer) return [MATHS.test(outer) ? feature('css', 'types', 'calc-keyword', node.name) : null];
  return property && !property.startsWith('--') ? [cssKeyword(property, node.name)] : [];
}

/** @param {any} node */
const dimension = (node) => [cssUnit(node.unit)];
