import type { StoredDocument as Stored } from "../../1-text/document.js";
import type { Said } from "../../7-view/said.js";

export type { Stored };

export type HomeAnswer =
  | { readonly kind: "kept"; readonly version: string }
  /** Somebody else wrote meanwhile: what is there now, null where it is gone. Nothing was overwritten. */
  | { readonly kind: "changed"; readonly theirs: Stored | null }
  /** The home does not take it now; `reason` says what to do. */
  | { readonly kind: "refused"; readonly reason: string };

/** `said`: the answers of the first screen, where the home can give them. `unreadable`: of each file that is no document, why. */
export type Listed =
  | {
      readonly ok: true;
      readonly documents: readonly Stored[];
      readonly said?: readonly Said[] | null;
      readonly unreadable?: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** Where the notebook's text lives: a folder that the server opened, a folder of this machine, or the browser. */
export interface Home {
  readonly kind: "served" | "picked" | "browser";
  /** In words, for the page. */
  readonly name: string;
  /** The same for the same folder, whatever its address: drafts are kept by it. Known once the home has listed. */
  readonly id: string;
  /** How often to look whether somebody else has written. */
  readonly lookMs: number;
  /** All documents; `first` is the document that the page was asked for, "" for any, where it is about to open one. */
  list(first?: string): Promise<Listed>;
  /** Writes over the version `seen`, or where nothing is (null). */
  save(path: string, text: string, seen: string | null): Promise<HomeAnswer>;
  /** Takes a document away, if it is still the version `seen`. */
  remove(path: string, seen: string): Promise<HomeAnswer>;
}

/** For a home whose versions are its texts: what stands there now, where that is not the version `seen`. */
export function changedSince(path: string, text: string | null, seen: string | null): HomeAnswer | null {
  return text === seen ? null : { kind: "changed", theirs: text === null ? null : { path, text, version: text } };
}
