import * as actions from "./document-actions.js";
import { canOpenFolder, leaveFolder, openFolder } from "./homes/folder-home.js";
import type { Home } from "./homes/home.js";
import type { MenuItem } from "./rota-menu.js";
import * as sending from "./sending.js";
import type { Sheet } from "./sheet.js";

type Act = (run: (work: actions.Workplace) => unknown) => void;

/** What the document menu works on. */
export interface DocumentMenu {
  readonly act: Act;
  readonly home: Home | null;
  /** Whether a plan is in the picture, or a week. */
  readonly picture: boolean;
  readonly week: boolean;
  readonly cards: () => void;
  readonly clock: () => void;
  readonly calendar: () => void;
}

export function documentItems({ act, home, picture, week, cards, clock, calendar }: DocumentMenu): readonly MenuItem[] {
  return [
    { label: "New…", run: () => act(actions.begin) },
    { label: "Rename…", run: () => act(actions.renameDocument) },
    { label: "Duplicate", run: () => act(actions.duplicate) },
    { label: "Delete", run: () => act(actions.remove) },
    { label: "Send…", run: () => act(sending.send) },
    { label: "Open a file…", run: () => act(sending.openFile) },
    { label: "Print with answers", run: () => window.print() },
    ...(canOpenFolder ? [{ label: "Open a folder of this machine…", run: () => void openFolder() }] : []),
    ...(home?.kind === "picked" ? [{ label: "Leave the folder", run: () => void leaveFolder() }] : []),
    // Last, since they come and go with the cursor: what stands above them keeps its place under a finger.
    ...(picture
      ? [
          { label: "Cards for this plan", run: cards },
          { label: "Clock for this plan", run: clock },
        ]
      : []),
    ...(week ? [{ label: "Calendar file of the week", run: calendar }] : []),
  ];
}

export function textItems(sheet: Sheet | null, act: Act, copyTable: () => void): readonly MenuItem[] {
  return [
    { label: "Undo", key: "Ctrl+Z", run: () => sheet?.run("undo") },
    { label: "Redo", key: "Ctrl+Y", run: () => sheet?.run("redo") },
    { label: "Leave the text", key: "Esc, then Tab", run: () => sheet?.leave() },
    { label: "Indent", key: "Tab", run: () => sheet?.run("indentMore") },
    { label: "Outdent", key: "Shift+Tab", run: () => sheet?.run("indentLess") },
    { label: "Next finding", key: "F8", run: () => sheet?.run("nextDiagnostic") },
    { label: "Finding before", key: "Shift+F8", run: () => sheet?.run("previousDiagnostic") },
    { label: "Mend the finding of this line", key: "Alt+Enter", run: () => sheet?.run("mendLine") },
    { label: "Rename the name at the cursor…", key: "F2", run: () => act((work) => actions.renameName(work, work.sheet.cursor)) },
    { label: "Go to where it is declared", key: "F12", run: () => void sheet?.goToDeclaration() },
    { label: "Put in order", key: "Shift+Alt+F", run: () => void sheet?.format() },
    { label: "Fold the block", key: "Ctrl+Shift+[", run: () => sheet?.run("foldCode") },
    { label: "Fold all", key: "Ctrl+Alt+[", run: () => sheet?.run("foldAll") },
    { label: "Unfold all", key: "Ctrl+Alt+]", run: () => sheet?.run("unfoldAll") },
    { label: "Find in this document", key: "Ctrl+F", run: () => sheet?.run("openSearchPanel") },
    { label: "Copy lines with answers", run: copyTable },
  ];
}
