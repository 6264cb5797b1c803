/** Reads the themes from their CSS, and measures colours. */
import { readFileSync } from 'node:fs';

const css = (name) => readFileSync(new URL(`../${name}`, import.meta.url), 'utf8').replace(/\/\*[^]*?\*\//g, '');
const block = (text) => Object.fromEntries([...text.matchAll(/--([a-z-]+):\s*([^;]+);/g)].map(([, name, value]) => [name, value.trim()]));

/** Every theme by its name: all properties, those it leaves out from tokens.css, references resolved. */
export function themes() {
  const base = block(css('lib/tokens.css').match(/:root \{([^}]*)\}/)[1]);
  const own = [...css('scene/themes.css').matchAll(/:root\[data-theme='([a-z]+)'\] \{([^}]*)\}/g)].map(([, name, text]) => [name, block(text)]);
  const all = Object.fromEntries([['dark', {}], ...own]);
  return Object.fromEntries(Object.entries(all).map(([name, given]) => [name, { own: given, of: (property) => resolve({ ...base, ...given }, property) }]));
}

function resolve(properties, name) {
  const value = properties[name];
  if (value === undefined) throw new Error(`there is no --${name}`);
  const to = value.match(/^var\(--([a-z-]+)\)$/);
  return to ? resolve(properties, to[1]) : value;
}

/** Linear red, green and blue of "#rrggbb", 0 to 1: WCAG 2.2, "relative luminance". */
export function linear(hex) {
  if (!/^#[0-9a-f]{6}$/.test(hex)) throw new Error(`${hex} is no colour`);
  return [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
}

const luminance = ([r, g, b]) => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Contrast of two linear colours: WCAG 2.2, "contrast ratio". */
export function contrast(a, b) {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

/**
 * Linear colours as people with one kind of cone missing see them: Machado, Oliveira and Fernandes, "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency", 2009, severity 1.0. The figures
 * are those of the npm package culori 4.0.2, src/deficiency.js.
 */
export const VISIONS = {
  all: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  tritanopia: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
};

export function seen([r, g, b], m) {
  return [0, 3, 6].map((i) => Math.min(1, Math.max(0, m[i] * r + m[i + 1] * g + m[i + 2] * b)));
}

/** How far two linear colours are apart: CIE 1976, delta E in L*a*b* under D65; 2.3 is just noticeable. */
export function apart(a, b) {
  const [x, y] = [lab(a), lab(b)];
  return Math.hypot(...x.map((v, i) => v - y[i]));
}

/** Matrix and white of IEC 61966-2-1 (sRGB), L*a*b* of CIE 15; from memory. */
function lab([r, g, b]) {
  const f = (t) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}
