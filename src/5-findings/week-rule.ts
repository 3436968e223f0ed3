import { problem, type ProblemOf, type RuleId } from "../0-base/problem.js";
import { wallAt, type WallTime } from "../0-base/zoned.js";
import { type BodyPart, bodyParts } from "../3-plan/world.js";
import type { SessionRun, WeekRun } from "../4-timeline/week.js";
import { type Fault, faultsAt, moved, placedIn } from "./placing.js";
import type { Judged } from "./rule.js";

/** A week worked out, for rules about its days; null for other blocks. */
export function weekOf({ line, evaluation }: Judged): WeekRun | null {
  return line.kind === "week" ? evaluation.week(line) : null;
}

/** A check for one kind of fault of a session: what it says, and a fix that moves the line. */
export function faulty<Id extends RuleId, Kind extends Fault["kind"]>(
  rule: Id,
  kind: Kind,
  say: (fault: Extract<Fault, { kind: Kind }>, week: WeekRun, run: SessionRun) => ProblemOf<Id>["values"],
): (judged: Judged) => readonly ProblemOf<Id>[] {
  return (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    const placed = placedIn(week);
    return week.sessions.flatMap((run) => {
      const own = placed.find(({ session }) => session.at === run.session.at);
      if (!own) return [];
      const fault = faultsAt(
        week,
        run,
        own.startS,
        placed.filter((other) => other !== own),
      ).find((one): one is Extract<Fault, { kind: Kind }> => one.kind === kind);
      return fault ? [problem(rule, run.session.span, say(fault, week, run), moved(week, run, judged.text))] : [];
    });
  };
}

/** Sessions on their hours, in order of time. */
export function inOrder({ sessions }: WeekRun): readonly SessionRun[] {
  return sessions.filter(({ session }) => session.start).sort((a, b) => (a.session.start?.atS ?? 0) - (b.session.start?.atS ?? 0));
}

/** Units that a session leaves in some parts of the body, the mean of its athletes. */
export function meanUnits({ leaves }: SessionRun, parts: readonly BodyPart[]): number {
  const sums = [...leaves.values()].map((units) => parts.reduce((sum, part) => sum + (units[bodyParts.indexOf(part)] ?? 0), 0));
  return sums.length === 0 ? 0 : sums.reduce((sum, units) => sum + units, 0) / sums.length;
}

/** Of what two sessions ask of the body, the share that is the same, 0…1. */
export function asksOverlap(one: SessionRun, other: SessionRun): number {
  const shares = (run: SessionRun): readonly number[] => {
    const units = bodyParts.map((part) => meanUnits(run, [part]));
    const all = units.reduce((sum, unit) => sum + unit, 0);
    return units.map((unit) => (all > 0 ? unit / all : 0));
  };
  const [ours, theirs] = [shares(one), shares(other)];
  return ours.reduce((sum, share, at) => sum + Math.min(share, theirs[at] ?? 0), 0);
}

/** When the first session begins, where the scores are due before that; else null. */
export function firstAfterDue(judged: Judged): WallTime | null {
  const week = weekOf(judged);
  const first = week && inOrder(week)[0]?.session.start;
  const due = week?.spec.due;
  return week && first && due && due.atS <= first.atS ? wallAt(first.atS, week.spec.zone) : null;
}

/** Units of grip, hinge and trunk from which an event is heavy: a hold to failure. */
const heavy = 1;

/** The first try that asks most of grip, hinge and trunk; null where none asks much. */
export function heaviestOf(sessions: readonly SessionRun[]): SessionRun | null {
  const units = (run: SessionRun): number => meanUnits(run, ["grip", "hinge", "trunk"]);
  const [heaviest] = sessions.filter(({ session }) => !session.again).sort((a, b) => units(b) - units(a));
  return heaviest && units(heaviest) >= heavy ? heaviest : null;
}
