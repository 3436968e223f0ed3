/** Logs: each line against its plan (`cases.txt`), abilities learnt back from days whose truth is known, what to test, the second try. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Draw, spread } from "../../src/4-timeline/draw.js";
import { Ensemble } from "../../src/4-timeline/ensemble.js";
import { learn } from "../../src/4-timeline/learn.js";
import { readingOf, seeReadings } from "../../src/4-timeline/log-reading.js";
import { secondTry } from "../../src/4-timeline/second-try.js";
import { worthAsking } from "../../src/4-timeline/worth-asking.js";
import { learntFrom } from "../../src/7-view/learnt.js";
import { learntTable } from "../../src/7-view/learnt-table.js";
import { compile } from "../../src/compile.js";
import { pierNine } from "../../src/5-findings/examples.js";
import { answersOf, compileText, findingsOf, lighthouse, root } from "../notebook.js";
import { abilities, constants, kinds, logOf, planNamed, recover, type Tally, truthOf } from "./drawn-logs.js";

describe("a log beside its plan", () => {
  const cases = readFileSync(join(root, "tests/log/cases.txt"), "utf8").split(/^=== /m).slice(1);
  it.each(cases.map((one) => [one.split("\n", 1)[0] ?? "", one] as const))("%s", (title, one) => {
    const [input = "", expected = ""] = one.slice(title.length + 1).split("==>\n");
    const compiled = compileText(pierNine + input);
    const lines = (pierNine + input).split("\n");
    const from = lines.findIndex((line) => line.startsWith("log "));
    const shown = [...answersOf(compiled)]
      .sort(([a], [b]) => a - b)
      .flatMap(([line, words]) => (line > from ? [`${lines[line - 1]?.trim() ?? ""}: ${words}`] : []));
    expect(shown.join("\n")).toBe(expected.trim());
  });
});

describe("learning from a log", () => {
  it("holds the truth in the stated 80 %, and is nearer to it than the tests: a fixed part of the 200 seeds of `npm run recovery`", () => {
    const all: Tally = { told: 0, inside: 0, squared: 0, squaredBefore: 0 };
    for (const [name, seeds] of [
      ["Ladder", 6],
      ["Four", 5],
      ["Steady", 2],
      ["Even", 1],
    ] as const)
      for (let seed = 1; seed <= seeds; seed += 1) recover(name, seed, all);
    // Some 70 unknowns, those of a log not independent: 80 % give or take three deviations of half as many.
    expect(all.told).toBeGreaterThan(50);
    expect(all.inside / all.told).toBeGreaterThan(0.68);
    expect(all.inside / all.told).toBeLessThan(0.92);
    expect(all.squared).toBeLessThan(all.squaredBefore);
  });

  it("the figures of all 200 seeds stand beside it: each kind of event between 75 and 85 %", () => {
    const rows = readFileSync(join(root, "tests/log/recovery.txt"), "utf8")
      .split("\n")
      .slice(3)
      .flatMap((line) => /^(\w+) +(\d+) +([\d.]+) % +([\d.]+)$/.exec(line)?.slice(1) ?? []);
    expect(rows.filter((_, at) => at % 4 === 0)).toEqual([...kinds, "all"]);
    for (let at = 0; at < rows.length; at += 4) {
      expect(Number(rows[at + 2])).toBeGreaterThanOrEqual(75);
      expect(Number(rows[at + 2])).toBeLessThanOrEqual(85);
      expect(Number(rows[at + 3])).toBeLessThan(1);
    }
  });

  // The judge is another estimator: days weighed by how well they explain what was seen (importance sampling), no covariance in it.
  it.each(["Four"] as const)("comes to what weighing the days one by one comes to: %s", (name) => {
    const plan = planNamed(name);
    const day = new Draw(5);
    day.go(5);
    const log = logOf(plan, day);
    const seen = { ...log, seen: log.seen.filter(({ kind }) => kind !== "broke" && kind !== "dropped").slice(-1) };
    const { learnt } = learn([{ log: seen, plan, ageDays: 0 }], abilities, constants);
    const ensemble = new Ensemble([plan], abilities, constants, 8_000, 91);
    const readings = seen.seen.flatMap((one) => readingOf(one, plan) ?? []);
    const byDay = seeReadings(readings, ensemble, 0, plan);
    const weights = Float64Array.from({ length: ensemble.days }, (_, at) =>
      Math.exp(
        -0.5 *
          readings.reduce((sum, { value, cutS }, nth) => sum + (((byDay[nth]?.[at] ?? 0) - value) / (cutS === null ? 1 : 0.5)) ** 2, 0),
      ),
    );
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    expect(learnt.length).toBeGreaterThan(0);
    for (const { unknown, factor } of learnt) {
      const drawn = ensemble.unknowns.find(
        (one) =>
          one.kind === unknown.kind && one.athlete === unknown.athlete && one.subject === unknown.subject && one.hold === unknown.hold,
      );
      const weighed = (drawn?.drawn ?? new Float64Array()).reduce((sum, one, at) => sum + one * (weights[at] ?? 0), 0) / all;
      // In deviations of what the test left open.
      expect(Math.log(factor) / (unknown.kind === "ability" ? spread.test : spread.recovery)).toBeCloseTo(weighed, 0);
      expect(Math.abs(Math.log(factor) / (unknown.kind === "ability" ? spread.test : spread.recovery) - weighed)).toBeLessThan(0.3);
    }
  });

  const plan = planNamed("Ladder");
  const drawnDay = (seed: number) => {
    const day = new Draw(seed);
    day.go(seed);
    return day;
  };

  it("two logs tell more than one, and an old one less", () => {
    const [one, other] = [logOf(plan, drawnDay(3)), logOf(plan, drawnDay(4))];
    const told = (logs: Parameters<typeof learn>[0]): number =>
      learn(logs, abilities, constants).learnt.reduce((sum, learnt) => sum + learnt.told, 0);
    const fresh = told([{ log: one, plan, ageDays: 0 }]);
    expect(
      told([
        { log: one, plan, ageDays: 0 },
        { log: other, plan, ageDays: 0 },
      ]),
    ).toBeGreaterThan(fresh);
    expect(told([{ log: one, plan, ageDays: 120 }])).toBeLessThan(fresh);
  });

  it("touches nothing that the log says nothing about, and moves nothing by more than what is seen is worth", () => {
    const log = { ...logOf(plan, drawnDay(3)), seen: [{ kind: "reps" as const, atS: 420, reps: 150, span: { from: 0, to: 0 } }] };
    const { learnt } = learn([{ log, plan, ageDays: 0 }], abilities, constants);
    expect(learnt.every(({ unknown: { subject } }) => subject === "ring dip")).toBe(true);
    // Two and a half deviations of what the test left open are 10 %.
    for (const { factor } of learnt) expect(Math.abs(Math.log(factor))).toBeLessThan(0.1);
    expect(learn([{ log: { ...log, seen: [] }, plan, ageDays: 0 }], abilities, constants).learnt).toEqual([]);
  });

  it("a day that was as planned in the middle moves nobody by a rep", () => {
    const page = learntFrom(compile(lighthouse));
    for (const { from, to } of page.rows) expect(Math.abs(to - from)).toBeLessThanOrEqual(0.05 * from);
  });

  it("nothing is learnt from what cannot have been so, nor twice from what was accepted", () => {
    const after = (log: string) =>
      lighthouse.map((document) => (document.path === "after.rota" ? { path: document.path, text: log } : document));
    const odd = learntFrom(compile(after("log Steady on 2026-03-23\n  squats done 2:10\n  finish 7:00\n")));
    expect(odd.rows).toEqual([]);
    expect(odd.notes.join()).toContain("Nothing is learnt from it");
    const log = "log Steady on 2026-03-23\n  squats done 4:50\n  logs done 11:10\n  finish 14:55\n";
    const page = learntFrom(compile(after(log)));
    expect(page.rows.length).toBeGreaterThan(0);
    const accepted = compile(after(`${log}\n${learntTable(page.rows, page.date)}`));
    expect(findingsOf(accepted).filter(({ path }) => path === "after.rota")).toEqual([]);
    const again = learntFrom(accepted).rows;
    expect(again.filter(({ athlete, subject }) => page.rows.some((row) => row.athlete === athlete && row.subject === subject))).toEqual([]);
  });

  it("says from what to what, how sure, and why", () => {
    const day = drawnDay(2);
    const truth = truthOf(plan, day, { unknown: { kind: "ability", athlete: "Bram", subject: "ring dip", hold: false } });
    expect(Number.isFinite(truth)).toBe(true);
    const late = lighthouse.map((document) =>
      document.path === "after.rota"
        ? { path: document.path, text: "log Steady on 2026-03-23\n  squats done 4:50\n  logs done 11:10\n  finish 14:55\n" }
        : document,
    );
    const [row] = learntFrom(compile(late)).rows;
    expect(row?.words).toMatch(
      /^\w+'s [a-z ]+ (unbroken|in 5 min|hold): \d+ → \d+ (reps|s), four to one between \d+ and \d+\. That settles \d+ % of what the test left open, mostly by .+ in Steady\.$/,
    );
  });
});

describe("what to test next", () => {
  it("narrows the spread by what weighing the days with a drawn test comes to", () => {
    const plan = planNamed("Four");
    const [ask] = worthAsking(plan, abilities, constants);
    if (!ask) throw new Error("nothing to ask");
    expect(ask.after).toBeLessThan(ask.spread);
    // The judge: the test's outcome is drawn, the days weighed by how well they agree with it, their middle 80 % read off; many times.
    const ensemble = new Ensemble([plan], abilities, constants, 4_000, 17);
    const [scores = new Float64Array()] = ensemble.see(0, null, [({ endS }) => endS]);
    const unknown = ensemble.unknowns.find(
      (one) => one.kind === ask.unknown.kind && one.athlete === ask.unknown.athlete && one.subject === ask.unknown.subject,
    );
    const exactly = ask.unknown.kind === "recovery" ? 0.1 / spread.recovery : 1;
    const widths = Array.from({ length: 40 }, (_, nth) => {
      const outcome = (unknown?.drawn[nth * 97] ?? 0) + exactly * (unknown?.drawn[nth * 89 + 41] ?? 0);
      const weighed = [...scores]
        .map((score, at) => ({ score, weight: Math.exp(-0.5 * (((unknown?.drawn[at] ?? 0) - outcome) / exactly) ** 2) }))
        .sort((a, b) => a.score - b.score);
      const all = weighed.reduce((sum, { weight }) => sum + weight, 0);
      const at = (share: number): number => {
        let sum = 0;
        for (const { score, weight } of weighed) if ((sum += weight) >= share * all) return score;
        return Number.NaN;
      };
      return at(0.9) - at(0.1);
    });
    const judged = widths.reduce((sum, one) => sum + one, 0) / widths.length;
    expect(Math.abs(ask.after - judged)).toBeLessThan(0.1 * ask.spread);
  });
});

describe("the second try", () => {
  const plan = planNamed("Ladder");
  const log = (reps: number) => [
    {
      log: {
        plan: "Ladder",
        date: "2026-03-20",
        seen: [{ kind: "reps" as const, atS: 420, reps, span: { from: 0, to: 0 } }],
        handoverS: null,
      },
      plan,
      ageDays: 0,
    },
  ];

  it("is even where nothing is known of the first and nothing tires; worse the better the first was, and the more tired the second", () => {
    const fresh = secondTry(plan, [], null, abilities, constants);
    expect(fresh.better).toBeGreaterThan(0.4);
    expect(fresh.better).toBeLessThan(0.6);
    expect(secondTry(plan, [], () => 0.93, abilities, constants).better).toBeLessThan(fresh.better);
    const [poor, good] = [secondTry(plan, log(128), null, abilities, constants), secondTry(plan, log(146), null, abilities, constants)];
    expect(poor.better).toBeGreaterThan(0.6);
    expect(good.better).toBeLessThan(0.3);
    expect(good.short).toBeGreaterThan(0);
    expect(poor.short).toBeLessThanOrEqual(0);
  });
});
