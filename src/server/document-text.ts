import { readFileSync, statSync } from "node:fs";

/** Larger than any plan that can be meant. */
export const largestDocument = 4_000_000;

const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });

/** The text of a file's bytes; a reason, to go behind "it is not opened:", for bytes that are no text of a document. */
export function documentText(bytes: Uint8Array): { readonly text: string } | { readonly reason: string } {
  try {
    const text = utf8.decode(bytes);
    return text.includes("\0") ? { reason: "it is no text" } : { text };
  } catch {
    return { reason: "it is not UTF-8. Save it as UTF-8 in the program that wrote it" };
  }
}

/** The text of a document's file, or a reason as above; throws where the file cannot be read. */
export function readDocumentText(file: string): ReturnType<typeof documentText> {
  return statSync(file).size > largestDocument ? { reason: "it is larger than four megabytes" } : documentText(readFileSync(file));
}
