/** The cases of `placement.txt`: text, and the same text where its lines belong. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/1-text/edits.js";
import { shift } from "../../src/0-base/span.js";
import { compileText, findingsOf } from "../notebook.js";

const cases = readFileSync(new URL("placement.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((part) => {
    const [title = "", ...lines] = part.split("\n");
    const [typed = "", meant = ""] = lines.join("\n").split("==>\n");
    return [title, typed, meant.trimEnd() + "\n"] as const;
  });
const around = "team Pine\n  Ana woman\n  Eva woman\n  Ian man\n  Olu man\nevent E\n  score reps\n  cap 3 min\n  stage squat\n";

describe("lines too far in", () => {
  it.each(cases)("%s", (_, typed, meant) => {
    let text = around + typed;
    for (let round = 0; round < 9; round += 1) {
      const [found] = findingsOf(compileText(text)).filter(({ rule, fixes }) => rule === "out-of-place" && fixes.length > 0);
      if (!found) break;
      text = applyEdits(
        text,
        (found.fixes[0]?.edits ?? []).map((edit) => ({ span: shift(edit.span, found.at - found.span.from), text: edit.text })),
      );
    }
    expect(text.trimEnd() + "\n").toBe(around + meant);
  });
});
