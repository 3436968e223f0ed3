/** The document that the page's address names; "" where it names none. */
export function askedFor(): string {
  return decodeURIComponent(location.hash.slice(1));
}
