// @ts-check
const SVG = 'http://www.w3.org/2000/svg';

/**
 * An HTML element with attributes and children. An attribute that is null or
 * false is left out.
 *
 * @param {string} name
 * @param {Record<string, string | number | boolean | null>} [attributes]
 * @param {...(Node | string)} children
 * @returns {HTMLElement}
 */
export function el(name, attributes = {}, ...children) {
  return /** @type {HTMLElement} */ (fill(document.createElement(name), attributes, children));
}

/**
 * The same for SVG.
 *
 * @param {string} name
 * @param {Record<string, string | number | boolean | null>} [attributes]
 * @param {...(Node | string)} children
 * @returns {SVGElement}
 */
export function svg(name, attributes = {}, ...children) {
  return /** @type {SVGElement} */ (fill(document.createElementNS(SVG, name), attributes, children));
}

/**
 * @param {Element} element
 * @param {Record<string, string | number | boolean | null>} attributes
 * @param {(Node | string)[]} children
 */
function fill(element, attributes, children) {
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== null && value !== false) element.setAttribute(key, String(value));
  }
  element.append(...children);
  return element;
}

/** Write a text only when it differs, so that nothing is laid out twice. @param {Element} element @param {string} text */
export function write(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * Set, change or take away an attribute, touching nothing that already is so.
 * Null and false take it away, true leaves it empty.
 *
 * @param {Element} element
 * @param {string} name
 * @param {string | number | boolean | null | undefined} value
 */
export function mark(element, name, value) {
  if (value === null || value === undefined || value === false) return element.removeAttribute(name);
  const text = value === true ? '' : String(value);
  if (element.getAttribute(name) !== text) element.setAttribute(name, text);
}

/** The element a page's own HTML must have. @param {string} id @returns {HTMLElement} */
export function byId(id) {
  const element = document.getElementById(id);
  if (!element) throw new Error(`the page has no element with id "${id}"`);
  return element;
}

/** Show or hide an SVG element. @param {SVGElement} element @param {boolean} visible */
export function show(element, visible) {
  mark(element, 'display', visible ? 'inline' : 'none');
}
