import { caution } from "../7-view/cautions.js";
import { brief, type Row } from "../7-view/columns.js";

/**
 * The whole document with its answers on paper, the lanes of the plan in the picture on top: the editor itself has only
 * the lines on the screen.
 */
export function printed(
  path: string,
  lines: readonly { readonly text: string; readonly shown: string; readonly row: Row | null }[],
  lanes: Element | null,
): DocumentFragment {
  const page = document.createDocumentFragment();
  const title = document.createElement("h1");
  title.textContent = path;
  // At the head: at the foot it would stand alone on a page of its own now and then.
  const warned = document.createElement("p");
  warned.textContent = caution;
  page.append(title, warned);
  if (lanes) page.append(drawnOn(lanes));
  const table = document.createElement("table");
  for (const { text, shown, row: cells } of lines) {
    const row = table.insertRow();
    row.insertCell().textContent = text || "\u00a0";
    row.insertCell().textContent = cells ? brief(cells) : shown;
  }
  page.append(table);
  return page;
}

/** The picture as it is drawn on the page, as wide as the paper. */
function drawnOn(lanes: Element): Element {
  const figure = document.createElement("figure");
  const caption = document.createElement("figcaption");
  caption.textContent = lanes.querySelector("h2")?.textContent ?? "";
  const drawing = lanes.querySelector(".walk svg")?.cloneNode(true);
  figure.append(caption, ...(drawing ? [drawing] : []));
  return figure;
}
