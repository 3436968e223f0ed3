import type { Document } from "../1-text/document.js";
import { abilityFrom } from "../3-plan/ability-table.js";
import { format } from "../3-plan/format.js";
import { occurrencesIn } from "../3-plan/occurrences.js";
import type { PlanSpec } from "../3-plan/plan.js";
import { rename } from "../3-plan/rename.js";
import type { Compiled } from "../compile.js";
import type { Explanation } from "../7-view/answer.js";
import { cardPage } from "../7-view/card-page.js";
import { cardsOf, wallOf } from "../7-view/cards.js";
import { FloorRun } from "../7-view/floor.js";
import { completionsAt } from "../7-view/completion.js";
import { rowsOf } from "../7-view/table-text.js";
import { simplerWords } from "../7-view/simpler.js";
import { declarationOf, helpAt, nameAt, placesOf } from "../7-view/name-help.js";
import { parcelled, receivedIn, rowsAt } from "./parcels.js";
import { planNamed, type TimedPlan } from "./plan-named.js";
import type { CardPages, Question, Reply } from "./protocol.js";

/** What the page is told of a place of a document, drawn from the compiled notebook. */
export function replyTo({ about, path, offset, to, marks = [], received = [] }: Question, notebook: Compiled, documents: readonly Document[], explanationAt: (path: string, offset: number) => Explanation | null): Reply {
  const { documents: compiled, kept } = notebook;
  if (about === "send") return { about, value: parcelled(path, notebook) };
  if (about === "received") return { about, value: receivedIn(received, notebook) };
  if (about === "table") return { about, value: abilityFrom(rowsOf(to), [...kept.world.athletes.keys()]) };
  if (about === "rows") return { about, value: rowsAt(compiled, path, offset) };
  if (about === "explanation") return { about, value: explanationAt(path, offset) };
  const text = documents.find((document) => document.path === path)?.text ?? "";
  if (about === "format") return { about, value: format(text) };
  if (about === "cards" || about === "floor") {
    const found = about === "cards" || to === "" ? planAt(compiled, path, offset) : planNamed(compiled, to);
    if (about === "cards") return { about, value: found && cardPages(found, kept, to) };
    return { about, value: found && floorRun(found.plan, kept).after(marks) };
  }
  const read = { documents: [...compiled].map(([at, { document }]) => ({ path: at, blocks: document.blocks })), world: kept.world };
  if (about === "completion") return { about, value: completionsAt(read, text, offset) };
  const names = occurrencesIn(read);
  if (about === "help") return { about, value: helpAt(names, documents, path, offset) };
  const name = nameAt(names, path, offset);
  switch (about) {
    case "declaration": return { about, value: name && declarationOf(names, name) };
    case "name": return { about, value: name && { kind: name.kind, name: name.name, places: placesOf(names, name).length } };
    case "renaming": return { about, value: name && rename(names, name, to) };
  }
}

/** `link`: what a code on the wall leads to; "" for none. */
function cardPages({ plan, timeline }: TimedPlan, { abilities, world }: Compiled["kept"], link: string): CardPages {
  const page = (spelt: boolean): string => cardPage(cardsOf(plan, timeline, spelt), wallOf(plan, timeline), link);
  return { plan: plan.name, page: page(false), spelt: page(true), simpler: simplerWords(plan, abilities, world) };
}

/** The plans that are on the floor, so that each mark costs what it adds. */
const floorRuns = new WeakMap<PlanSpec, FloorRun>();

function floorRun(plan: PlanSpec, { abilities, world }: Compiled["kept"]): FloorRun {
  const run = floorRuns.get(plan) ?? new FloorRun(plan, abilities, world.constants);
  floorRuns.set(plan, run);
  return run;
}

function planAt(documents: Compiled["documents"], path: string, offset: number): TimedPlan | null {
  const result = documents.get(path)?.blocks.find(({ block, plan }) => block.from === offset && plan?.timeline)?.plan;
  return result?.resolved.plan && result.timeline ? { plan: result.resolved.plan, timeline: result.timeline } : null;
}
