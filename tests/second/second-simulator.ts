/**
 * A second simulator, written from grammar/timeline.md alone. Brute force where the first would be clever: moments are found by
 * bisection, and a target is cut by running the whole plan again with the moment known at which the stage closed.
 */
import type { Constants } from "../../src/3-plan/assumptions.js";
import type { LoadKg } from "../../src/3-plan/event.js";
import type { PlanSpec, Rest, Step, Turn, Work } from "../../src/3-plan/plan.js";

export interface Ability {
  unbroken: number;
  cycleS: number;
  fade: number;
  recovery: number;
  fastRecovery: number;
}
export interface Knowledge {
  movement(athlete: string, movement: string, loadKg: number | null): Ability;
  holdS(athlete: string, hold: string): number;
  overlap(one: string, other: string): number;
}
export interface Second {
  endS: number;
  finished: boolean;
  /** Whether it was run no further. */
  bounded: boolean;
  reps: number;
  turns: { step: number; startS: number; endS: number; reps: Record<string, number>; misses: number; drops: number }[];
  stages: { stage: number; reps: number; rounds: number; endS: number }[];
}

interface Pools {
  F: number;
  S: number;
}
/** One athlete at one movement (at one load). */
interface Reserve {
  movement: string;
  ability: Ability;
  K: number;
  tauF: number;
  tauS: number;
  pools: Pools;
  at: number;
  begun: boolean;
  lastEnd: number;
}
/** One athlete at one hold: tired fraction m at the moment `at`. */
interface Grip {
  hold: string;
  T: number;
  G: number;
  limit: number;
  m: number;
  at: number;
}
interface Pause {
  from: number;
  to: number;
}
/** A counted rep (or whole round) of a stage, and its place in the order of time, lanes, names. */
interface Mark {
  t: number;
  lane: number;
  place: number;
}
type Wait = { who: string | null } & ({ kind: "moment"; at: number } | { kind: "share"; fraction: number } | { kind: "ready" });
interface Before {
  who: string;
  holders: readonly string[];
  hold: string | null;
}
interface Strand {
  lane: number;
  clock: number;
  lasted: number;
  before: Before | null;
  waits: Wait[];
  /** Of each stage of rounds, how far the turns are that share one out. */
  begun: Map<number, { item: number; reps: number }>;
}

const mostS = 12 * 3600;
const mostTurnsAndRests = 5000;
const mostMissesAndDrops = 1500;
const tiny = 1e-9;

function inOrder(a: Mark, b: Mark): number {
  return a.t - b.t || a.lane - b.lane || (a.place === b.place ? 0 : a.place - b.place);
}

/** The first moment in from..to at which something that stays true is true; Infinity if it is not true by then. */
function firstMoment(isTrue: (t: number) => boolean, from: number, to: number): number {
  if (isTrue(from)) return from;
  if (!(to > from) || !isTrue(to)) return Infinity;
  let [no, yes] = [from, to];
  for (let half = (no + yes) / 2; half > no && half < yes; half = (no + yes) / 2) {
    if (isTrue(half)) yes = half;
    else no = half;
  }
  return yes;
}

function sameNames(a: readonly string[]): string {
  return [...new Set(a)].sort().join("+");
}

export function secondSimulate(plan: PlanSpec, know: Knowledge, constants: Constants): Second {
  const closed = new Map<number, Mark>();
  const capacities = new Map<string, number>();
  for (;;) {
    const outcome = run(plan, know, constants, closed, capacities);
    if ("turns" in outcome) return outcome;
    closed.set(outcome.stage, outcome.mark);
  }
}

