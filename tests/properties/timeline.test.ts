import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Timeline } from "../../src/4-timeline/timeline.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

const athletes = ["Ines", "Marta", "Bram", "Tariq"] as const;
const ground = `team Kelp Street
  Ines woman
  Marta woman
  Bram man
  Tariq man
ability  Ines  Marta  Bram  Tariq
  squat  unbroken  24  19  31  27  reps
  squat  cycle  2.4  2.6  2.2  2.3  s
  squat  in 5 min  58  49  70  63  reps
  stone  hold  82  74  118  104  s
`;

const size = fc.integer({ min: 1, max: 30 });
const turn = fc.oneof(
  fc.tuple(fc.constantFrom(...athletes), size).map(([who, reps]) => ({ who: [who], text: `${who} ${reps}` })),
  fc
    .tuple(fc.constantFrom("A", "B"), size, fc.constantFrom("each", "in sync", "together", "shared"))
    .map(([pair, reps, how]) => ({ who: pair === "A" ? ["Ines", "Bram"] : ["Marta", "Tariq"], text: `${pair} ${reps} ${how}` })),
  fc
    .tuple(fc.constantFrom(...athletes), fc.integer({ min: 10, max: 60 }))
    .map(([who, percent]) => ({ who: [who], text: `${who} ${percent} % unbroken` })),
  fc.tuple(fc.constantFrom(...athletes), size, size).map(([who, a, b]) => ({ who: [who], text: `${who} ${a}-${b} again` })),
);
const line = fc
  .tuple(turn, fc.option(fc.constantFrom(...athletes)))
  .map(([{ who, text }, holder]) => (holder && !who.includes(holder) ? `${text} while ${holder} hold stone` : text));
const rest = fc.oneof(
  fc.integer({ min: 1, max: 60 }).map((s) => `rest ${s} s`),
  fc.tuple(fc.constantFrom(...athletes), fc.integer({ min: 10, max: 90 })).map(([who, share]) => `${who} rest until ${share} %`),
  fc.constant("rest until ready"),
);
const body = fc.array(fc.oneof({ weight: 4, arbitrary: line }, { weight: 1, arbitrary: rest }), { minLength: 1, maxLength: 7 });
const document = fc
  .record({
    lines: body,
    second: fc.option(body),
    target: fc.integer({ min: 1, max: 200 }),
    cap: fc.integer({ min: 20, max: 900 }),
    repeat: fc.constantFrom("repeat", "repeat 3", "repeat until 2:00"),
    score: fc.constantFrom("time", "reps"),
  })
  .map(({ lines, second, target, cap, repeat, score }) => {
    const block = (of: readonly string[], indent: string) => of.map((text) => `${indent}${text}\n`).join("");
    const stages = score === "time" ? `  stage ${target} squat\n` : "  stage squat\n";
    const work = second
      ? `  lane one\n    ${repeat}\n${block(lines, "      ")}  lane two\n    ${repeat}\n${block(second, "      ")}`
      : `  ${repeat}\n${block(lines, "    ")}`;
    return `${ground}event Test\n  score ${score}\n  cap ${cap} s\n${stages}plan P for Test\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n${work}`;
  });

const settings = { seed: 20260314, numRuns: 250 };

function each(check: (timeline: Timeline, text: string) => void): void {
  fc.assert(
    fc.property(document, (text) => check(timelineOf(compileText(text)), text)),
    settings,
  );
}

describe("every timeline", () => {
  it("covers the plan for each athlete, without a gap, from 0 to its end", () => {
    each(({ segments, endS, athletes: totals }) => {
      for (const { name, work, hold, rest: idle } of totals) {
        const own = segments.filter(({ athlete }) => athlete === name);
        let atS = 0;
        for (const { startS, endS: stopS } of own) {
          expect(startS).toBeLessThanOrEqual(atS + 1e-6);
          expect(stopS).toBeGreaterThan(startS);
          atS = Math.max(atS, stopS);
        }
        expect(atS).toBeCloseTo(endS, 6);
        expect(work + hold + idle).toBeCloseTo(endS, 6);
        expect(Math.min(work, hold + 1e-9, idle + 1e-6)).toBeGreaterThanOrEqual(0);
      }
    });
  });

  it("counts as many reps in its turns as its stage has, never more than the target", () => {
    each(({ turns, stages, athletes: totals, segments }) => {
      const stage = stages[0];
      expect(turns.reduce((sum, { counted }) => sum + counted, 0)).toBe(stage?.reps ?? 0);
      if (stage?.target != null) expect(stage.reps).toBeLessThanOrEqual(stage.target);
      for (const { name, reps } of totals) {
        expect(
          turns
            .flatMap((run) => run.athletes)
            .filter((one) => one.name === name)
            .reduce((sum, one) => sum + one.reps, 0),
        ).toBe(reps);
        expect(segments.filter(({ athlete }) => athlete === name).reduce((sum, segment) => sum + segment.reps, 0)).toBe(reps);
      }
    });
  });

  it("has nobody in two places, unless a finding says so", () => {
    each(({ segments }, text) => {
      const said = findingsOf(compileText(text)).some(({ rule }) => rule === "two-places");
      const clash = athletes.some((name) => {
        let untilS = 0;
        return segments
          .filter(({ athlete, activity }) => athlete === name && activity !== "rest")
          .some(({ startS, endS }) => {
            const meets = startS < untilS - 1e-6;
            untilS = Math.max(untilS, endS);
            return meets;
          });
      });
      expect(said).toBe(clash);
    });
  });

  it("leaves each athlete between nothing and all of the reserve, and ends by the cap", () => {
    each(({ turns, endS, capS }) => {
      for (const { athletes: ran } of turns) for (const { left } of ran) expect(left >= 0 && left <= 1).toBe(true);
      expect(endS).toBeLessThanOrEqual((capS ?? 0) + 1e-9);
    });
  });

  it("is the same to the byte when made again", () => {
    each((timeline, text) => {
      expect(JSON.stringify(timelineOf(compileText(text)))).toBe(JSON.stringify(timeline));
    });
  });

  it("says nothing that is no number", () => {
    each((timeline) => {
      // JSON writes NaN and Infinity as null.
      expect(JSON.stringify(timeline)).not.toMatch(/"(startS|endS|atS|left|value|work|hold|rest|share)":null/);
    });
  });
});

describe("more rest", () => {
  // A missed rep leaves both pools scaled to the limit, so what a set with a miss takes after it is no measure of the rest.
  it("never makes the next set worse: not more misses, none of them sooner, and without one not a longer set", () => {
    const pairs = fc.tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 120 }),
      fc.integer({ min: 1, max: 120 }),
    );
    fc.assert(
      fc.property(pairs, ([first, second, restS, moreS]) => {
        const lasting = (seconds: number) => {
          const { turns } = timelineOf(
            compileText(
              `${ground}event Test\n  stage ${first + second} squat\nplan P for Test\n  Ines ${first}\n  rest ${seconds} s\n  Ines ${second}\n`,
            ),
          );
          const run = turns[1];
          return {
            seconds: (run?.endS ?? 0) - (run?.startS ?? 0),
            misses: run?.misses.length ?? 0,
            before: run?.misses[0]?.after ?? second,
          };
        };
        const [short, long] = [lasting(restS), lasting(restS + moreS)];
        if (short.misses === 0) expect(long.seconds).toBeLessThanOrEqual(short.seconds + 1e-9);
        expect(long.before).toBeGreaterThanOrEqual(short.before);
        expect(long.misses).toBeLessThanOrEqual(short.misses);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
