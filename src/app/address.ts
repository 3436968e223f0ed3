/** The document that the page's address names; "" where it names none. */
export function askedFor(): string {
  try {
    return decodeURIComponent(location.hash.slice(1));
  } catch {
    return "";
  }
}
