// @ts-check
/** The actions of the desk, as GET /api/actions describes them. */

/**
 * @typedef {object} Field
 * @property {string} name
 * @property {string} type as JSON Schema names it
 * @property {string} does
 * @property {boolean} required
 */

/**
 * @typedef {object} Action
 * @property {string} name
 * @property {string} group
 * @property {string} title
 * @property {string} does
 * @property {string} key "" none
 * @property {Field[]} fields
 */

const PREFIX = '/api/actions/';

/**
 * Read the description of the actions: an OpenAPI document with a path for each.
 *
 * @param {any} document
 * @returns {Action[]} group by group, in the order of the table where the document tells it
 */
export function readActions(document) {
  const groups = (document?.tags ?? []).map((/** @type {any} */ tag) => tag.name);
  const place = (/** @type {any} */ post) => [groups.indexOf(post.tags?.[0]), post['x-order'] ?? 0];
  return Object.entries(document?.paths ?? {})
    .flatMap(([path, item]) => (path.startsWith(PREFIX) && /** @type {any} */ (item).post ? [/** @type {any} */ (item).post] : []))
    .sort((a, b) => place(a)[0] - place(b)[0] || place(a)[1] - place(b)[1])
    .map((post) => ({
      name: String(post.operationId),
      group: String(post.tags?.[0] ?? ''),
      title: String(post.summary ?? post.operationId),
      does: String(post.description ?? ''),
      key: String(post['x-key'] ?? ''),
      fields: fieldsOf(document, post),
    }));
}

/** What every call may carry is no field of an action: whose call it is. */
const ENVELOPE = ['id', 'who'];

/** @param {any} document @param {any} post @returns {Field[]} */
function fieldsOf(document, post) {
  const schema = resolved(document, post.requestBody?.content?.['application/json']?.schema);
  const required = new Set(schema?.required ?? []);
  return Object.entries(schema?.properties ?? {})
    .filter(([name]) => !ENVELOPE.includes(name))
    .map(([name, is]) => ({
      name,
      type: String(/** @type {any} */ (is).type ?? 'string'),
      does: String(/** @type {any} */ (is).description ?? ''),
      required: required.has(name),
    }));
}

/** Follow a reference inside the document. @param {any} document @param {any} schema */
function resolved(document, schema) {
  const ref = schema?.$ref;
  if (typeof ref !== 'string' || !ref.startsWith('#/')) return schema;
  return ref.slice(2).split('/').reduce((at, part) => at?.[part], document);
}
