/**
 * What may stand though the data says no, each with its reason. An entry that
 * nothing needs any more is refused.
 *
 * @type {{file: string, key: string, why: string}[]}
 */
export const ALLOWED = [
  { file: 'health/index.html', key: 'html.elements.meta.name.viewport', why: 'for browsers of telephones and tablets; those of desks pass over it' },
  { file: 'desk/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'panel/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'scene/board/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'scene/caption/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'scene/clocks/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'scene/wall/index.html', key: 'html.elements.meta.name.viewport', why: 'the same' },
  { file: 'health/log.css', key: 'css.properties.overscroll-behavior', why: 'there since 63, but only where something overflows; 144 completed it' },
  { file: 'health/tools.js', key: 'api.KeyboardEvent.repeat', why: 'there since 32; until 137 it was wrong where several keys were held down on Windows and Linux' },
  { file: 'panel/known.css', key: 'css.properties.font-family.ui-monospace', why: 'the next family in the list takes its place' },
  { file: 'panel/known.css', key: ':-webkit-details-marker', why: 'not in the data: for another engine, which list-style does not reach' },
  { file: 'panel/match.css', key: ':-webkit-details-marker', why: 'the same' },
  { file: 'panel/panel.css', key: 'css.properties.scrollbar-color', why: 'without it the bar is the usual dark one of color-scheme' },
  { file: 'panel/panel.css', key: 'css.properties.scrollbar-width', why: 'without it the bar is as thick as others' },
  { file: 'panel/panel.css', key: 'css.properties.scrollbar-width.thin', why: 'the same' },
  { file: 'surface/surface.css', key: '-webkit-text-size-adjust', why: 'for telephones and tablets of another engine' },
];
