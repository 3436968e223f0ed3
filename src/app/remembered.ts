/** What this browser remembers for the page, in its smaller storage: nothing, where it refuses that. */

export function remembered(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** Null: forgotten. */
export function rememberAs(key: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
  } catch {
    // It lasts as long as the page.
  }
}
