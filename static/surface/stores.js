// @ts-check
/** The browser's stores, or null where it forbids them. */

/** Kept by this browser. */
export const localStore = () => given(() => window.localStorage);

/** @param {() => Storage} get */
function given(get) {
  try {
    return get();
  } catch {
    return null;
  }
}
