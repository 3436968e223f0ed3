/** Text that its home has not taken yet: kept in the browser until it has. */
const prefix = "rotaline-draft:";

export function keepDraft(path: string, text: string): void {
  try {
    localStorage.setItem(prefix + path, text);
  } catch {
    // The home is told of the text all the same; a full browser only loses the second copy.
  }
}

export function dropDraft(path: string): void {
  localStorage.removeItem(prefix + path);
}

/** The draft of a document that was never saved; null if there is none. */
export function draftOf(path: string): string | null {
  return localStorage.getItem(prefix + path);
}
