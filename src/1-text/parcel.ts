import { deflateSync, Inflate, strFromU8, strToU8 } from "fflate";
import type { Document } from "./document.js";

/** Documents as one word that fits an address: the version of this form, then base64 (RFC 4648, section 5) of deflated JSON. */
export type Parcel = string;

/** What a parcel may come to when it is opened, in bytes: more is no notebook. */
export const mostBytes = 1_000_000;
/** What a link may carry, in characters: browsers take it (`tests/browser/sending.test.ts`), what mails and messengers cut is more. */
export const mostInLink = 30_000;
const version = "1";
/** Compressed bytes that are taken in at once: deflate makes at most some thousand times as much of them. */
const sliceBytes = 1_024;

export function pack(documents: readonly Document[]): Parcel {
  const bytes = deflateSync(strToU8(JSON.stringify(documents.map(({ path, text }) => [path, text]))), { level: 9 });
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return `${version}.${btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "")}`;
}

export type Unpacked = { readonly ok: true; readonly documents: readonly Document[] } | { readonly ok: false; readonly reason: string };

/** The documents of a parcel; what cannot be one says why. Nothing in it is run. */
export function unpack(parcel: Parcel): Unpacked {
  const [made, body = ""] = parcel.split(".");
  if (made !== version)
    return refused(
      /^\d+$/.test(made ?? "")
        ? "It was made by a newer Rotaline than this one. Load this page anew and try again."
        : "It is not one of Rotaline's.",
    );
  const bytes = bytesOf(body);
  const inflated = bytes && inflate(bytes);
  if (!inflated) return refused("It is cut short, or something has changed it on the way. Ask for it again, as a file.");
  if (inflated === "too much")
    return refused(`It comes to more than ${mostBytes / 1_000_000} MB when it is opened. No notebook is that large, so it was not.`);
  const documents = documentsIn(inflated);
  return documents ? { ok: true, documents } : refused("There are no documents in it.");
}

function refused(reason: string): Unpacked {
  return { ok: false, reason };
}

function bytesOf(body: string): Uint8Array | null {
  if (!/^[\w-]+$/.test(body)) return null;
  try {
    return Uint8Array.from(atob(body.replaceAll("-", "+").replaceAll("_", "/")), (character) => character.charCodeAt(0));
  } catch {
    return null;
  }
}

/** Slice by slice, so that what would fill a memory is stopped on the way. */
function inflate(bytes: Uint8Array): Uint8Array | "too much" | null {
  const parts: Uint8Array[] = [];
  let [length, whole] = [0, false];
  const inflating = new Inflate((part, last) => {
    parts.push(part);
    length += part.length;
    whole = last;
  });
  try {
    for (let at = 0; at < bytes.length && length <= mostBytes; at += sliceBytes)
      inflating.push(bytes.subarray(at, at + sliceBytes), at + sliceBytes >= bytes.length);
  } catch {
    return null;
  }
  if (length > mostBytes) return "too much";
  if (!whole) return null;
  const out = new Uint8Array(length);
  parts.reduce((at, part) => {
    out.set(part, at);
    return at + part.length;
  }, 0);
  return out;
}

function documentsIn(bytes: Uint8Array): readonly Document[] | null {
  try {
    const read: unknown = JSON.parse(strFromU8(bytes));
    if (!Array.isArray(read) || read.length === 0) return null;
    const documents = read.flatMap((one: unknown): readonly Document[] => {
      if (!Array.isArray(one)) return [];
      const [path, text]: readonly unknown[] = one;
      return typeof path === "string" && typeof text === "string" && isPath(path) ? [{ path, text }] : [];
    });
    return documents.length === read.length ? documents : null;
  } catch {
    return null;
  }
}

/** A document's path inside a notebook: no way out of it, nothing hidden, nothing that cannot be seen. */
function isPath(path: string): boolean {
  return (
    path.length <= 200 &&
    path.endsWith(".rota") &&
    /^[\p{L}\p{N}][\p{L}\p{N}\p{M} _.'-]*(\/[\p{L}\p{N}][\p{L}\p{N}\p{M} _.'-]*)*$/u.test(path) &&
    !path.includes("..")
  );
}

const marker = "rotaline-parcel";

/** A parcel as it stands in a page of its own. */
export function parcelMark(parcel: Parcel): string {
  return `<meta name="${marker}" content="${parcel}">`;
}

/** The documents that a file holds: a plan's text under the file's name, or a page that carries them. */
export function documentsInFile(name: string, text: string): Unpacked {
  const carried = new RegExp(`<meta name="${marker}" content="([\\w.-]+)">`).exec(text)?.[1];
  if (carried !== undefined) return unpack(carried);
  // What a device shares ends in .txt: its share sheet takes no other text.
  const plain = name.replace(/\.rota\.txt$/, ".rota");
  const path = plain.endsWith(".rota") ? plain : null;
  return path && isPath(path)
    ? { ok: true, documents: [{ path, text }] }
    : refused(`${name} holds no plans: a file of Rotaline's ends in .rota, or is a page that it made.`);
}
