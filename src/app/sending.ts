import { documentsInFile, type Unpacked, unpack } from "../1-text/parcel.js";
import { freePath, type Workplace } from "./document-actions.js";
import type { KeepReceived } from "./rota-received.js";

/** Files of more than this hold no plans, bytes. */
const mostInFile = 10_000_000;

/** Shows the ways in which the document can be sent. */
export async function send({ notebook, sheet, core }: Workplace): Promise<void> {
  notebook.settleAll();
  const { RotaSend } = await import("./rota-send.js");
  const [reply, face] = [await core.ask("send", sheet.path, 0), document.querySelector("rota-send")];
  if (reply.about === "send" && face instanceof RotaSend) face.show({ ...reply.value, path: sheet.path, text: sheet.text });
}

/** Shows what the page's address carried. */
export async function openParcel(work: Workplace, parcel: string): Promise<void> {
  await showReceived(work, unpack(parcel), "by a link");
}

/** Asks for a file and shows what it holds. */
export function openFile(work: Workplace): void {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".rota,.html,.csv,.tsv,.txt";
  input.addEventListener("change", () => void (input.files?.[0] && takeFile(work, input.files[0])));
  input.click();
}

/** A file that was chosen or dropped: plans are shown until they are kept, a table becomes an ability block. */
export async function takeFile(work: Workplace, file: File): Promise<void> {
  if (file.size > mostInFile)
    return work.tell({ text: `${file.name} is larger than ${mostInFile / 1_000_000} MB: no plans are that large.` });
  const text = await file.text();
  if (/\.(csv|tsv)$/.test(file.name)) return takeTable(work, text, (block) => work.sheet.append(block));
  await showReceived(work, documentsInFile(file.name, text), `from the file ${file.name}`);
}

/** Text of a spreadsheet as an ability block, handed to `put`; told why where it is none. */
export async function takeTable(
  { core, sheet, tell }: Workplace,
  text: string,
  put: (block: string) => void,
  otherwise?: () => void,
): Promise<void> {
  const reply = await core.ask("table", sheet.path, 0, text);
  if (reply.about !== "table") return;
  if (reply.value.ok) {
    put(reply.value.text);
    tell({ text: "The table is an ability block now. Ctrl+Z takes it back." });
  } else {
    otherwise?.();
    tell({
      text: `${otherwise ? "Pasted as it is" : "Nothing was taken in"}: as a table of abilities it cannot be read. ${reply.value.reason}`,
    });
  }
}

async function showReceived({ core, notebook, tell }: Workplace, found: Unpacked, from: string): Promise<void> {
  if (!found.ok) return tell({ text: `What came ${from} could not be opened. ${found.reason}` });
  notebook.settleAll();
  const { RotaReceived } = await import("./rota-received.js");
  const [reply, face] = [await core.ask("received", "", 0, "", { received: found.documents }), document.querySelector("rota-received")];
  if (reply.about === "received" && face instanceof RotaReceived) face.show(reply.value, from);
}

/** Puts the demo notebook beside what is there. */
export async function takeDemo(work: Workplace): Promise<void> {
  const { demo } = await import("./demo.js");
  keepReceived(work, { documents: demo, replace: false });
}

/** Puts what was received into the notebook; one press takes it back. */
export function keepReceived({ notebook, show, tell }: Workplace, { documents, replace }: KeepReceived): void {
  const before = documents.map(({ path }) => ({ path, text: notebook.paths().includes(path) ? notebook.textOf(path) : null }));
  const written = documents.map(({ path, text }) => {
    const at = replace || !notebook.paths().includes(path) ? path : freePath(notebook, path.replace(/\.rota$/, ""));
    notebook.write(at, text);
    return at;
  });
  notebook.settleAll();
  const [first] = written;
  if (first !== undefined) show(first);
  const undo = async (): Promise<void> => {
    for (const [at, path] of written.entries()) {
      const had = before[at]?.path === path ? before[at]?.text : null;
      if (had === null || had === undefined) await notebook.remove(path);
      else notebook.write(path, had);
    }
    notebook.settleAll();
    show(notebook.paths().find((path) => !written.includes(path)) ?? notebook.paths()[0] ?? "");
  };
  tell(
    documents.length === 0
      ? { text: "Your notebook has all of it already." }
      : { text: `Kept: ${written.join(", ")}.`, action: { label: "Take it back", run: () => void undo() } },
  );
}
