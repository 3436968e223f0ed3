import { randomUUID } from "node:crypto";
import { closeSync, fchmodSync, fsyncSync, openSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";

/** Puts a text in a file's place, whole or not at all; a file that is there keeps its permissions. Throws what the file system says. */
export function writeFile(file: string, text: string): void {
  const mode = (statSync(file, { throwIfNoEntry: false })?.mode ?? 0o644) & 0o777;
  if ((mode & 0o222) === 0) throw Object.assign(new Error(`${file} is read-only`), { code: "EACCES" });
  const draft = join(dirname(file), `.${randomUUID()}.rota-draft`);
  try {
    const handle = openSync(draft, "wx", mode);
    try {
      fchmodSync(handle, mode);
      const bytes = Buffer.from(text);
      for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(draft, file);
  } catch (error) {
    rmSync(draft, { force: true });
    throw error;
  }
}
