/**
 * What the compatibility data says about Chromium. All versions in this folder
 * come from there; none is written down here but the floor itself.
 */
import { createRequire } from 'node:module';

/** The oldest Chromium that pages must work in. */
export const FLOOR = 103;

export const data = createRequire(import.meta.url)('@mdn/browser-compat-data');

/** Not in the data at all: most likely misspelt. */
export const UNKNOWN = NaN;

/** @param {string} added such as "104", "≤64" or "preview" */
function release(added) {
  if (typeof added !== 'string' || added === 'preview') return Infinity;
  return Number.parseInt(added.replace('≤', ''), 10);
}

/**
 * The release since which Chromium has a feature without a flag and until today;
 * Infinity for none. An early, partial form that a later release replaced does
 * not count; one that was never completed does.
 *
 * @param {any} node of the data, with __compat
 * @param {string} [prefix] such as "-webkit-"
 * @param {string} [name] under which the feature is written, if the data has it as another name
 */
export function since(node, prefix = '', name = undefined) {
  const statements = [node.__compat.support.chrome ?? []].flat();
  const lasting = statements.filter((s) => !s.flags && !s.version_removed
    && (s.prefix ?? '') === prefix && s.alternative_name === name);
  return Math.min(Infinity, ...lasting.map((s) => release(s.version_added)));
}

/**
 * Follow a path of keys that must end in a feature.
 *
 * @param {...string} path
 * @returns {{key: string, since: number} | null} null if the data has no such feature
 */
export function feature(...path) {
  let node = data;
  for (const step of path) {
    if (!node || !Object.hasOwn(node, step)) return null;
    node = node[step];
  }
  return node.__compat ? { key: path.join('.'), since: since(node) } : null;
}

/**
 * The same for names that may carry a vendor's prefix, or are the other name of
 * a child of the parent.
 *
 * @param {string[]} parent path
 * @param {string} name
 */
export function prefixed(parent, name) {
  const plain = feature(...parent, name);
  if (plain || !name.startsWith('-')) return plain;
  const siblings = parent.reduce((node, step) => node?.[step], data) ?? {};
  const [, prefix, rest] = /^(-[a-z]+-)(.+)$/.exec(name) ?? [];
  const candidates = [];
  for (const [key, node] of Object.entries(siblings)) {
    if (!node.__compat) continue;
    const release = Math.min(key === rest ? since(node, prefix) : Infinity, since(node, '', name));
    if (release < Infinity) candidates.push({ key: [...parent, key].join('.'), since: release });
  }
  return earliest(candidates);
}

/** Of features that one name can mean, the one that Chromium had first. @param {({key: string, since: number} | null)[]} list */
export function earliest(list) {
  return list.filter((f) => f !== null).reduce((a, b) => (a && a.since <= b.since ? a : b), null);
}

/** All features below a path with their keys. @param {string[]} path @param {number} depth @returns {Generator<[string[], any]>} */
export function* below(path, depth) {
  const node = path.reduce((n, step) => n?.[step], data);
  for (const [key, child] of Object.entries(node ?? {})) {
    if (key.startsWith('__')) continue;
    if (child.__compat) yield [[...path, key], child];
    if (depth > 1) yield* below([...path, key], depth - 1);
  }
}

/** The names in <code> of a description. @param {any} node @returns {string[]} */
export function named(node) {
  return [...(node.__compat.description ?? '').matchAll(/<code>([^<]+)<\/code>/g)].map((m) => m[1]);
}
