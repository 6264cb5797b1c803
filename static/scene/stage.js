// @ts-check
import { mark, svg } from '../lib/dom.js';
import { themeOption } from './themes.js';

/** The picture everything is laid out for. */
const WIDTH = 1920;
const HEIGHT = 1080;

/**
 * Fit the stage into the window, now and whenever the window changes.
 *
 * @param {HTMLElement} stage
 */
export function fitStage(stage) {
  const fit = () => {
    const scale = Math.min(innerWidth / WIDTH, innerHeight / HEIGHT);
    stage.style.setProperty('--scale', String(scale));
    stage.style.setProperty('--left', `${(innerWidth - WIDTH * scale) / 2}px`);
    stage.style.setProperty('--upper', `${(innerHeight - HEIGHT * scale) / 2}px`);
  };
  addEventListener('resize', fit);
  fit();
}

/**
 * Give the page the theme that its address names.
 *
 * @param {URLSearchParams} options
 */
export function setTheme(options) {
  mark(document.documentElement, 'data-theme', themeOption(options.get('theme')));
}

/**
 * Whether anything may move on this page.
 *
 * @param {URLSearchParams} options
 */
export function motionOption(options) {
  return options.get('motion') !== 'off' && !matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/**
 * Draw the safe areas of a 16:9 picture while the scene is lined up. EBU R 95
 * keeps action within 3.5 % and graphics within 5 % of every edge. The words are figures: they come
 * before the language of the show is known.
 *
 * @param {HTMLElement} stage
 */
export function drawSafeAreas(stage) {
  const box = (/** @type {number} */ share, /** @type {string} */ name) => {
    const [x, y] = [WIDTH * share, HEIGHT * share];
    const edge = () => svg('rect', { x, y, width: WIDTH - 2 * x, height: HEIGHT - 2 * y });
    return svg('g', { class: name }, edge(), edge());
  };
  const plate = svg('rect', { class: 'words', x: 916, y: 58, width: 400, height: 40 });
  const words = svg('text', { x: 928, y: 86 }, '- - -  3.5 %  ·  ——  5 %');
  stage.append(svg('svg', { id: 'safe', width: WIDTH, height: HEIGHT }, box(0.035, 'action'), box(0.05, 'graphics'), plate, words));
}
