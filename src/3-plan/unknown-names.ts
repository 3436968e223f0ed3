import type { Problem } from "../0-base/problem.js";
import type { AwayLine, DayLine, EventLine, Line, LogLine, UseLine } from "./ast.js";
import { athleteNamed, nameUnknown, subjectKey } from "./names.js";
import type { World } from "./world.js";

/** The names in a comparison, a week, a log or a `use` line that nothing in the notebook bears. */
export function unknownNamesIn(line: Line, world: World): readonly Problem[] {
  switch (line.kind) {
    case "compare":
      return line.plans.filter(({ text }) => !world.plans.has(text)).map((name) => nameUnknown("plan", name, world.plans.keys()));
    case "log":
      return inLog(line, world);
    case "week":
      return line.body.flatMap((day) => (day.kind === "day" ? inDay(day, world) : day.kind === "away" ? inAway(day, world) : []));
    case "event":
      return inEvent(line, world);
    case "use":
      return inUse(line, world);
    default:
      return [];
  }
}

/** The athletes of an event's order, the movements of its equipment, and the stage that breaks a tie. */
function inEvent({ name, body }: EventLine, { athletes, events }: World): readonly Problem[] {
  const stages = events.get(name.text)?.stages ?? [];
  return body.flatMap((line) => {
    if (line.kind === "tie") {
      const names = stages.map((stage) => stage.name);
      return names.includes(line.stage.text) ? [] : [nameUnknown("stage", line.stage, names)];
    }
    if (line.kind === "equipment") {
      const movements = stages.flatMap(({ items }) => items.map(({ movement }) => movement));
      const known = new Set(movements.map(subjectKey));
      return line.movements
        .filter(({ text }) => !known.has(subjectKey(text)))
        .map((word) => nameUnknown("movement of the event", word, movements));
    }
    const order = line.kind === "order" ? line.athletes : [];
    return order.filter(({ text }) => athleteNamed(text, athletes) === null).map((word) => nameUnknown("athlete", word, athletes.keys()));
  });
}

function inLog({ plan, body }: LogLine, { plans, athletes, events }: World): readonly Problem[] {
  const declared = plans.get(plan.text);
  if (!declared) return [nameUnknown("plan", plan, plans.keys())];
  const stages = events.get(declared.line.event.text)?.stages.map(({ name }) => name) ?? [];
  return body.flatMap((line) => {
    if (line.kind === "log done") return stages.includes(line.stage.text) ? [] : [nameUnknown("stage", line.stage, stages)];
    if (line.kind !== "log broke" && line.kind !== "log dropped" && line.kind !== "log no-rep") return [];
    return athleteNamed(line.athlete.text, athletes) !== null ? [] : [nameUnknown("athlete", line.athlete, athletes.keys())];
  });
}

function inDay({ event, plan }: DayLine, { events, plans }: World): readonly Problem[] {
  const unknownEvent = event && !events.has(event.text) ? [nameUnknown("event", event, events.keys())] : [];
  const unknownPlan = plan && !plans.has(plan.text) ? [nameUnknown("plan", plan, plans.keys())] : [];
  return [...unknownEvent, ...unknownPlan];
}

function inAway({ who }: AwayLine, { athletes }: World): readonly Problem[] {
  return who.filter(({ text }) => athleteNamed(text, athletes) === null).map((word) => nameUnknown("athlete", word, athletes.keys()));
}

/** A document is named by its path from the notebook's folder, or by its file name. */
function inUse({ path, span }: UseLine, { documents }: World): readonly Problem[] {
  const fileName = (of: string): string => of.split("/").at(-1) ?? of;
  const known = [...documents].map(fileName);
  return known.includes(fileName(path)) ? [] : [nameUnknown("document", { text: path, span }, known)];
}
