/** From a name in JavaScript, and the type that TypeScript found it on, to the data. */
import { below, data, earliest, feature } from './data.mjs';

/** TypeScript's names for what the data has under another. @type {Record<string, string>} */
const OTHER_NAMES = {
  ReadonlyArray: 'Array', ReadonlyMap: 'Map', ReadonlySet: 'Set', ReadonlySetLike: 'Set', CallableFunction: 'Function',
  NewableFunction: 'Function', PromiseLike: 'Promise', IteratorObject: 'Iterator', ArrayIterator: 'Iterator',
  MapIterator: 'Iterator', SetIterator: 'Iterator', GlobalEventHandlers: 'Element', RegExpMatchArray: 'Array', RegExpExecArray: 'Array',
  ImportMeta: 'import_meta',
};
/** What the data has not as a member, but tells of elsewhere. @type {Record<string, string[]>} */
const ELSEWHERE = {
  'RegExpMatchArray.groups': ['regular_expressions', 'named_capturing_group'], 'RegExpExecArray.groups': ['regular_expressions', 'named_capturing_group'],
  'RegExpMatchArray.indices': ['builtins', 'RegExp', 'hasIndices'], 'RegExpExecArray.indices': ['builtins', 'RegExp', 'hasIndices'],
};
const TYPED_ARRAY = /^(Big)?(Ui|I)nt\d+(Clamped)?Array$|^Float\d+Array$/;

/** @type {Map<string, {key: string, since: number}[]>} */
const byName = new Map();
for (const root of [['api'], ['javascript', 'builtins'], ['javascript', 'builtins', 'Intl']]) {
  for (const [path] of below(root, 2)) {
    const found = feature(...path);
    if (path.length < root.length + 2 || !found) continue;
    const name = /** @type {string} */ (path.at(-1)).replace(/_static$/, '');
    byName.set(name, [...(byName.get(name) ?? []), found]);
  }
}

/**
 * What a member of a value of unknown type needs at least: the oldest feature of that
 * name. So push() of anything passes, and toSorted() of anything does not.
 *
 * @param {string} name
 */
export const memberByName = (name) => earliest(byName.get(name) ?? []);

/**
 * A member of a type of the platform.
 *
 * @param {string} type such as "Element", "PromiseConstructor"
 * @param {string} name
 * @param {boolean} fixed whether it is a member of the constructor itself
 */
export function member(type, name, fixed) {
  const bare = type.replace(/Constructor$/, '');
  const known = OTHER_NAMES[bare] ?? bare;
  const key = name.replace(/^__@(\w+?)(@\d+)?$/, '@@$1');
  if (key === 'prototype') return global(known);
  return feature('javascript', 'builtins', known, key)
    ?? feature('javascript', ...(ELSEWHERE[`${type}.${name}`] ?? []))
    ?? feature('javascript', 'builtins', 'Intl', known, key)
    ?? (TYPED_ARRAY.test(known) ? feature('javascript', 'builtins', 'TypedArray', key) : null)
    ?? (known === 'import_meta' ? feature('javascript', 'operators', known, key) : null)
    ?? feature('api', known, fixed || type !== bare ? `${key}_static` : key)
    ?? feature('api', known, key)
    ?? feature('api', known, `${key}_static`)
    ?? (/^on[a-z]/.test(key) ? feature('api', known, `${key.slice(2)}_event`) : null)
    ?? (/^[A-Z][A-Z_]+$/.test(key) ? feature('api', known) : null); // a constant is as old as what holds it
}

/** A name that stands for itself: a class, a function, an object. @param {string} name */
export function global(name) {
  return feature('javascript', 'builtins', name) ?? feature('api', name) ?? feature('api', 'Window', name)
    ?? feature('api', 'EventTarget', name);
}

/** An event by its name. @param {string[]} types the target's type and those it inherits from @param {string} name */
export function event(types, name) {
  const own = types.map((t) => feature('api', t, `${name}_event`)).find(Boolean);
  return own ?? earliest(byName.get(`${name}_event`) ?? []);
}

/**
 * An option that a function takes in an object.
 *
 * @param {string} callee the function's key
 * @param {string} name
 */
export function option(callee, name) {
  const fits = new RegExp(`(^|_)${name}_(parameter|option)$`);
  for (const [path] of below(callee.split('.'), 3)) {
    const [group, last] = /** @type {[string, string]} */ (path.slice(-2));
    if (fits.test(last) || (last === name && group === 'options_parameter')) return feature(...path);
  }
  return null;
}

/** All elements and attributes: what one of unknown kind needs at least. @param {string} name */
export function attributeAnywhere(name) {
  const list = [feature('html', 'global_attributes', name), feature('svg', 'global_attributes', name), feature('css', 'properties', name)];
  for (const root of ['html', 'svg']) {
    for (const element of Object.keys(data[root].elements)) list.push(feature(root, 'elements', element, name));
  }
  return earliest(list);
}

/** @param {string} name such as "marginTop" or "webkitMaskImage" */
export const cssName = (name) => (name === 'cssFloat' ? 'float'
  : name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`).replace(/^webkit-/, '-webkit-'));
