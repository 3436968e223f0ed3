import { type Turn, turnsOf } from "../../3-plan/plan.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { type Run, slight } from "./limit.js";

/** Reps of one athlete without a pause: a part of a broken set, or several turns with nothing between them. */
export interface SetDone {
  readonly who: string;
  readonly reps: number;
  /** The turn it ends in, and whether other parts come after. */
  readonly turn: Turn;
  readonly in: TurnRun;
  readonly last: boolean;
}

/** Every athlete's sets in order of time; none of a round, whose movements are the event's. */
export function setsOf(run: Run): readonly SetDone[] {
  const turnOf = new Map(turnsOf(run.plan.steps).map((turn) => [turn.id, turn]));
  return run.plan.team.athletes.flatMap(({ name }) => {
    const sets: SetDone[] = [];
    let untilS = Number.NEGATIVE_INFINITY;
    for (const one of turnsBy(name, run)) {
      const turn = turnOf.get(one.step);
      if (!turn || turn.rounds !== null) continue;
      const last = sets.at(-1);
      const open = last && one.startS <= untilS + slight && subjectOf(last.turn) === subjectOf(turn) ? sets.pop() : undefined;
      const parts = partsDone(turn, one.athletes.find((athlete) => athlete.name === name)?.reps ?? 0);
      parts.forEach((part, at) => {
        const before = at === 0 && open ? open.reps : 0;
        sets.push({ who: name, reps: before + part, turn, in: one, last: at === parts.length - 1 });
      });
      untilS = workedUntil(one, name, run);
    }
    return sets;
  });
}

function subjectOf({ works }: Turn): string | undefined {
  return works[0]?.movement;
}

/** The reps that were done of each part of a turn, the first at least. */
function partsDone({ works }: Turn, reps: number): readonly number[] {
  let left = reps;
  return (works[0]?.broken?.parts ?? [reps]).flatMap((part, at) => {
    const done = Math.min(part, left);
    left -= done;
    return done > 0 || at === 0 ? [done] : [];
  });
}

/** The turns that an athlete works in, in order of time. */
export function turnsBy(name: string, { turns }: Pick<Run, "turns">): readonly TurnRun[] {
  return turns.filter(({ athletes }) => athletes.some((one) => one.name === name)).sort((a, b) => a.startS - b.startS);
}

/** When an athlete's own work of a turn ends, in s. */
export function workedUntil({ startS, endS }: TurnRun, name: string, { segments }: Run): number {
  const own = segments.filter(
    (one) => one.athlete === name && one.activity === "work" && one.startS >= startS - slight && one.startS < endS,
  );
  return Math.max(startS, ...own.map((one) => one.endS));
}

/** What an athlete does of a stage before its workers change, or pause. */
export interface Go {
  readonly who: string;
  readonly reps: number;
  readonly startS: number;
  /** The turn it ends in. */
  readonly in: TurnRun;
}

/** Every go: turns of the same workers, one after another in their stage, are one, with pauses of at most some seconds between. */
export function goesOf(turns: readonly TurnRun[], pauseS = Number.POSITIVE_INFINITY): readonly Go[] {
  const done: Go[] = [];
  const openIn = new Map<number, ReadonlyMap<string, Go>>();
  for (const turn of [...turns].sort((a, b) => a.startS - b.startS)) {
    const { stage, startS, athletes } = turn;
    const open = openIn.get(stage);
    const before = athletes.flatMap(({ name }) => open?.get(name) ?? []);
    const goesOn = before.length === open?.size && before.length === athletes.length && before.every((go) => startS <= go.in.endS + pauseS);
    if (open && !goesOn) done.push(...open.values());
    const goes = athletes.map(({ name: who, reps }): Go => {
      const own = goesOn ? open.get(who) : undefined;
      return { who, reps: (own?.reps ?? 0) + reps, startS: own?.startS ?? startS, in: turn };
    });
    openIn.set(stage, new Map(goes.map((go) => [go.who, go])));
  }
  return [...done, ...[...openIn.values()].flatMap((open) => [...open.values()])];
}

/** What an athlete does of a line in the turn that begins at a time. */
export function repsOf(who: string, step: number, atS: number, { turns }: Pick<Run, "turns">): number {
  const turn = turns.find((one) => one.step === step && one.startS === atS);
  return turn?.athletes.find(({ name }) => name === who)?.reps ?? 0;
}
