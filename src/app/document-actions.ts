import { type Document, nameOf } from "../1-text/document.js";
import { applyEdits } from "../1-text/edits.js";
import { freeName } from "../3-plan/names.js";
import { templates } from "../7-view/template-list.js";
import type { Core } from "./core.js";
import type { Notebook, Notice } from "./notebook/notebook.js";
import type { RotaAsk } from "./rota-ask.js";
import type { Sheet } from "./sheet.js";

/** What the actions work on. */
export interface Workplace {
  readonly notebook: Notebook;
  readonly sheet: Sheet;
  readonly core: Core;
  readonly ask: RotaAsk;
  readonly show: (path: string) => void;
  readonly tell: (notice: Notice) => void;
}

/** A new document from a template. */
export async function begin({ notebook, core, ask, show }: Workplace): Promise<void> {
  const answer = await ask.ask({
    title: "New document",
    label: "Its name",
    value: freeIn(notebook, "my plan"),
    action: "Begin",
    choices: { label: "Begin with", options: templates.map(({ name, says }) => ({ name, says })) },
    refuse: (value) => refusal(notebook, value),
  });
  if (!answer) return;
  const reply = await core.ask("template", "", 0, answer.choice);
  notebook.write(pathOf(answer.value), reply.about === "template" ? reply.value : "");
  show(pathOf(answer.value));
}

export async function renameDocument({ notebook, sheet, ask }: Workplace): Promise<void> {
  const { path } = sheet;
  const answer = await ask.ask({
    title: `Rename ${path}`,
    label: "New name",
    value: nameOf(path),
    action: "Rename",
    refuse: (value) => (pathOf(value) === path ? null : refusal(notebook, value)),
  });
  if (!answer || pathOf(answer.value) === path) return;
  const to = pathOf(answer.value);
  if (await notebook.move(path, to)) changeUses(notebook, path, to);
}

/** `use "path"` lines follow a document that is renamed. */
function changeUses(notebook: Notebook, from: string, to: string): void {
  for (const { path, text } of notebook.documents()) {
    const changed = text
      .split("\n")
      .map((line) => (/^\s*use\s/.test(line) ? line.replace(`"${from}"`, `"${to}"`) : line))
      .join("\n");
    if (changed !== text) notebook.write(path, changed);
  }
}

/** A document beside this one, its plans under names of their own. */
export async function duplicate({ notebook, core, sheet, show }: Workplace): Promise<void> {
  const path = freePath(notebook, nameOf(sheet.path));
  const reply = await core.ask("copy", sheet.path, 0, sheet.text);
  if (reply.about !== "copy") return;
  notebook.write(path, reply.value);
  show(path);
}

export async function remove({ notebook, sheet, show }: Workplace): Promise<void> {
  const { path } = sheet;
  const next = notebook.paths().filter((other) => other !== path);
  await notebook.remove(path);
  if (notebook.paths().includes(path)) return;
  sheet.forget(path);
  show(next[0] ?? "");
}

/** Whether this device has a share sheet that takes files. */
export function canShare(): boolean {
  return navigator.canShare?.({ files: [new File(["text"], "plan.txt", { type: "text/plain" })] }) ?? false;
}

/** Hands a file to the device's own share sheet; whoever closes it shares nothing. */
export async function share(name: string, text: string, type: string): Promise<void> {
  await navigator.share({ files: [new File([text], name, { type })], title: name }).catch(() => undefined);
}

/** Gives the browser a file to keep. */
export function save(name: string, text: string, type: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}

/** Renames what the cursor stands in, in every document; one press takes it back. */
export async function renameName({ notebook, sheet, core, ask, show, tell }: Workplace, offset: number): Promise<void> {
  const { path } = sheet;
  const reply = await core.ask("name", path, offset);
  const name = reply.about === "name" ? reply.value : null;
  if (!name) return tell({ text: "There is no name here. Put the cursor into the name of an athlete, a movement, a stage or a plan." });
  const answer = await ask.ask({
    title: `Rename the ${name.kind} ${name.name}`,
    label: `New name, in ${name.places} places`,
    value: name.name,
    action: "Rename everywhere",
    refuse: (value) =>
      value === ""
        ? "A name cannot be empty."
        : name.kind === "athlete" && /\s/.test(value)
          ? "An athlete's name is one word: write Zora-Lee or ZoraLee."
          : null,
  });
  if (!answer || answer.value === name.name) return;
  const done = await core.ask("renaming", path, offset, answer.value);
  const renaming = done.about === "renaming" ? done.value : null;
  if (!renaming?.ok) return tell({ text: renaming ? renaming.reason : "The name is not there any more." });
  const before = notebook.documents().filter((document) => renaming.edits.has(document.path));
  const write = (texts: readonly Document[], takeBack: (() => void) | null = null): void => {
    for (const { path: at, text } of texts) {
      if (at === sheet.path) sheet.become(text, takeBack);
      else notebook.write(at, text);
    }
    notebook.settleAll();
    show(sheet.path);
  };
  const takeBack = (): void => write(before);
  write(
    before.map((document) => ({ path: document.path, text: applyEdits(document.text, renaming.edits.get(document.path) ?? []) })),
    takeBack,
  );
  tell({
    text: `${name.name} is ${answer.value} now, in ${renaming.places} places of ${before.length} documents.`,
    action: { label: "Take it back", run: takeBack },
  });
}

function pathOf(name: string): string {
  return name.endsWith(".rota") ? name : `${name.trim().replace(/\s+/g, "-")}.rota`;
}

export function freePath(notebook: Notebook, name: string): string {
  return pathOf(freeIn(notebook, name));
}

function freeIn(notebook: Notebook, name: string): string {
  const taken = new Set(notebook.paths());
  return freeName(name, { has: (free) => taken.has(pathOf(free)) });
}

function refusal(notebook: Notebook, value: string): string | null {
  if (!/^[\p{L}\p{N}][\p{L}\p{N} _./-]*$/u.test(value) || value.includes(".."))
    return "A name begins with a letter or digit; letters, digits, blanks, - and _ may follow, and / for a folder.";
  return notebook.paths().includes(pathOf(value)) ? `There is already a document ${pathOf(value)}.` : null;
}
