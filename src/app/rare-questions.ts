/** Questions that few visits ask: what answers them is fetched when one does, so that the first answers come sooner. */
import { abilityFrom } from "../3-plan/ability-table.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Compiled } from "../compile.js";
import { cardPage } from "../7-view/card-page.js";
import { cardsOf, wallOf } from "../7-view/cards.js";
import { firstStep } from "../7-view/first-steps.js";
import { FloorRun } from "../7-view/floor.js";
import { simplerWords } from "../7-view/simpler.js";
import { tableRowsOf } from "../7-view/table-text.js";
import { templateText } from "../7-view/templates.js";
import { copied } from "./copied.js";
import { parcelled, parcelOf, receivedIn, rowsAt } from "./parcels.js";
import { planNamed, timed, type TimedPlan } from "./plan-named.js";
import type { CardPages, Question, RareQuestion, Reply } from "./protocol.js";

export function replyToRare(about: RareQuestion, { path, offset, to, marks = [], received = [] }: Question, notebook: Compiled): Reply {
  const { documents, kept } = notebook;
  switch (about) {
    case "copy":
      return { about, value: copied(to, notebook) };
    case "template":
      return { about, value: templateText(to, notebook) };
    case "first step":
      return { about, value: firstStep(notebook) };
    case "send":
      return { about, value: parcelled(path, notebook) };
    case "received":
      return { about, value: receivedIn(received, notebook) };
    case "table":
      return { about, value: abilityFrom(tableRowsOf(to), [...kept.world.athletes.keys()]) };
    case "rows":
      return { about, value: rowsAt(documents, path, offset) };
    case "cards": {
      const found = planAt(documents, path, offset);
      return { about, value: found && cardPages(found, kept, to === "" ? "" : to + parcelOf(path, notebook)) };
    }
    case "floor": {
      const found = to === "" ? planAt(documents, path, offset) : planNamed(documents, to);
      return { about, value: found && floorRun(found.plan, kept).after(marks) };
    }
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
  return timed(documents.get(path)?.blocks.find(({ block, plan }) => block.from === offset && plan?.timeline)?.plan);
}
