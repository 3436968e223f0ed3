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
import { proposals, teamFor } from "../7-view/proposals.js";
import { weekCalendar } from "../7-view/week-calendar.js";
import { weekIdeas, type WeekIdeas, weeksIn } from "../7-view/week-ideas.js";
import { planNamed } from "./plan-named.js";
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
    case "suggest": return look(data.documents, data.event, running);
    case "compare": return compare(data.documents, data.plans);
    case "orders": return orders(data.documents, data.week, running);
    case "calendar": return calendar(data.documents, data.week, data.atS);
    case "rest": return rest(data, running);
    case "stop": return;
  }
});

function look(documents: readonly Document[], name: string, run: number): void {
  const { kept } = compile(documents);
  const event = kept.world.events.get(name);
  const team = event && teamFor(kept.world, null, event);
  if (!event || !team) return send({ kind: "failed", reason: event ? "The notebook has no team yet. Write one first." : `There is no event “${name}”.` });
  const never = noEnd(event);
  if (never !== null) return send({ kind: "failed", reason: never });
  const search = suggest(event, team, kept.abilities, kept.world.constants);
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
    if (last.suggestions.length === 0) return send({ kind: "failed", reason: `Nobody of ${team.name} may do the work of ${name} as its pairs, stations and holds stand.` });
    // What was found stays when the search is stopped, and is judged in the notebook then.
    send({ kind: "proposals", event: name, steps: last.steps, done: ended, proposals: proposals(last, shown, kept, ended ? documents : null) });
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
  send({ kind: "comparison", comparison: compared(contenders) });
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

function calendar(documents: readonly Document[], name: string, atS: number): void {
  const found = weeksIn(compile(documents)).find(({ line }) => line.name.text === name);
  if (!found) return send({ kind: "failed", reason: `There is no week “${name}”.` });
  const starts = lineStarts(found.text);
  send({ kind: "calendar", week: name, text: weekCalendar(found.week, found.block.answers, (offset) => lineAt(starts, offset), { atS }) });
}

/** How long another plan for the rest is looked for at least, in time and, on a slow device, in looks; how long a slice lasts: the first comes soon. */
const restMs = 1_500;
const restLooks = 60;
const restSliceMs = 120;
/** Less than this is not worth four heads, in s and in reps. */
const restGain = { time: 3, reps: 1 } as const;

function rest({ documents, plan: name, marks, nowS }: Extract<ToSearch, { kind: "rest" }>, run: number): void {
  const key = JSON.stringify(documents);
  if (onFloor?.key !== key) onFloor = { key, compiled: compile(documents) };
  const { documents: compiled, kept } = onFloor.compiled;
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
      send({ kind: "rest", plan: name, marks: marks.length, floor: floorWithRest(floor, left, best.draft, kept.abilities, kept.world.constants), gain, lines: firstLines(best.draft) });
    }
    if (performance.now() - startMs < restMs || looks < restLooks) setTimeout(slice);
  };
  slice();
}

/** The notebook as it was compiled for the floor. */
let onFloor: { readonly key: string; readonly compiled: Compiled } | null = null;

function send(message: FromSearch): void {
  self.postMessage(message);
}
