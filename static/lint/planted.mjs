/**
 * What the lint must find, with the release that the data gives (source: @mdn/browser-compat-data
 * 8.1.9, key "chrome"), and its neighbours that must pass. NaN: the data knows no such thing;
 * Infinity: no Chromium has it. [code, part of the key, release]; a row without a release passes.
 */

/** @typedef {[code: string, key?: string, since?: number]} Row */

/** @type {Row[]} */
export const CSS = [
  ['.a { & .b { color: red } }', 'selectors.nesting', 120],
  ['.a { color: red; .b { color: red } }', 'selectors.nesting', 120],
  ['.a { @media (min-width: 9px) { color: red } .b > i { top: 0 } }', 'selectors.nesting', 120],
  ['.a:has(> b) { top: 0 }', 'selectors.has', 105],
  ['.a:is(b, c):where(d):not(e, f):focus-visible { top: 0 }'],
  ['a:user-invalid { top: 0 }', 'user-invalid', 119],
  ['a:popover-open { top: 0 }', 'popover-open', 114],
  ['a:dir(rtl) { top: 0 }', 'selectors.dir', 120],
  ['li:nth-child(2 of .x) { top: 0 }', 'of_syntax', 111],
  ['li:nth-child(2n + 1) { top: 0 }'],
  ['::view-transition { top: 0 }', 'view-transition', 109],
  ['::highlight(x) { top: 0 }', 'selectors.highlight', 105],
  ['::-webkit-scrollbar { width: 0 } ::placeholder { opacity: 1 } ::marker { color: red }'],
  ['a:hvoer { top: 0 }', ':hvoer', NaN],
  ['@container (width > 3px) { a { top: 0 } }', '@container|at-rules.container', 105],
  ['.a { container-type: inline-size }', 'container-type', 105],
  ['.a { width: 3cqw }', 'container_query_length_units', 105],
  ['@scope (.a) { b { top: 0 } }', 'at-rules.scope', 118],
  ['@starting-style { b { top: 0 } }', 'starting-style', 117],
  ['@layer a { b { top: 0 } }'],
  ['@property --x { syntax: "<length>"; inherits: false; initial-value: 0px }'],
  ['@view-transition { navigation: auto }', 'at-rules.view-transition', 126],
  ['@import url(x.css) supports(display: grid);', 'import.supports', 122],
  ['@import url(x.css) layer(a);'],
  ['@font-face { src: url(x) format("woff2") tech(color-colrv1) }', 'tech_keyword', 108],
  ['@font-face { font-family: x; src: url(x) format("woff2"); font-display: block; size-adjust: 90%; unicode-range: U+0-7F }'],
  ['@media (width >= 600px) { a { top: 0 } }', 'range_syntax', 104],
  ['@media (400px <= width <= 600px) { a { top: 0 } }', 'range_syntax', 104],
  ['@media (hover) or (min-width: 9px) { a { top: 0 } }', 'or_syntax', 104],
  ['@media (update: slow) { a { top: 0 } }', 'media.update', 113],
  ['@media (scripting: none) { a { top: 0 } }', 'media.scripting', 120],
  ['@media (prefers-reduced-transparency: reduce) { a { top: 0 } }', 'transparency', 118],
  ['@media (min-width: 9px) and (max-aspect-ratio: 3/2), print and (prefers-contrast: more) { a { top: 0 } }'],
  ['@supports selector(:has(a)) or (color: oklch(0 0 0)) { a { top: 0 } }'],
  ['.a { color: color-mix(in srgb, red, blue) }', 'color-mix', 111],
  ['.a { --k: color-mix(in srgb, red, blue) }', 'color-mix', 111],
  ['.a { color: oklch(0.5 0.1 20) }', 'oklch', 111],
  ['.a { color: light-dark(red, blue) }', 'light-dark', 123],
  ['.a { color: rgb(from red r g b) }', 'relative_syntax', 122],
  ['.a { color: rgb(1 2 3 / 50%); background: hwb(1 2% 3%); border-color: #1234 currentcolor }'],
  ['.a { background: linear-gradient(in oklch, red, blue) }', 'interpolation_color_space', 111],
  ['.a { background: conic-gradient(red 0 50%, transparent 0) }'],
  ['.a { text-wrap: balance }', 'text-wrap.balance', 114],
  ['.a { text-wrap: pretty }', 'text-wrap.pretty', 117],
  ['.a { translate: 3px }', 'properties.translate', 104],
  ['.a { rotate: 3deg }', 'properties.rotate', 104],
  ['.a { scale: 2 }', 'properties.scale', 104],
  ['.a { transform: translate(3px) rotate(3deg) scale(2); transition: transform 1s cubic-bezier(0, 0, 1, 1) }'],
  ['.a { transition-timing-function: linear(0, 0.5, 1) }', 'linear-function', 113],
  ['.a { transition-timing-function: steps(4, jump-none) }'],
  ['.a { height: 100dvh }', 'units_dynamic', 108],
  ['.a { height: calc(100svh - 1px) }', 'units_small', 108],
  ['.a { height: 1lh }', 'length.lh', 109],
  ['.a { height: 100vh; width: min(3vmin, 4ch, 1rem); inset: 0; margin: clamp(1px, 2em, 3q) }'],
  ['.a { width: calc(1px * sin(45deg)) }', 'types.sin', 111],
  ['.a { width: calc(1px * pi) }', 'calc-keyword.pi', 109],
  ['.a { width: round(1.5px, 1px) }', 'types.round', 125],
  ['.a { scrollbar-gutter: stable; aspect-ratio: 1; overflow: clip; gap: 1px; accent-color: red; content-visibility: auto }'],
  ['.a { scrollbar-width: thin }', 'scrollbar-width', 121],
  ['.a { grid-template-columns: subgrid }', 'subgrid', 117],
  ['.a { grid-template-columns: repeat(2, minmax(0, 1fr)) }'],
  ['.a { display: inline flex }', 'multi-keyword', 115],
  ['.a { display: inline-flex; display: contents; display: none !important }'],
  ['.a { view-transition-name: x }', 'view-transition-name', 111],
  ['.a { animation-timeline: scroll() }', 'animation-timeline', 115],
  ['.a { transition-behavior: allow-discrete }', 'transition-behavior', 117],
  ['.a { font-size-adjust: 0.5 }', 'font-size-adjust', 127],
  ['.a { hyphenate-limit-chars: 5 }', 'hyphenate-limit-chars', 109],
  ['.a { width: stretch }', 'width.stretch', 138],
  ['.a { width: -webkit-fill-available; width: fit-content }'],
  ['.a { mask-image: none }', 'mask-image', 120],
  ['.a { -webkit-mask-image: none; -webkit-line-clamp: 2; display: -webkit-box; -webkit-box-orient: vertical }'],
  ['.a { background-clip: text }', 'background-clip.text', 120],
  ['.a { word-break: auto-phrase }', 'auto-phrase', 119],
  ['.a { align-items: safe center }', 'align-items.safe', 115],
  ['.a { text-box-trim: trim-both }', 'text-box-trim', 133],
  ['.a { field-sizing: content }', 'field-sizing', 123],
  ['.a { anchor-name: --x }', 'anchor-name', 125],
  ['.a { top: anchor(top) }', 'anchor', 125],
  ['.a { clip-path: rect(0 0 0 0) }', 'basic-shape.rect', 119],
  ['.a { clip-path: inset(0); clip: rect(0, 0, 0, 0) }'],
  ['.a { clip-path: inset(0) content-box }', 'clip-path.content-box', 119],
  ['.a { color: color(display-p3 1 0 0) }', 'color.color', 111],
  ['.a { object-view-box: inset(1px) }', 'object-view-box', 104],
  ['.a { contain: inline-size }', 'contain.inline-size', 105],
  ['.a { contain: strict; backdrop-filter: blur(1px); text-underline-offset: 2px; hyphens: auto }'],
  ['@keyframes x { from { translate: 0 } }', 'properties.translate', 104],
  ['@keyframes x { from { opacity: 0 } 50% { opacity: 1 } }'],
  ['.a::after { content: "x" / "y" }'],
  ['.a { colour: red }', 'colour', NaN],
];

