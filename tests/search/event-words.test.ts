/** What an event says is kept by what is suggested for it: the whole notebook, compiled anew with the suggestion, has no error. */
import { describe, expect, it } from "vitest";
import { suggestedAfter } from "../../src/6-search/suggest.js";
import { proposals } from "../../src/7-view/proposals.js";
import { compile } from "../../src/compile.js";
import { ground, problemOf } from "./events.js";

const steps = 60;

function firstFor(lines: string): { readonly text: string; readonly errors: readonly string[]; readonly kind: string } {
  const text = `${ground(20, 50)}event Test\n${lines}`;
  const notebook = [{ path: "event.rota", text }];
  const { event, team, abilities, constants } = problemOf(text);
  const [first] = proposals(suggestedAfter(steps, event, team, abilities, constants), 1, compile(notebook).kept, notebook);
  const { documents } = compile([...notebook, { path: "own.rota", text: first?.text ?? "" }]);
  const errors = [...documents.values()]
    .flatMap(({ blocks }) => blocks.flatMap(({ findings }) => findings))
    .filter(({ severity }) => severity === "error")
    .map(({ message }) => message);
  return { text: first?.text ?? "", errors, kind: first?.kind ?? "" };
}

const words: Readonly<Record<string, string>> = {
  "a fixed order": "  score reps\n  cap 4 min\n  working at most 1\n  order fixed\n  stage squat\n",
  "an order by name": "  score reps\n  cap 4 min\n  working at most 1\n  order Tariq, Ines, Marta, Bram\n  stage squat\n",
  "a change every 5 reps": "  score time\n  cap 12 min\n  working at most 1\n  athletes alternate every 5 reps\n  stage 80 squat\n",
  "a buy-in that is not scored, and a pause":
    "  score reps\n  cap 6 min\n  working at most 1\n  stage buy-in 30 row unscored then rest 30 s\n  stage squat\n",
  "a stage with a time of its own": "  score reps\n  cap 8 min\n  working at most 1\n  stage 40 row within 4 min\n  stage squat\n",
  "a dropped hold that costs": "  score reps\n  cap 6 min\n  working at most 1\n  drop costs 5 reps\n  stage squat while 1 hold stone\n",
};

describe("what an event says is kept by what is suggested", () => {
  it.each(Object.entries(words))("%s", { timeout: 60_000 }, (_, lines) => {
    const { text, errors } = firstFor(lines);
    expect(text).toContain("plan ");
    expect(errors).toEqual([]);
  });

  it("all work at once where nothing says how many may; one at a time where there is one bar", { timeout: 60_000 }, () => {
    const free = firstFor("  score reps\n  cap 4 min\n  stage squat\n");
    expect(free.kind).toBe("all at once");
    expect(free.text.match(/^ +lane /gm)?.length).toBe(4);
    const shared = firstFor("  score reps\n  cap 4 min\n  one bar for squat\n  stage squat\n");
    expect(shared.kind).toBe("one at a time");
    expect([free.errors, shared.errors]).toEqual([[], []]);
  });
});
