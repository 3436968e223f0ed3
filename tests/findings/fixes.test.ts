import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rules } from "../../src/5-findings/registry.js";
import { applyEdits } from "../../src/1-text/edits.js";
import { fixAll } from "../../src/cli/fix.js";
import { compileText, findingsOf } from "../notebook.js";
import { kelpStreet } from "../../src/5-findings/examples.js";

type Found = ReturnType<typeof findingsOf>[number];

function applied(text: string, finding: Found, at: number): string {
  const start = finding.at - finding.span.from;
  const edits = (finding.fixes[at]?.edits ?? []).map(({ span, text: by }) => ({
    span: { from: span.from + start, to: span.to + start },
    text: by,
  }));
  return applyEdits(text, edits);
}

const errorsOf = (found: readonly Found[]) => found.filter(({ severity }) => severity === "error").length;

describe("a fix, applied, removes its finding and brings no new error", () => {
  it.each(rules.map(({ id, bad }) => [id, bad.replace(/[«»]/g, "")] as const))("%s", (id, bad) => {
    const before = findingsOf(compileText(bad));
    for (const finding of before.filter(({ rule }) => rule === id)) {
      finding.fixes.forEach((fix, at) => {
        const after = findingsOf(compileText(applied(bad, finding, at)));
        expect([fix.title, after.filter(({ rule }) => rule === id).length]).toEqual([
          fix.title,
          before.filter(({ rule }) => rule === id).length - 1,
        ]);
        // What the fix makes readable may show what was hidden before: only errors of other lines count as new.
        if (id !== "say-how") expect(errorsOf(after)).toBeLessThanOrEqual(errorsOf(before));
      });
    }
  });

  it("the ones the text can settle are there", () => {
    const offered = rules
      .filter(({ id, bad }) => findingsOf(compileText(bad.replace(/[«»]/g, ""))).some(({ rule, fixes }) => rule === id && fixes.length > 0))
      .map(({ id }) => id);
    expect(offered).toEqual(
      expect.arrayContaining(["hold-turn-missed", "opens-hard", "rest-short", "say-how", "uneven-share", "unknown-name"]),
    );
  });

  it("each one offered in generated plans", () => {
    const line = fc.tuple(fc.constantFrom("Ines", "Marta"), fc.integer({ min: 2, max: 30 }), fc.constantFrom("Bram", "Tariq", "Olaf"));
    fc.assert(
      fc.property(fc.array(line, { minLength: 2, maxLength: 6 }), fc.constantFrom("score time", "score reps"), (turns, score) => {
        const total = turns.reduce((sum, [, reps]) => sum + reps, 0);
        const stage = score === "score time" ? `stage ${total} box jump` : "stage box jump";
        const text = `${kelpStreet}event Sprint\n  ${score}\n  cap 12 min\n  handover 3 s\n  ${stage} while 1 hold stone\n  rule hold turn at most 40 s\n  rule share within 22 %\nplan P for Sprint\n${turns.map(([who, reps, holder]) => `  ${who} ${reps} while ${holder} hold\n`).join("")}`;
        const before = findingsOf(compileText(text));
        for (const finding of before) {
          finding.fixes.forEach((fix, at) => {
            const after = findingsOf(compileText(applied(text, finding, at)));
            const count = (found: readonly Found[]) => found.filter(({ rule }) => rule === finding.rule).length;
            // A misspelt holder had no turn: once it is one, its own errors show.
            if (finding.rule === "unknown-name")
              expect(after.filter(({ rule, marked }) => rule === finding.rule && marked === finding.marked).length).toBeLessThan(
                before.filter(({ rule, marked }) => rule === finding.rule && marked === finding.marked).length,
              );
            else expect([fix.title, count(after) < count(before), errorsOf(after) <= errorsOf(before)]).toEqual([fix.title, true, true]);
          });
        }
      }),
      { seed: 9, numRuns: 80 },
    );
  });

  it("--fix writes a slip of a letter and leaves a name that is merely near to the coach", () => {
    const event = (lines: string): string => `${kelpStreet}event Sprint\n  stage run 1  40 box jump\n  stage swings 30 swing\n${lines}`;
    const fixed = (lines: string): string =>
      fixAll([{ path: "test.rota", text: event(lines) }]).documents[0]?.text.slice(event("").length) ?? "";
    const plan = (stage: string, who: string): string => `plan P for Sprint\n  stage ${stage}\n    ${who} 5\n`;
    expect(fixed(plan("swinks", "Marta"))).toBe(plan("swings", "Marta"));
    expect(fixed(plan("swings", "Bran"))).toBe(plan("swings", "Bram"));
    // Barn may be somebody, "run 2" a stage whose line is still to come, a name of three letters somebody else's.
    for (const plans of [plan("swings", "Barn"), plan("run 2", "Marta"), plan("swings", "Inas").replace("Inas", "Ina")])
      expect(fixed(plans)).toBe(plans);
  });

  it("--fix over generated plans never ends with more errors, and settles", () => {
    const size = fc.integer({ min: 2, max: 30 });
    const plans = fc
      .array(fc.tuple(fc.constantFrom("Ines", "Marta"), size, fc.constantFrom("Bram", "Tariq", "Olaf")), { minLength: 2, maxLength: 6 })
      .map((turns) => {
        const total = turns.reduce((sum, [, reps]) => sum + reps, 0);
        return `${kelpStreet}event Sprint\n  handover 3 s\n  stage ${total} box jump while 1 hold stone\n  rule hold turn at most 40 s\n  rule share within 20 %\nplan P for Sprint\n${turns.map(([who, reps, holder]) => `  ${who} ${reps} while ${holder} hold\n`).join("")}`;
      });
    fc.assert(
      fc.property(plans, (text) => {
        const fixed = fixAll([{ path: "test.rota", text }]);
        const result = fixed.documents[0]?.text ?? "";
        expect(errorsOf(findingsOf(compileText(result)))).toBeLessThanOrEqual(errorsOf(findingsOf(compileText(text))));
        expect(fixAll(fixed.documents).applied).toBe(0);
      }),
      { seed: 5, numRuns: 40 },
    );
  });
});
