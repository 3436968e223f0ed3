import { allKinds } from "../3-plan/lines/kinds.js";
import type { Snippet } from "../3-plan/lines/line-kind.js";

/** Beginnings of blocks, to be filled in. */
export const snippets: readonly Snippet[] = allKinds.flatMap((kind) => kind.snippets ?? []);

/** A snippet with its suggestions standing in their places. */
export function filled({ text }: Snippet): string {
  return text.replace(/#\{([^}]*)\}/g, "$1");
}
