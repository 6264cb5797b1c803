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

/** Set an attribute only when it differs. @param {Element} element @param {string} name @param {string} value */
export function mark(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

/** Show or hide an SVG element. @param {SVGElement} element @param {boolean} visible */
export function show(element, visible) {
  mark(element, 'display', visible ? 'inline' : 'none');
}
