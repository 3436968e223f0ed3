/**
 * Text that its home has not taken yet, kept in the browser until it has, with the version it was typed over: so that
 * after a crash it is known whether somebody else has written meanwhile.
 */
export interface Draft {
  readonly text: string;
  /** Null for a document that its home has never had. */
  readonly over: string | null;
}

const prefix = "rotaline-draft:";

/** False where the browser has no room for it. */
export function keepDraft(path: string, draft: Draft): boolean {
  try {
    localStorage.setItem(prefix + path, JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

export function dropDraft(path: string): void {
  localStorage.removeItem(prefix + path);
}

/** All drafts that were left, by the path of their document. */
export function drafts(): ReadonlyMap<string, Draft> {
  const found = new Map<string, Draft>();
  for (const name of Object.keys(localStorage)) {
    if (!name.startsWith(prefix)) continue;
    const draft: unknown = JSON.parse(localStorage.getItem(name) ?? "null");
    if (isDraft(draft)) found.set(name.slice(prefix.length), draft);
  }
  return found;
}

function isDraft(value: unknown): value is Draft {
  return typeof value === "object" && value !== null && "text" in value && typeof value.text === "string" && "over" in value;
}