/** @type {Row[]} */
export const HTML = [
  ['<p popover>', 'global_attributes.popover', 114],
  ['<button popovertarget="x">', 'popovertarget', 114],
  ['<search></search>', 'elements.search', 118],
  ['<details name="x"></details>', 'details.name', 120],
  ['<link rel="stylesheet" blocking="render">', 'blocking', 105],
  ['<p writingsuggestions="false">', 'writingsuggestions', 124],
  ['<p style="translate: 1px">', 'properties.translate', 104],
  ['<link rel="stylesheet" media="(width > 3px)">', 'range_syntax', 104],
  ['<style>\n.a:has(b) { top: 0 }</style>', 'selectors.has', 105],
  ['<dialog closedby="any"></dialog>', 'dialog.closedby', 134],
  ['<template shadowrootmode="open"></template>', 'shadowrootmode', 111],
  ['<svg><path fill="context-fill"/></svg>', 'context-fill', 124],
  ['<p inert hidden="until-found" enterkeyhint="go"><dialog open></dialog><img loading="lazy" fetchpriority="high">'],
  ['<input type="color"><details open><summary></summary></details><svg viewBox="0 0 1 1"><path d="M0 0"/></svg>'],
];

/** What is missed, and why; a row that comes to be found belongs above. @type {[kind: string, code: string][]} */
export const MISSED = [
  ['.css', '@media not (hover) { a { top: 0 } }'], // the data has no key for it
  ['.css', '.a { fill: context-stroke }'], // the data has it for the attribute only
  ['.css', '.a { transition: display 1s allow-discrete }'], // the data gives the keyword in the shorthand as 37
  ['.css', '.a { offset-path: circle(3px) }'], // circle() is old, here it is new
  ['.css', '.a { grid-template-rows: masonry }'], // a keyword that the data has not could be anybody's own name
  ['.html', '<select><button><selectedcontent></selectedcontent></button></select>'], // the parser drops it
  ['.js', '/** @type {any} */ (0).values().filter(Boolean)'], // filter() of unknown things is mostly that of arrays
  ['.js', 'Reflect.get([1], "toSorted")'],
  ['.js', 'document.body.innerHTML = "<search></search>"'],
  ['.js', 'Object.assign(document.body.style, { translate: "1px" })'],
  ['.js', 'new URLSearchParams().has("a", "b")'], // later arguments of old functions
];
