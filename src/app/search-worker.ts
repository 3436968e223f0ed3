/** Looks for plans and compares them beside the page, in slices, so that it can be stopped. */
import type { Document } from "../1-text/document.js";
import { lineAt, lineStarts } from "../1-text/document.js";
import { compile, type Compiled } from "../compile.js";
import { gainOf } from "../4-timeline/spread.js";
import { firstLines } from "../6-search/draft-text.js";
import { betterRest, restFrom } from "../6-search/rest.js";
import { noEnd, type Progress, suggest } from "../6-search/suggest.js";
import { floorWithRest, FloorRun } from "../7-view/floor.js";
import { compared, type Contender, contenderFor } from "../7-view/comparison.js";
import { barFor, betterThanOwn, mostBegun, ownPlans, proposals, teamFor } from "../7-view/proposals.js";
import { wishesOf } from "../7-view/wishes.js";
import { secondTryAdvice } from "../7-view/second-try.js";
import { weekCalendar } from "../7-view/week-calendar.js";
import { weekIdeas, type WeekIdeas, weeksIn } from "../7-view/week-ideas.js";
import { bestValue, type TrialPoint, trialPoint } from "../7-view/number-trial.js";
import { learntFrom } from "../7-view/learnt.js";
import { askLines, moversInWords, whatTurns } from "../7-view/why-words.js";
import { moversOf } from "../4-timeline/sensitivity.js";
import { worthAsking } from "../4-timeline/worth-asking.js";
import { planNamed, specNamed } from "./plan-named.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { FromSearch, ToSearch } from "./protocol.js";

/** How long a slice of the search lasts, and how often the page hears of it. */
const sliceMs = 200;
/** The search ends by itself: what it finds later is hardly better. */
const wholeMs = 8_000;
const shown = 3;

let running = 0;

self.addEventListener("message", ({ data }: MessageEvent<ToSearch>) => {
  running += 1;
  switch (data.kind) {
    case "suggest":
      return look(data.documents, data.event, data.wishes, running);
    case "compare":
      return compare(data.documents, data.plans);
    case "orders":
      return orders(data.documents, data.week, running);
    case "calendar":
      return calendar(data.documents, data.week, data.atS);
    case "rest":
      return rest(data, running);
    case "try":
      return tryValues(data, running);
    case "movers":
      return movers(data.documents, data.plan);
    case "again":
      return again(data.documents, data.week);
    case "learn":
      return send({ kind: "learnt", page: learntFrom(compiledOnce(data.documents)) });
    case "stop":
      return;
  }
});

function look(documents: readonly Document[], name: string, typed: string, run: number): void {
  const compiled = compiledOnce(documents);
  const { kept } = compiled;
  const event = kept.world.events.get(name);
  const team = event && teamFor(kept.world, null, event);
  if (!event || !team)
    return send({ kind: "failed", reason: event ? "The notebook has no team yet. Write one first." : `There is no event “${name}”.` });
  const never = noEnd(event);
  if (never !== null) return send({ kind: "failed", reason: never });
  const wishes = wishesOf(typed, team);
  if ("reason" in wishes) return send({ kind: "failed", reason: wishes.reason });
  const own = ownPlans(compiled, event, team);
  const search = suggest(event, team, kept.abilities, kept.world.constants, { from: own.slice(0, mostBegun), ...wishes });
  const startMs = performance.now();
  let last: Progress = { steps: 0, suggestions: [] };
  const slice = (): void => {
    const stopped = run !== running;
    const untilMs = performance.now() + sliceMs;
    let ended = stopped || performance.now() - startMs > wholeMs;
    while (!ended && performance.now() < untilMs) {
      const next = search.next();
      if (next.done) ended = true;
      else last = next.value;
    }
    const { steps, suggestions } = last;
    if (suggestions.length === 0)
      return send({
        kind: "failed",
        reason: `Nobody of ${team.name} may do the work of ${name} as its pairs, stations and holds, and your own limits, stand.`,
      });
    // What was found stays when the search is stopped, and is judged in the notebook then.
    const proposed = proposals(suggestions, shown, kept, ended ? documents : null);
    const { better, nothing } = ended ? betterThanOwn(proposed, barFor(own, wishes), kept) : { better: proposed, nothing: null };
    send({ kind: "proposals", event: name, steps, done: ended, proposals: better, nothing });
    if (!ended) setTimeout(slice);
  };
  slice();
}

function compare(documents: readonly Document[], names: readonly string[]): void {
  const { documents: compiled, kept } = compile(documents);
  const blocks = [...compiled.values()].flatMap((document) => document.blocks);
  const contenders = names.flatMap((name): readonly Contender[] => {
    const block = blocks.find(({ plan }) => plan?.resolved.line.name.text === name);
    const contender = block && contenderFor(block, kept);
    return contender ? [contender] : [];
  });
  const comparison = compared(contenders);
  // The table first: what would turn it is looked for by many runs.
  send({ kind: "comparison", comparison, why: null });
  const [first, second] = contenders.map(({ result }) => result.resolved.plan);
  if (first && second)
    send({ kind: "comparison", comparison, why: whatTurns(first, second, (comparison.beats[0]?.[1] ?? 0) >= 0.5, kept) });
}

function orders(documents: readonly Document[], name: string, run: number): void {
  const compiled = compile(documents);
  const found = weeksIn(compiled).find(({ line }) => line.name.text === name);
  if (!found) return send({ kind: "failed", reason: `There is no week “${name}”.` });
  const search = weekIdeas(found, compiled.kept, documents);
  let last: WeekIdeas = { ideas: [], faults: [], steps: 0, done: false };
  const slice = (): void => {
    const untilMs = performance.now() + sliceMs;
    while (run === running && !last.done && performance.now() < untilMs) last = search.next().value;
    const stopped = run !== running;
    send({ kind: "orders", was: found.text, ideas: stopped ? { ...last, done: true } : last });
    if (!stopped && !last.done) setTimeout(slice);
  };
  slice();
}

