/** What the page asks its worker for and then shows: a table on the clipboard, cards, the floor's clock. */
import { counted } from "../0-base/quantity.js";
import { CardSheet } from "./card-sheet.js";
import type { Workplace } from "./document-actions.js";
import { FloorClock } from "./floor-clock.js";
import { linkWith, onlyHere } from "./address.js";

/** The selected lines with their answers, for a spreadsheet. */
export async function copyTable({ sheet, core, tell }: Workplace): Promise<void> {
  const rows = sheet.hasSelection ? null : await core.ask("rows", sheet.path, sheet.cursor);
  const text = (rows?.about === "rows" ? rows.value : null) ?? sheet.table();
  const copied = await navigator.clipboard.writeText(text).then(
    () => true,
    () => false,
  );
  tell({
    text: copied
      ? `${counted(text.split("\n").length, "line")} copied as a table.`
      : "The browser does not let this page write to its clipboard. Allow it in the address bar and try again.",
  });
}

/** The cards of the plan whose block begins at `from`. */
export async function showCards({ sheet, core }: Workplace, page: HTMLElement, from: number): Promise<void> {
  const reply = await core.ask("cards", sheet.path, from, onlyHere() ? "" : linkWith(""));
  const cards = page.querySelector("rota-cards");
  if (reply.about === "cards" && reply.value && cards instanceof CardSheet) cards.show(reply.value);
}

/** The floor's clock for the plan whose block begins at `from`. */
export async function openClock({ sheet, core }: Workplace, page: HTMLElement, from: number): Promise<void> {
  const reply = await core.ask("floor", sheet.path, from);
  const clock = page.querySelector("rota-clock");
  if (reply.about === "floor" && reply.value && clock instanceof FloorClock) void clock.open(reply.value);
}
