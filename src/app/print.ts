import { caution } from "../7-view/cautions.js";

/** The whole document with its answers on paper: the editor itself has only the lines on the screen. */
export function printed(path: string, lines: readonly { readonly text: string; readonly shown: string }[]): DocumentFragment {
  const page = document.createDocumentFragment();
  const title = document.createElement("h1");
  title.textContent = path;
  const table = document.createElement("table");
  for (const { text, shown } of lines) {
    const row = table.insertRow();
    row.insertCell().textContent = text || "\u00a0";
    row.insertCell().textContent = shown;
  }
  const foot = document.createElement("p");
  foot.textContent = caution;
  page.append(title, table, foot);
  return page;
}
