/** CSS functions and units, as the data names them: in the descriptions of its types. */
import { below, data, earliest, feature, named, prefixed, since } from './data.mjs';

/** @type {Map<string, {key: string, since: number}[]>} */
const functions = new Map();
/** @type {Map<string, {key: string, since: number}>} */
const units = new Map();

for (const [path, node] of below(['css', 'types'], 2)) {
  const found = { key: path.join('.'), since: since(node) };
  for (const name of named(node)) {
    if (name.endsWith('()')) functions.set(name.slice(0, -2), [...(functions.get(name.slice(0, -2)) ?? []), found]);
  }
  if (['length', 'angle', 'resolution'].includes(path[2]) && path.length === 4) {
    for (const name of [path[3], ...named(node)]) units.set(name.toLowerCase(), found);
  }
}

/** The data's own children of a property that stand for a function. @param {string} property @param {string} name */
function functionOf(property, name) {
  const children = data.css.properties[property] ?? {};
  for (const [key, node] of Object.entries(children)) {
    if (node.__compat && named(node).includes(`${name}()`)) return feature('css', 'properties', property, key);
  }
  return null;
}

/**
 * What a function needs in the value of a property. Of functions with one name
 * the oldest counts, but shapes are of clip alone.
 *
 * @param {string} property
 * @param {string} name
 */
export function cssFunction(property, name) {
  const own = functionOf(property, name);
  if (own) return own;
  const meant = (functions.get(name) ?? []).filter((f) => property === 'clip' || !f.key.startsWith('css.types.shape.'));
  const bare = /^(-[a-z]+-)(.+)$/.exec(name);
  if (!bare) return earliest(meant);
  return earliest((functions.get(bare[2]) ?? []).map((f) => {
    const node = f.key.split('.').reduce((n, step) => n[step], data);
    return { key: f.key, since: since(node, bare[1]) };
  }));
}

/** @param {string} name such as "dvh" */
export const cssUnit = (name) => units.get(name.toLowerCase()) ?? null;

/**
 * A keyword in the value of a property: the property's own, or that of a longhand,
 * which the shorthand's entry may leave out.
 *
 * @param {string} property
 * @param {string} word
 */
export function cssKeyword(property, word) {
  const own = prefixed(['css', 'properties', property], word);
  if (own) return own;
  const everywhere = feature('css', 'types', 'global_keywords', word) ?? feature('css', 'types', 'color', word.toLowerCase())
    ?? feature('css', 'types', 'color', 'system-color', word.toLowerCase());
  if (everywhere) return everywhere;
  const longhands = Object.keys(data.css.properties).filter((p) => p.startsWith(`${property}-`));
  return earliest(longhands.map((p) => feature('css', 'properties', p, word)));
}
