// @ts-check

/** Every theme of the scenes, the first for whoever names none; their colours are in themes.css. */
export const THEMES = Object.freeze(['dark', 'light', 'bold']);

/** The theme asked for; a name that is none means the first. @param {string | null} name */
export function themeOption(name) {
  return THEMES.find((theme) => theme === name?.toLowerCase()) ?? THEMES[0];
}
