const parcelKey = "parcel=";

/** The document that the page's address names; "" where it names none. */
export function askedFor(): string {
  if (location.hash.slice(1).startsWith(parcelKey)) return "";
  try {
    return decodeURIComponent(location.hash.slice(1));
  } catch {
    return "";
  }
}

/** The parcel that the page's address carries; null where it carries none. */
export function parcelIn(): string | null {
  const words = location.hash.slice(1);
  return words.startsWith(parcelKey) ? words.slice(parcelKey.length) : null;
}

/** A link to this page that carries a parcel: behind the #, so that no server gets to see it. */
export function linkWith(parcel: string): string {
  return `${location.origin}${location.pathname}#${parcelKey}${parcel}`;
}

/** Whether the page's address means this device alone. */
export function onlyHere(): boolean {
  return /^(localhost|127\.|\[?::1)/.test(location.hostname);
}
