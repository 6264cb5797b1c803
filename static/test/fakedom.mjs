/** As much of a browser's document as the forms of the health page and the reference of the panel use. */
class Node {
  children = [];
  attributes = new Map();
  listeners = new Map();
  dataset = {};
  style = {};
  hidden = false;
  value = '';
  text = '';

  constructor(name) {
    this.name = name;
  }
  append(...nodes) {
    for (const node of nodes) this.children.push(typeof node === 'string' ? Object.assign(new Node('#text'), { text: node }) : node);
    for (const child of this.children) child.parentElement = this;
  }
  replaceChildren(...nodes) {
    this.children = [];
    this.text = '';
    this.append(...nodes);
  }
  before() {}
  insertBefore(node, next) {
    const i = this.children.indexOf(next);
    this.children.splice(i < 0 ? this.children.length : i, 0, node);
    node.parentElement = this;
  }
  remove() {
    this.parentElement.children = this.parentElement.children.filter((c) => c !== this);
  }
  /** Whether it is in one of the states that a test put it in: ":hover". */
  matches(selector) {
    return selector.split(', ').some((s) => this.states?.includes(s) ?? false);
  }
  focus() {
    globalThis.document.activeElement = this;
  }
  setAttribute(key, value) {
    this.attributes.set(key, value);
    if (key === 'hidden') this.hidden = true;
  }
  hasAttribute(key) {
    return this.attributes.has(key);
  }
  getAttribute(key) {
    return this.attributes.get(key) ?? null;
  }
  removeAttribute(key) {
    this.attributes.delete(key);
    if (key === 'hidden') this.hidden = false;
  }
  addEventListener(type, run) {
    this.listeners.set(type, [...(this.listeners.get(type) ?? []), run]);
  }
  fire(type, event = {}) {
    for (const run of this.listeners.get(type) ?? []) run({ preventDefault() {}, stopPropagation() {}, ...event });
  }
  get textContent() {
    return this.text + this.children.map((c) => c.textContent).join('');
  }
  set textContent(text) {
    this.children = [];
    this.text = text;
  }
  /** The first node below this one for which it holds. */
  find(holds) {
    for (const child of this.children) {
      const found = holds(child) ? child : child.find(holds);
      if (found) return found;
    }
    return null;
  }
}

globalThis.document = { createElement: (name) => new Node(name), createElementNS: (_, name) => new Node(name), activeElement: null };
globalThis.window ??= { setTimeout: () => 0 };
globalThis.HTMLInputElement ??= class {};
