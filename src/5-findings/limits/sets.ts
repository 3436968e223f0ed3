import { repsInPass, type Turn, turnsOf, type Work } from "../../3-plan/plan.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { type Run, slight } from "./limit.js";

/** Reps of one athlete without a pause: a part of a broken set, or several turns or rounds with nothing between them. */
export interface SetDone {
  readonly who: string;
  readonly work: Work;
  readonly reps: number;
  /** The turn it ends in, and whether other parts come after. */
  readonly turn: Turn;
  readonly in: TurnRun;
  readonly last: boolean;
  /** One of the event's rounds asks no more of its movement than this. */
  readonly allOfItem: boolean;
}

/** Every athlete's sets in order of time. */
export function setsOf(run: Run): readonly SetDone[] {
  const turnOf = new Map(turnsOf(run.plan.steps).map((turn) => [turn.id, turn]));
  return run.plan.team.athletes.flatMap(({ name }) => {
    const sets: SetDone[] = [];
    let untilS = Number.NEGATIVE_INFINITY;
    for (const one of turnsBy(name, run)) {
      const turn = turnOf.get(one.step);
      if (!turn) continue;
      const goesOn = one.startS <= untilS + slight;
      const parts = partsDone(turn, one.pass, one.athletes.find((athlete) => athlete.name === name)?.reps ?? 0);
      parts.forEach(({ work, reps, paused, allOfItem }, at) => {
        const before = sets.at(-1);
        const open = (at === 0 ? goesOn : !paused) && before?.work.movement === work.movement ? sets.pop() : undefined;
        sets.push({ who: name, work, reps: (open?.reps ?? 0) + reps, turn, in: one, last: at === parts.length - 1, allOfItem });
      });
      untilS = workedUntil(one, name, run);
    }
    return sets;
  });
}

interface Part {
  readonly work: Work;
  readonly reps: number;
  /** A rest comes before it. */
  readonly paused: boolean;
  readonly allOfItem: boolean;
}

/** What was done of each part of a turn, the first at least. */
function partsDone({ works, rounds }: Turn, pass: number, reps: number): readonly Part[] {
  let left = reps;
  const asked = Array.from({ length: rounds ?? 1 }, () => works).flat();
  return asked.flatMap((work, item) => {
    const parts = work.broken?.parts ?? [rounds === null ? reps : repsInPass(work, 0, pass)];
    return parts.flatMap((part, at): readonly Part[] => {
      const done = Math.min(part, left);
      left -= done;
      const paused = at > 0 && (work.broken?.restS ?? 0) > slight;
      return done > 0 || item + at === 0 ? [{ work, reps: done, paused, allOfItem: rounds !== null && parts.length === 1 }] : [];
    });
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