/** One run with the closings known so far: the whole answer, or the next closing. */
function run(
  plan: PlanSpec,
  know: Knowledge,
  constants: Constants,
  closed: ReadonlyMap<number, Mark>,
  capacities: Map<string, number>,
): Second | { stage: number; mark: Mark } {
  const { event, team } = plan;
  const phi = constants["fast share"];
  const setupS = event.setUpS ?? constants["set-up"];
  const handoverS = event.handoverS ?? constants.handover;
  const [F, R, r] = [constants["hold fatigue"], constants["hold recovery"], constants["hold rest factor"]];

  // ---- Reps ----

  function worked(of: Reserve, { F, S }: Pools, seconds: number, u: number): Pools {
    const [f, s] = [phi * u * of.tauF, (1 - phi) * u * of.tauS];
    return { F: f + (F - f) * Math.exp(-seconds / of.tauF), S: s + (S - s) * Math.exp(-seconds / of.tauS) };
  }
  function poolsAt(of: Reserve, t: number): Pools {
    return worked(of, of.pools, Math.max(0, t - of.at), 0);
  }
  function cycle(of: Reserve, { F, S }: Pools): number {
    return of.ability.cycleS * (1 + of.ability.fade * ((F + S) / of.K) ** 2);
  }
  function atMostK(of: Reserve, { F, S }: Pools): Pools {
    const scale = Math.min(1, of.K / (F + S));
    return F + S > 0 ? { F: F * scale, S: S * scale } : { F, S };
  }
  function atK(of: Reserve, { F, S }: Pools): Pools {
    return F + S > 0 ? { F: (F * of.K) / (F + S), S: (S * of.K) / (F + S) } : { F: phi * of.K, S: (1 - phi) * of.K };
  }
  function reserveOf(movement: string, ability: Ability): Reserve {
    const of: Reserve = {
      movement,
      ability,
      K: ability.unbroken,
      tauF: constants["fast recovery"] / (Math.min(1, ability.recovery) * ability.fastRecovery),
      tauS: constants["slow recovery"] / ability.recovery,
      pools: { F: 0, S: 0 },
      at: 0,
      begun: false,
      lastEnd: 0,
    };
    const key = JSON.stringify(ability);
    const reps = Math.max(1, Math.round(ability.unbroken));
    const left = (K: number): number => {
      of.K = K;
      const after: number[] = [];
      let pools: Pools = { F: 0, S: 0 };
      for (let rep = 0; rep < reps + 1; rep++) {
        const seconds = cycle(of, pools);
        pools = worked(of, pools, seconds, 1 / seconds);
        after.push(pools.F + pools.S);
      }
      return reps === 1 ? K - (after[0]! + after[1]!) / 2 : K - Math.max(...after.slice(0, reps));
    };
    // Within the set no rep is slower than c·(1 + s), so at least this much is spent: below it there are roots that mean nothing.
    const slowest = ability.cycleS * (1 + ability.fade);
    let least: Pools = { F: 0, S: 0 };
    for (let rep = 0; rep < reps; rep++) least = worked(of, least, slowest, 1 / slowest);
    of.K = capacities.get(key) ?? firstMoment((K) => left(K) >= 0, least.F + least.S, reps + 1);
    capacities.set(key, of.K);
    return of;
  }
  /** One rep (or try) of a crew in one rhythm from these pools. `forgiven` is the share of K that X may be over it. */
  function tried(crew: readonly Reserve[], pools: readonly Pools[], rhythm: Work["rhythm"], forgiven: number) {
    let seconds = Math.max(...crew.map((of, i) => cycle(of, pools[i]!)));
    let tries = 1;
    if (rhythm === "in sync") {
      const q = crew.reduce((product, of, i) => (product * (pools[i]!.F + pools[i]!.S)) / of.K, constants["step no-rep"]);
      tries = 1 / (1 - q);
      seconds = (seconds + constants["step cost"]) * tries;
    }
    const after = crew.map((of, i) => worked(of, pools[i]!, seconds, tries / seconds));
    const could = crew.map((of, i) => after[i]!.F + after[i]!.S <= of.K * (1 + forgiven));
    return { seconds, tries, after, could, all: could.every(Boolean) };
  }
  /** Whether all parts are possible without a miss, no set-up between them. */
  function possible(
    crew: readonly Reserve[],
    from: readonly Pools[],
    rhythm: Work["rhythm"],
    parts: readonly number[],
    restS: number,
    forgiven: number,
  ): boolean {
    let pools = from;
    for (const [i, part] of parts.entries()) {
      if (i > 0) pools = crew.map((of, at) => worked(of, pools[at]!, restS, 0));
      for (let rep = 0; rep < part; rep++) {
        const next = tried(crew, pools, rhythm, forgiven);
        if (!next.all) return false;
        pools = next.after;
      }
    }
    return true;
  }

  // ---- Holds ----

  function gripOf(hold: string, T: number): Grip {
    const TL = 1 / (1 + (F * (1 - Math.exp(-R * T))) / R);
    return { hold, T, G: (F * TL) / R, limit: 1 - TL, m: 0, at: 0 };
  }
  function held(of: Grip, m: number, seconds: number): number {
    return of.G + (m - of.G) * Math.exp(-R * seconds);
  }
  function off(m: number, seconds: number): number {
    return m * Math.exp(-r * R * Math.max(0, seconds));
  }
  /** How long a hold lasts from m on. */
  function lasts(of: Grip, m: number): number {
    return firstMoment((t) => held(of, m, t) >= of.limit, 0, of.T * 1.001 + 1);
  }
  /** The pauses that dropped holds make from the moment the turn starts: they depend on the holders alone. */
  function pausesOf(grips: readonly Grip[], start: number) {
    const pauses: Pause[] = [];
    let from = start; // where the present stretch of holding began
    let ms = grips.map((of) => off(of.m, start - of.at));
    const grow = (): Pause => {
      const runS = Math.min(...grips.map((of, i) => lasts(of, ms[i]!)));
      ms = grips.map((of, i) => held(of, ms[i]!, runS));
      const needS = grips.map((of) => Math.min(constants.regrip, of.T / 2));
      const canAgain = (t: number): boolean => grips.every((of, i) => held(of, off(ms[i]!, t), needS[i]!) <= of.limit);
      const pauseS = Math.max(constants["miss cost"], firstMoment(canAgain, 0, mostS * 1000));
      const pause = { from: from + runS, to: from + runS + pauseS };
      ms = ms.map((m) => off(m, pauseS));
      from = pause.to;
      pauses.push(pause);
      return pause;
    };
    /** The first pause that is not over at t. */
    const next = (t: number): Pause => {
      if (grips.length === 0) return { from: Infinity, to: Infinity };
      let found = pauses.find(({ to }) => to > t);
      while (!found) found = grow().to > t ? pauses.at(-1) : undefined;
      return found;
    };
    const through = (t: number): number => (next(t).from <= t ? next(t).to : t);
    const between = (a: number, b: number): number =>
      b - a - pauses.reduce((sum, p) => sum + Math.max(0, Math.min(b, p.to) - Math.max(a, p.from)), 0);
    const drops = (end: number): number => pauses.filter((p) => p.from < end).length;
    /** Leaves the holders as they are when the turn ends. */
    const end = (t: number): void => {
      for (const of of grips) {
        let m = off(of.m, start - of.at);
        let at = start;
        for (const p of pauses) {
          if (p.from >= t) break;
          m = off(held(of, m, p.from - at), Math.min(p.to, t) - p.from);
          at = Math.min(p.to, t);
        }
        [of.m, of.at] = [Math.min(held(of, m, t - at), of.limit), t];
      }
    };
    return { next, through, between, drops, end };
  }

  // ---- Everybody's state ----

  const kgOf = (athlete: string, load: LoadKg | null): number | null =>
    load && load[team.athletes.find(({ name }) => name === athlete)?.category ?? "woman"];
  const reserves = new Map<string, Map<string, Reserve>>();
  const grips = new Map<string, Map<string, Grip>>();
  function kept<T>(all: Map<string, Map<string, T>>, athlete: string, key: string, make: () => T): T {
    const own = all.get(athlete) ?? new Map<string, T>();
    all.set(athlete, own);
    if (!own.has(key)) own.set(key, make());
    return own.get(key)!;
  }
  function reserve(athlete: string, { movement, load }: Work): Reserve {
    const kg = kgOf(athlete, load);
    return kept(reserves, athlete, `${movement} @ ${kg}`, () => reserveOf(movement, know.movement(athlete, movement, kg)));
  }
  function grip(athlete: string, hold: string): Grip {
    return kept(grips, athlete, hold, () => gripOf(hold, know.holdS(athlete, hold)));
  }
  /** Carry-over costs also what an athlete has not done yet: everything there is to do is made known first. */
  function meet(steps: readonly Step[]): void {
    for (const step of steps) {
      if (step.kind === "turn") {
        for (const work of step.works) for (const athlete of step.who) reserve(athlete, work);
        if (step.hold !== null) for (const athlete of step.holders) grip(athlete, step.hold);
      } else if (step.kind === "lanes") step.lanes.forEach(({ body }) => meet(body));
      else if (step.kind !== "rest") meet(step.body);
    }
  }
  function carryOver(athlete: string, source: Reserve | Grip, subject: string, fraction: number, t: number): void {
    const loss = (other: string): number => constants["carry-over"] * know.overlap(subject, other) * fraction;
    for (const of of reserves.get(athlete)?.values() ?? []) {
      if (of === source || !(loss(of.movement) > 0)) continue;
      const { F, S } = poolsAt(of, t);
      const more = loss(of.movement) * of.K;
      [of.pools, of.at] = [atMostK(of, { F: F + phi * more, S: S + (1 - phi) * more }), t];
    }
    for (const of of grips.get(athlete)?.values() ?? []) {
      if (of === source || !(loss(of.hold) > 0)) continue;
      [of.m, of.at] = [Math.min(of.limit, off(of.m, t - of.at) + loss(of.hold) * of.limit), t];
    }
  }

  // ---- A crew at one movement ----

  interface Bounds {
    capS: number;
    closing: Mark | undefined;
    lane: number;
    pauses: ReturnType<typeof pausesOf>;
  }
  function crewWork(
    crew: readonly Reserve[],
    place: number,
    rhythm: Work["rhythm"],
    parts: readonly number[],
    restS: number,
    start: number,
    bounds: Bounds,
  ) {
    const { capS, closing, lane, pauses } = bounds;
    const haltS = Math.min(capS, closing?.t ?? Infinity);
    const repEnds: number[] = [];
    let [now, misses] = [start, 0];
    const stop = (endS: number) => ({ endS, repEnds, misses });
    const leave = (at: number, pools: readonly Pools[]): void =>
      crew.forEach((of, i) => Object.assign(of, { pools: pools[i], at, lastEnd: at, begun: true }));
    const spendInPart = (
      until: number,
      { seconds, tries }: { readonly seconds: number; readonly tries: number },
      pools: readonly Pools[],
    ): void => {
      const ranS = until - now;
      leave(
        until,
        crew.map((of, i) => atMostK(of, worked(of, pools[i]!, ranS, tries / Math.max(seconds, ranS)))),
      );
    };
    let needsSetup = crew.some((of) => of.begun && of.lastEnd < now - tiny);
    for (const [i, part] of parts.entries()) {
      if (i > 0 && restS > 0) [now, needsSetup] = [pauses.through(now + restS), true];
      for (let left = part; left > 0;) {
        if (now >= haltS) return stop(haltS);
        const drop = pauses.next(now);
        if (drop.from < now + (needsSetup ? setupS : 0) || drop.from <= now + tiny) {
          now = drop.to;
          needsSetup ||= crew.some(({ begun }) => begun);
          continue;
        }
        if (needsSetup) {
          now += setupS;
          needsSetup = false;
          continue;
        }
        const pools = crew.map((of) => poolsAt(of, now));
        const next = tried(crew, pools, rhythm, tiny * 1.01);
        const endS = now + next.seconds + (next.all ? 0 : constants["miss cost"]);
        if (drop.from < Math.min(endS, haltS) - tiny) {
          spendInPart(drop.from, next, pools);
          [now, needsSetup] = [drop.to, true];
          continue;
        }
        if (endS > capS + tiny || (closing && inOrder({ t: endS, lane, place }, closing) > 0)) {
          spendInPart(haltS, next, pools);
          return stop(haltS);
        }
        if (next.all) {
          leave(endS, next.after);
          repEnds.push(endS);
          now = endS;
          left -= 1;
          continue;
        }
        misses += next.could.filter((could) => !could).length;
        leave(
          endS,
          crew.map((of, at) => (next.could[at] ? worked(of, next.after[at]!, constants["miss cost"], 0) : atK(of, pools[at]!))),
        );
        const again = Math.min(3, left, ...crew.map(({ ability }) => Math.max(1, Math.floor(ability.unbroken / 2))));
        const can = (t: number): boolean =>
          possible(
            crew,
            crew.map((of) => poolsAt(of, t)),
            rhythm,
            [again],
            0,
            tiny,
          );
        const at = firstMoment(can, endS, capS);
        if (at === Infinity) return stop(haltS);
        now = pauses.through(at);
        needsSetup = now > endS;
      }
    }
    return stop(now);
  }

  // ---- Turns ----

  const passages = new Map<number, number>();
  const named = new Map<string, Wait[]>();
  const turns: Second["turns"] = [];
  const reps = new Map<number, Mark[]>();
  const rounds = new Map<number, Mark[]>();
  const stageEnds = new Map<number, number>();
  const mark = (all: Map<number, Mark[]>, stage: number, one: Mark): void => {
    const marks = all.get(stage);
    if (marks) marks.push(one);
    else all.set(stage, [one]);
  };

  function crewsOf({ who }: Turn, work: Work, passage: number) {
    const sizes = who.map((_, place) => {
      const ladder = work.ladders[place] ?? [0];
      return ladder[work.again ? passage % ladder.length : Math.min(passage, ladder.length - 1)] ?? 0;
    });
    const groups = work.rhythm === "each" ? who.map((_, place) => [place]) : [who.map((_, place) => place)];
    return groups.map((places) => ({
      places,
      crew: places.map((place) => reserve(who[place]!, work)),
      parts: work.broken ? work.broken.parts : [Math.min(...places.map((place) => sizes[place]!))],
      restS: work.broken?.restS ?? 0,
    }));
  }
  function takeTurn(turn: Turn, strand: Strand, stage: number, capS: number): void {
    const closing = closed.get(stage);
    const haltS = Math.min(capS, closing?.t ?? Infinity);
    const { before, lane } = strand;
    const changed = before !== null && (before.who !== sameNames(turn.who) || sameNames(before.holders) !== sameNames(turn.holders));
    const handedS = strand.clock + (changed ? handoverS : 0);
    const passage = passages.get(turn.id) ?? 0;
    const [first] = turn.works;
    const shareBack = (crew: readonly Reserve[], fraction: number): number =>
      firstMoment(
        (t) =>
          crew.every((of) => {
            const { F, S } = poolsAt(of, t);
            return 1 - (F + S) / of.K >= fraction;
          }),
        handedS,
        capS,
      );
    const ready = (who: string | null): number =>
      Math.max(
        ...turn.works.flatMap((work) =>
          crewsOf(turn, work, passage)
            .filter(({ places }) => places.some((at) => who === null || turn.who[at] === who))
            .map(({ crew, parts, restS }) => {
              const can = (pools: readonly Pools[], forgiven: number): boolean =>
                possible(crew, pools, work.rhythm, parts, restS, forgiven);
              return Math.min(
                shareBack(crew, 0.99),
                firstMoment(
                  (t) =>
                    can(
                      crew.map((of) => poolsAt(of, t)),
                      tiny - constants["ready margin"],
                    ),
                  handedS,
                  capS,
                ),
              );
            }),
        ),
      );
    const waits = [...strand.waits, ...turn.who.flatMap((athlete) => named.get(athlete) ?? [])];
    const startS = Math.max(
      handedS,
      ...waits.map((wait) => {
        if (wait.kind === "moment") return wait.at;
        if (!first) return handedS;
        if (wait.kind === "ready") return ready(wait.who);
        const waiting = turn.who.filter((name) => wait.who === null || name === wait.who);
        return shareBack(
          waiting.map((name) => reserve(name, first)),
          wait.fraction,
        );
      }),
    );
    if (startS >= haltS - tiny) return void (strand.clock = haltS);
    passages.set(turn.id, passage + 1);
    strand.waits = [];
    for (const athlete of turn.who) named.delete(athlete);

    const holding = turn.hold === null ? [] : turn.holders.map((athlete) => ({ athlete, of: grip(athlete, turn.hold!) }));
    if (before && changed && startS === handedS) {
      for (const { athlete, of } of holding) {
        // A hold that was put down for a rest is taken up when the turn begins.
        if (!before.holders.includes(athlete) || before.hold !== of.hold || of.at < strand.clock - tiny) continue;
        const m = off(of.m, strand.clock - of.at);
        const seconds = Math.min(handoverS, lasts(of, m));
        [of.m, of.at] = [seconds < handoverS ? of.limit : held(of, m, seconds), handedS];
        carryOver(athlete, of, of.hold, seconds / of.T, handedS);
      }
    }
    const pauses = pausesOf(
      holding.map(({ of }) => of),
      startS,
    );
    const done: Second["turns"][number] = { step: turn.id, startS, endS: startS, reps: {}, misses: 0, drops: 0 };
    for (const athlete of turn.who) done.reps[athlete] = 0;
    turns.push(done);
    for (let round = 0; round < (turn.rounds ?? 1) && done.endS < haltS; round++) {
      let whole = true;
      for (const work of turn.works) {
        const fromS = done.endS;
        if (fromS >= haltS) {
          whole = false;
          break;
        }
        const results = crewsOf(turn, work, passage).map(({ places, crew, parts, restS }) => {
          const result = crewWork(crew, places[0]!, work.rhythm, parts, restS, fromS, { capS, closing, lane, pauses });
          for (const t of result.repEnds) mark(reps, stage, { t, lane, place: places[0]! });
          done.misses += result.misses;
          done.endS = Math.max(done.endS, result.endS);
          whole &&= result.repEnds.length === parts.reduce((sum, part) => sum + part, 0);
          return { places, crew, count: result.repEnds.length };
        });
        for (const { places, crew, count } of results) {
          places.forEach((place, i) => {
            done.reps[turn.who[place]!]! += count;
            carryOver(turn.who[place]!, crew[i]!, work.movement, count / crew[i]!.ability.unbroken, done.endS);
          });
        }
        for (const { athlete, of } of holding) carryOver(athlete, of, of.hold, pauses.between(fromS, done.endS) / of.T, done.endS);
      }
      if (whole && turn.rounds !== null) mark(rounds, stage, { t: done.endS, lane, place: Infinity });
    }
    const spec = event.stages[stage];
    if (turn.rounds === null && spec?.rounds) {
      const at = strand.begun.get(stage) ?? { item: 0, reps: 0 };
      const { movement, count, how } = spec.items[at.item]!;
      const [work] = turn.works;
      if (work?.movement === movement) {
        const needed = (count ?? 1) * (how === "each" && work.rhythm === "each" ? turn.who.length : 1);
        at.reps += (reps.get(stage) ?? []).filter((one) => one.lane === lane && one.t > startS).length;
        if (at.reps >= needed) Object.assign(at, { item: at.item + 1, reps: 0 });
        if (at.item === spec.items.length) {
          at.item = 0;
          mark(rounds, stage, { t: done.endS, lane, place: Infinity });
        }
      }
      strand.begun.set(stage, at);
    }
    done.drops = pauses.drops(done.endS);
    missesAndDrops += done.misses + done.drops;
    pauses.end(done.endS);
    strand.clock = done.endS;
    strand.lasted = done.endS - startS;
    strand.before = { who: sameNames(turn.who), holders: turn.holders, hold: turn.hold };
  }
  function takeRest({ who, until: asked }: Rest, strand: Strand, stage: number | null, capS: number): void {
    const until = asked.kind === "ratio" ? { kind: "time" as const, seconds: asked.factor * strand.lasted } : asked;
    const endS = Math.min(capS, (stage !== null && closed.get(stage)?.t) || Infinity);
    if (who.length === 0 && until.kind === "time") return void (strand.clock = Math.min(endS, strand.clock + until.seconds));
    const wait = until.kind === "time" ? { kind: "moment" as const, at: strand.clock + until.seconds } : until;
    if (who.length === 0) strand.waits.push({ ...wait, who: null });
    for (const athlete of who) named.set(athlete, [...(named.get(athlete) ?? []), { ...wait, who: athlete }]);
  }

  // ---- The plan: every strand of it takes one line at a time, whoever stands earliest first ----

  let [turnsAndRests, missesAndDrops] = [0, 0];

  /** By a moment: a lane may have been walked to the end of a turn that the others stop long before. */
  function isBounded(at: number): boolean {
    const troubles = (): number => turns.reduce((sum, { endS, misses, drops }) => sum + (endS <= at ? misses + drops : 0), 0);
    return turnsAndRests >= mostTurnsAndRests || (missesAndDrops > mostMissesAndDrops && troubles() > mostMissesAndDrops);
  }
  function isOver(strand: Strand, stage: number | null, capS: number): boolean {
    const closing = stage === null ? undefined : closed.get(stage);
    return isBounded(strand.clock) || strand.clock >= capS - tiny || (closing !== undefined && strand.clock >= closing.t);
  }
  function* walk(steps: readonly Step[], strand: Strand, stage: number | null, capS: number): Generator<void> {
    for (const step of steps) {
      yield;
      if (isOver(strand, stage, capS)) return;
      if (step.kind === "rest" || step.kind === "turn") turnsAndRests++;
      if (step.kind === "rest") takeRest(step, strand, stage, capS);
      else if (step.kind === "turn") {
        if (stage !== null) takeTurn(step, strand, stage, capS);
      } else if (step.kind === "stage") {
        stageEnds.set(step.stage, Math.max(strand.clock, stageEnds.get(step.stage) ?? 0));
        yield* walk(step.body, strand, step.stage, capS);
      } else if (step.kind === "window") {
        const window = event.windows[step.window];
        if (!window || strand.clock >= window.endS) continue;
        const { begun } = strand;
        Object.assign(strand, { clock: Math.max(strand.clock, window.startS), before: null, lasted: 0, begun: new Map() });
        yield* walk(step.body, strand, stage, Math.min(capS, window.endS));
        Object.assign(strand, { before: null, lasted: 0, begun });
      } else if (step.kind === "repeat") {
        for (let pass = 0; pass < (step.times ?? Infinity) && strand.clock < (step.untilS ?? Infinity); pass++) {
          if (isOver(strand, stage, capS)) break;
          const passStart = strand.clock;
          yield* walk(step.body, strand, stage, capS);
          if (strand.clock <= passStart) break;
        }
      } else {
        const own = step.lanes.map(({ id, body }) => {
          const lane: Strand = { lane: id, clock: strand.clock, lasted: 0, before: null, waits: [...strand.waits], begun: new Map() };
          return { lane, way: walk(body, lane, stage, capS), done: false };
        });
        for (let live = own; live.length > 0; live = live.filter(({ done }) => !done)) {
          const earliest = live.reduce((a, b) => (b.lane.clock < a.lane.clock ? b : a));
          strand.clock = earliest.lane.clock;
          yield;
          earliest.done = earliest.way.next().done === true;
        }
        Object.assign(strand, { clock: Math.max(...own.map(({ lane }) => lane.clock)), before: null, lasted: 0, waits: [] });
      }
      if (stage !== null) stageEnds.set(stage, Math.max(strand.clock, stageEnds.get(stage) ?? 0));
    }
  }
  /** The earliest moment up to t at which a stage reached its target that is not yet known to be closed. */
  function newlyClosed(t: number): { stage: number; mark: Mark } | null {
    const found = event.stages.flatMap((spec, stage) => {
      const marks = (spec.rounds ? rounds : reps).get(stage) ?? [];
      if (spec.target === null || closed.has(stage) || marks.length < spec.target || spec.target < 1) return [];
      return [{ stage, mark: [...marks].sort(inOrder)[Math.ceil(spec.target) - 1]! }];
    });
    const [earliest] = found.sort((a, b) => inOrder(a.mark, b.mark));
    return earliest && earliest.mark.t <= t ? earliest : null;
  }

  meet(plan.steps);
  const main: Strand = { lane: 0, clock: 0, lasted: 0, before: null, waits: [], begun: new Map() };
  const only = event.stages.length === 1 ? 0 : null;
  if (only !== null) stageEnds.set(only, 0);
  const way = walk(plan.steps, main, only, event.capS ?? mostS);
  for (let done = false; !done;) {
    done = way.next().done === true;
    const closing = newlyClosed(done ? Infinity : main.clock);
    if (closing) return closing;
  }
  const finished = event.stages.length > 0 && event.stages.every((_, stage) => closed.has(stage));
  return {
    endS: finished ? Math.max(...[...closed.values()].map(({ t }) => t)) : main.clock,
    finished,
    bounded: isBounded(main.clock),
    reps: [...reps.values()].reduce((sum, marks) => sum + marks.length, 0),
    turns: turns.sort((a, b) => a.startS - b.startS),
    stages: [...stageEnds]
      .sort(([a], [b]) => a - b)
      .map(([stage, endS]) => ({
        stage,
        reps: reps.get(stage)?.length ?? 0,
        rounds: rounds.get(stage)?.length ?? 0,
        endS: closed.get(stage)?.t ?? endS,
      })),
  };
}
