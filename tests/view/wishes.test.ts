import { describe, expect, it } from "vitest";
import { suggestedAfter } from "../../src/6-search/suggest.js";
import { textOf } from "../../src/6-search/draft-text.js";
import { wishesOf } from "../../src/7-view/wishes.js";
import { ground, problemOf } from "../search/events.js";

const { event, team, abilities, constants } = problemOf(
  `${ground(20, 50)}event Test\n  score time\n  cap 12 min\n  pairs any\n  working at most 1 pair\n  stage 60 squat each\n`,
);

function reasonFor(typed: string): string {
  const wishes = wishesOf(typed, team);
  return "reason" in wishes ? wishes.reason : "";
}

describe("limits that a coach adds to a search", () => {
  it("are lines as under a plan: rules, and pairs that stay", () => {
    const wishes = wishesOf("rule set at most 4 reps\n\n  pair A Ines + Tariq\n", team);
    expect(wishes).toMatchObject({ rules: [{ kind: "rule" }], pairs: [["Ines", "Tariq"]] });
    expect(wishesOf("", team)).toEqual({ rules: [], pairs: [] });
  });

  it("are refused with what is wrong with them", () => {
    expect(reasonFor("rule sets 4")).toMatch(/^“rule sets 4” is no limit here\. Limits: share within P; /);
    expect(reasonFor("Ines 5")).toMatch(/^“Ines 5” is no rule and no pair\. Write lines such as /);
    expect(reasonFor("pair A Zoe + Bram")).toBe("“pair A Zoe + Bram” names somebody who is not in team Kelp Street.");
  });

  it("are kept by all that is found, and stand in its text", { timeout: 60_000 }, () => {
    const wishes = wishesOf("rule set at most 4 reps\npair A Ines + Tariq", team);
    if ("reason" in wishes) throw new Error(wishes.reason);
    const found = suggestedAfter(60, event, team, abilities, constants, wishes)
      .filter(({ worth }) => worth.sound)
      .map(({ draft }) => textOf(draft, "Mine"));
    expect(found.length).toBeGreaterThan(0);
    for (const text of found) {
      expect(text).toContain("rule set at most 4 reps");
      expect(text).toMatch(/pair \w  (Ines \+ Tariq|Tariq \+ Ines)/);
      expect([...text.matchAll(/^ +[AB] (\d+)/gm)].every(([, reps]) => Number(reps) <= 4 || text.includes("%"))).toBe(true);
    }
  });
});
