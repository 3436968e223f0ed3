const marks: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

/** Text as text of a page: markup does nothing; control characters and direction marks are left out. */
export function safe(text: string): string {
  return text.replace(/[\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "").replace(/[&<>"']/g, (mark) => marks[mark] ?? "");
}