function again(documents: readonly Document[], name: string): void {
  const compiled = compiledOnce(documents);
  const found = weeksIn(compiled).find(({ line }) => line.name.text === name);
  const lines = found ? secondTryAdvice(found.week, compiled) : [];
  send({
    kind: "again",
    lines: lines.length > 0 ? lines : ["No event is tried again in this week. Write one: 2026-03-26 12:00 EVENT again."],
  });
}

function calendar(documents: readonly Document[], name: string, atS: number): void {
  const found = weeksIn(compile(documents)).find(({ line }) => line.name.text === name);
  if (!found) return send({ kind: "failed", reason: `There is no week “${name}”.` });
  const starts = lineStarts(found.text);
  send({ kind: "calendar", week: name, text: weekCalendar(found.week, found.block.answers, (offset) => lineAt(starts, offset), { atS }) });
}

/**
 * How long another plan for the rest is looked for at least, in time and, on a slow device, in looks; how long a slice
 * lasts: the first comes soon.
 */
const restMs = 1_500;
const restLooks = 60;
const restSliceMs = 120;
/** Less than this is not worth four heads, in s and in reps. */
const restGain = { time: 3, reps: 1 } as const;

function rest({ documents, plan: name, marks, nowS }: Extract<ToSearch, { kind: "rest" }>, run: number): void {
  const { documents: compiled, kept } = compiledOnce(documents);
  const plan = planNamed(compiled, name)?.plan;
  if (!plan) return;
  const floorRun = new FloorRun(plan, kept.abilities, kept.world.constants);
  const floor = floorRun.after(marks);
  const left = restFrom(floorRun.follower, nowS);
  if (!left) return;
  const search = betterRest(left, kept.abilities, kept.world.constants);
  const startMs = performance.now();
  let [told, looks] = [0, 0];
  const slice = (): void => {
    const untilMs = performance.now() + restSliceMs;
    let last = search.next();
    for (looks += 1; !last.done && performance.now() < untilMs; looks += 1) last = search.next();
    if (last.done || run !== running) return;
    const { planned, best } = last.value;
    const gain = gainOf(plan.event.score, best.worth.middle, planned.worth.middle);
    const better = best.worth.sound && gain >= restGain[plan.event.score];
    if (better && gain > told + 0.5) {
      told = gain;
      send({
        kind: "rest",
        plan: name,
        marks: marks.length,
        floor: floorWithRest(floor, left, best.draft, kept.abilities, kept.world.constants),
        gain,
        lines: firstLines(best.draft),
      });
    }
    if (performance.now() - startMs < restMs || looks < restLooks) setTimeout(slice);
  };
  slice();
}

/** The notebook that was compiled last: what is asked again and again is asked of the same. */
let compiledLast: { readonly key: string; readonly compiled: Compiled } | null = null;

function compiledOnce(documents: readonly Document[]): Compiled {
  const key = JSON.stringify(documents);
  if (compiledLast?.key !== key) compiledLast = { key, compiled: compile(documents) };
  return compiledLast.compiled;
}

/** Days behind a first curve, and behind the one that stays. */
const firstDays = 8;
const allDays = 200;
/** A curve is told of as often. */
const curveMs = 60;

/** A plan with one value after another in place of a number, the nearest first: a curve soon, then one from more days. */
function tryValues({ documents, path, span, now, values, plan: name }: Extract<ToSearch, { kind: "try" }>, run: number): void {
  const text = documents.find((document) => document.path === path)?.text ?? "";
  const base = compiledOnce(documents);
  const score = planNamed(base.documents, name)?.plan.event.score;
  if (!score) return;
  const nearest = [...values].sort((a, b) => Math.abs(a - now) - Math.abs(b - now));
  const plans = new Map<number, PlanSpec | null>();
  const points = new Map<number, TrialPoint>();
  const jobs = [firstDays, allDays].flatMap((days) => nearest.map((value) => ({ value, days })));
  const slice = (): void => {
    if (run !== running) return;
    const untilMs = performance.now() + curveMs;
    while (jobs.length > 0 && performance.now() < untilMs) {
      const job = jobs.shift();
      if (!job) break;
      const { value, days } = job;
      if (!plans.has(value)) {
        const tried = text.slice(0, span.from) + String(value) + text.slice(span.to);
        const changed = documents.map((document) => (document.path === path ? { path, text: tried } : document));
        plans.set(value, specNamed(compile(changed, base).documents, name));
      }
      const plan = plans.get(value);
      if (plan) points.set(value, trialPoint(value, plan, base.kept.abilities, base.kept.world.constants, days));
    }
    const sorted = [...points.values()].sort((a, b) => a.value - b.value);
    send({ kind: "trial", path, span, score, now, best: bestValue(sorted, now, score), points: sorted, done: jobs.length === 0 });
    if (jobs.length > 0) setTimeout(slice);
  };
  slice();
}

function movers(documents: readonly Document[], name: string): void {
  const { documents: compiled, kept } = compiledOnce(documents);
  const plan = planNamed(compiled, name)?.plan;
  if (plan)
    send({
      kind: "movers",
      plan: name,
      score: plan.event.score,
      movers: moversInWords(moversOf(plan, kept.abilities, kept.world.constants), plan.event.score),
      asks: askLines(worthAsking(plan, kept.abilities, kept.world.constants), plan.event.score),
    });
}

function send(message: FromSearch): void {
  self.postMessage(message);
}
