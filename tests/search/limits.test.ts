/**
 * No suggestion that is called sound breaks a published rule: every form of a limit, alone and in pairs, on events of several
 * kinds. What judges here is the whole notebook compiled anew with the proposal's text, as a coach's own would be.
 * PAIRS=all tries every one and every pair on every event (STEPS=200 for as long a search); a fixed part runs with the other tests.
 */
import { describe, expect, it } from "vitest";
import { ruleForms } from "../../src/5-findings/limits/kinds.js";
import { suggestedAfter } from "../../src/6-search/suggest.js";
import { proposals } from "../../src/7-view/proposals.js";
import { compile } from "../../src/compile.js";
import { ground, problemOf } from "./events.js";

/** A line for each form, with values that bind and that most events can keep. */
const limits: Readonly<Record<string, string>> = {
  "share within P": "rule share within 10 %",
  "share NAME at least P": "rule share Ines at least 20 %",
  "NAME at least P": "rule Tariq at least 15 %",
  "each at least P": "rule each at least 10 %",
  "share NAME P": "rule share Bram 30 %",
  "each at least N": "rule each at least 12 reps",
  "NAME at least N": "rule Ines at least 14 reps",
  "hold turn at most T": "rule hold turn at most 40 s",
  "hold share within P": "rule hold share within 15 %",
  "everyone holds": "rule everyone holds",
  "NAME never holds": "rule Ines never holds",
  "everyone works": "rule everyone works",
  "everyone works in every stage": "rule everyone works in every stage",
  "each at least N in every stage": "rule each at least 8 reps in every stage",
  "each stage at least N by everyone": "rule each stage at least 6 reps by everyone",
  "set at least N": "rule set at least 4 reps",
  "at least N before a change": "rule at least 5 reps before a change",
  "change every N": "rule change every 5 reps",
  "set at most N": "rule set at most 6 reps",
  "set at most P unbroken": "rule set at most 30 % unbroken",
  "turn at most T": "rule turn at most 20 s",
  "rest at least T between sets": "rule rest at least 20 s between sets",
  "rest at least T": "rule rest at least 12 s",
  "tempo gap at most T": "rule tempo gap at most 0.3 s",
  "no miss before P of cap": "rule no miss before 80 % of cap",
};

const events: Readonly<Record<string, string>> = {
  "one holds": "event Test\n  score time\n  cap 15 min\n  working at most 2\n  stage 120 squat while 1 hold stone\n",
  reps: "event Test\n  score reps\n  cap 6 min\n  working at most 1\n  stage squat\n",
  "two stages": "event Test\n  score time\n  cap 15 min\n  working at most 1 pair\n  stage one 60 squat in sync\n  stage two 60 row\n",
};

/** Which rule is broken, and whose; or what else is wrong, and how often. */
const which =
  /^It breaks a rule: .+ \(event Test\b|^Somebody misses(?: or drops a hold)? on \d+ % of days, more than the|^It is (?:not done inside the cap on any day|done inside the cap on \d+ % of days only)/;

/** All pairs take long. */
const longestMs = 1_800_000;
const steps = Number(process.env.STEPS ?? 40);

/** Proposals that are called sound and break a rule of the event, in words; and what is said where none is sound. */
function judged(event: string, rules: readonly string[]): { readonly broken: readonly string[]; readonly refusal: string | null } {
  const text = `${ground(20, 50)}${event}${rules.map((rule) => `  ${rule}\n`).join("")}`;
  const notebook = [{ path: "event.rota", text }];
  const { kept } = compile(notebook);
  const { event: spec, team, abilities, constants } = problemOf(text);
  const suggestions = suggestedAfter(steps, spec, team, abilities, constants);
  if (suggestions.length === 0) return { broken: [], refusal: "no plan at all" };
  const proposed = proposals(suggestions, 4, kept, notebook);
  const broken = proposed
    .filter(({ sound }) => sound)
    .flatMap((proposal) => {
      const { documents } = compile([...notebook, { path: "own.rota", text: proposal.text }]);
      return [...documents.values()]
        .flatMap(({ blocks }) => blocks.flatMap(({ findings }) => findings))
        .filter(({ severity }) => severity === "error")
        .map(({ message }) => `${proposal.kind}: ${message}`);
    });
  const [first] = proposed;
  return { broken, refusal: first?.sound ? null : (first?.reasons[0] ?? "") };
}

const forms = Object.keys(limits);
const pairs = forms.flatMap((one, at) => forms.slice(at + 1).map((other) => [one, other] as const));
const every = process.env.PAIRS === "all" ? 1 : 180;

describe("no suggestion breaks a published rule", () => {
  it("every form of a limit is tried", () => expect(forms.toSorted()).toEqual(ruleForms.toSorted()));

  it.each(Object.entries(events))(
    "alone, where %s",
    (_, event) => {
      const shift = Object.values(events).indexOf(event);
      for (const form of forms.filter((__, at) => every === 1 || (at + shift) % 10 === 0)) {
        const { broken, refusal } = judged(event, [limits[form] ?? ""]);
        expect([form, broken]).toEqual([form, []]);
        // Where none can be kept, the first thing said is which, and why.
        if (refusal !== null) expect([form, refusal]).toEqual([form, expect.stringMatching(which)]);
      }
    },
    longestMs,
  );

  it.each(Object.entries(events))(
    "in pairs, where %s",
    (_, event) => {
      const shift = Object.values(events).indexOf(event);
      for (const [one, other] of pairs.filter((__, at) => (at + shift) % every === 0)) {
        const { broken, refusal } = judged(event, [limits[one] ?? "", limits[other] ?? ""]);
        expect([one, other, broken]).toEqual([one, other, []]);
        if (refusal !== null) expect([one, other, refusal]).toEqual([one, other, expect.stringMatching(which)]);
      }
    },
    longestMs,
  );
});
