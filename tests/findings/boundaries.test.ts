import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { kelpStreet, pierNine } from "../../src/5-findings/examples.js";
import { rules } from "../../src/5-findings/registry.js";
import { compileText, findingsOf } from "../notebook.js";

const cases = readFileSync(new URL("boundaries.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1);

describe("at the boundary", () => {
  it.each(cases.map((text) => [text.slice(0, text.indexOf("\n")), text] as const))("%s", (title, text) => {
    const [, rule = "", ground = "", body = "", count = ""] = /^([a-z-]+):.*\n(kelp|pier)\n([\s\S]*?)==> (\d+)/.exec(text) ?? [];
    expect(rules.map(({ id }) => id)).toContain(rule);
    const found = findingsOf(compileText((ground === "kelp" ? kelpStreet : pierNine) + body));
    expect([title, found.filter((finding) => finding.rule === rule).map(({ message }) => message).length]).toEqual([title, Number(count)]);
    expect(found.filter((finding) => finding.rule === "does-not-parse")).toEqual([]);
  });

  it("each rule about the timeline has such a case", () => {
    const covered = new Set(cases.map((text) => text.slice(0, text.indexOf(":"))));
    const bySource = rules
      .filter(
        ({ source, id }) =>
          source !== "the language" &&
          ![
            "ability-missing",
            "ability-zero",
            "assumption-range",
            "endless",
            "expect-untrue",
            "no-team",
            "rest-share",
            "size-not-whole",
          ].includes(id),
      )
      .map(({ id }) => id);
    expect(bySource.filter((id) => !covered.has(id))).toEqual([]);
  });
});
