import type { EventSpec, StageSpec } from "../3-plan/event.js";
import { mostTurns } from "./neighbour.js";
import { categoryIn, namesOf, type PlanPair } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { bestBy, type DraftPlan, type DraftBlock, type DraftLane, type DraftTurn, type SetSize } from "./draft.js";

/** A way to share an event's work out: who with whom, in what order. Sizes are to be found. */
export interface Arrangement {
  /** The same for drafts of the same kind. */
  readonly kind: string;
  readonly draft: DraftPlan;
}

/** A first size, before the search looks for a better one. */
const firstSize: SetSize = { kind: "reps", steps: [5], parts: 1 };

/** Who works with whom, in pairs or side by side. */
interface Grouping {
  readonly kind: string;
  readonly pairs: readonly (readonly string[])[];
  /** Those who share a lane where several lanes run side by side; one of all where one does. */
  readonly sides: readonly (readonly string[])[];
}

/** Every way to pair a team, to work alone or side by side, that the event's own lines allow. */
export function arrangements(event: EventSpec, team: Team, abilities: Abilities, rules: DraftPlan["rules"] = []): readonly Arrangement[] {
  const best = bestBy(event, team, abilities);
  return groupings(event, team).flatMap(({ kind, pairs: pairing, sides }) => {
    const pairs: readonly PlanPair[] = pairing.map((two, at) => ({
      name: "ABCDEFGHIJKLMNO"[at] ?? `P${at}`,
      athletes: two,
      span: { from: 0, to: 0 },
    }));
    const blocks =
      event.windows.length > 0
        ? windowBlocks(event, team, pairing)
        : event.stages.map((_, stage) => ({ stage, window: null, lanes: lanesOf(stage, event, team, sides, pairing) }));
    const workable = blocks.length > 0 && blocks.every(({ lanes }) => lanes.length > 0 && lanes.every(({ turns }) => turns.length > 0));
    return workable ? [{ kind, draft: { event, team, pairs, rules, blocks, best } }] : [];
  });
}

function groupings(event: EventSpec, team: Team): readonly Grouping[] {
  const athletes = team.athletes.map(({ name }) => name);
  if (event.stages.some((stage) => inPairs(stage, event))) {
    return pairingsOf(athletes, event, team).map((pairs) => ({
      kind: pairs.map((two) => two.join(" + ")).join(", ") || "one at a time",
      pairs,
      sides: [athletes],
    }));
  }
  const alone: Grouping = { kind: "one at a time", pairs: [], sides: [athletes] };
  const lanes = Math.min(lanesAllowed(event), athletes.length);
  if (lanes < 2) return [alone];
  return [
    ...partitions(athletes, lanes).map((sides) => ({ kind: sides.map((side) => side.join(" and ")).join(" beside "), pairs: [], sides })),
    alone,
  ];
}

/** How many lanes may run side by side: where nobody holds, and nothing but the number who may work at once is set. */
function lanesAllowed({ working, stages, stations, windows, alternate }: EventSpec): number {
  const free =
    stations.length === 0 && windows.length === 0 && alternate === null && stages.every(({ hold, rounds }) => hold === null && !rounds);
  return free && working && !working.pairs ? working.most : 1;
}

/** Whether a stage's turns are a pair's: because a rep needs two, or because two may work while another holds. */
function inPairs(stage: StageSpec, event: EventSpec): boolean {
  const asked = stage.items.some(({ how }) => how !== null);
  return asked || (!stage.rounds && stage.hold !== null && event.stations.length === 0 && (event.working?.most ?? 1) >= 2);
}

function windowBlocks(event: EventSpec, team: Team, pairing: readonly (readonly string[])[]): readonly DraftBlock[] {
  return event.windows.map(({ category }, window) => {
    const own = namesOf(team, category);
    return {
      stage: 0,
      window,
      lanes: lanesOf(
        0,
        event,
        team,
        [own],
        pairing.filter((two) => two.every((name) => own.includes(name))),
      ),
    };
  });
}

function lanesOf(
  at: number,
  event: EventSpec,
  team: Team,
  sides: readonly (readonly string[])[],
  pairing: readonly (readonly string[])[],
): readonly DraftLane[] {
  const stage = event.stages[at];
  if (!stage) return [];
  if (event.stations.length > 0) {
    return event.stations.map(({ name, category }) => ({
      station: name,
      rest: 0,
      turns: turnsFor(
        namesOf(team, category).map((one) => [one]),
        stage,
        sides.flat(),
      ),
    }));
  }
  const theirs = (name: string): boolean => stage.category === null || categoryIn(team, name) === stage.category;
  return sides
    .filter((side) => side.some(theirs))
    .map((side) => ({
      station: null,
      rest: 0,
      turns: turnsFor(
        inPairs(stage, event) ? pairing.filter((two) => two.every(theirs)) : side.filter(theirs).map((one) => [one]),
        stage,
        side,
      ),
    }));
}

/** Each cast in turn; the holds go round among those who do not work, so often that everyone has held. */
function turnsFor(casts: readonly (readonly string[])[], stage: StageSpec, athletes: readonly string[]): readonly DraftTurn[] {
  const needed = stage.hold?.count ?? 0;
  const size: SetSize = stage.rounds ? { kind: "round", parts: stage.items.map(() => 1) } : firstSize;
  const passes = needed > 0 && casts.length > 1 && 2 * casts.length <= mostTurns ? 2 : 1;
  const held = new Map(athletes.map((name) => [name, 0]));
  const turns: DraftTurn[] = [];
  for (let pass = 0; pass < passes; pass += 1) {
    for (const who of casts) {
      const free = athletes.filter((name) => !who.includes(name)).sort((a, b) => (held.get(a) ?? 0) - (held.get(b) ?? 0));
      if (free.length < needed) continue;
      const holders = free.slice(0, needed);
      for (const name of holders) held.set(name, (held.get(name) ?? 0) + 1);
      turns.push({ who, size, holders });
    }
  }
  return turns;
}

/** Ways to share athletes out to some sides, as evenly as it goes. */
function partitions(athletes: readonly string[], sides: number): readonly (readonly (readonly string[])[])[] {
  const most = Math.ceil(athletes.length / sides);
  const found: (readonly (readonly string[])[])[] = [];
  const place = (at: number, made: readonly (readonly string[])[]): void => {
    const athlete = athletes[at];
    if (found.length >= mostPairings) return;
    if (athlete === undefined) {
      if (made.length === sides) found.push(made);
      return;
    }
    made.forEach((side, number) => {
      if (side.length < most) place(at + 1, made.with(number, [...side, athlete]));
    });
    // A new side only for the first who is in none: the same shares are not told twice.
    if (made.length < sides) place(at + 1, [...made, [athlete]]);
  };
  place(0, []);
  return found;
}

/** Ways to make pairs of a team: each athlete in one pair; of an odd team, in two. */
function pairingsOf(athletes: readonly string[], event: EventSpec, team: Team): readonly (readonly (readonly string[])[])[] {
  const allowed = ([one = "", other = ""]: readonly string[]): boolean =>
    event.pairs === "any" || (categoryIn(team, one) === categoryIn(team, other)) === (event.pairs === "alike");
  if (athletes.length % 2 === 0) return matchings(athletes).filter((pairing) => pairing.every(allowed));
  // Round the ring, so that everybody works twice: Ada + Eda, Ian + Olu, Una + Ada, Eda + Ian, Olu + Una.
  const round = [...athletes, ...athletes];
  const ring = athletes.map((_, at) => round.slice(2 * at, 2 * at + 2)).filter(allowed);
  return ring.length > 0 ? [ring] : [];
}

/** More are never looked through: those of eight athletes are 105. */
const mostPairings = 120;

function matchings(athletes: readonly string[]): readonly (readonly (readonly string[])[])[] {
  const found: (readonly (readonly string[])[])[] = [];
  const pair = ([first, ...others]: readonly string[], before: readonly (readonly string[])[]): void => {
    if (first === undefined) {
      found.push(before);
      return;
    }
    for (const partner of others) {
      if (found.length >= mostPairings) return;
      pair(
        others.filter((name) => name !== partner),
        [...before, [first, partner]],
      );
    }
  };
  pair(athletes, []);
  return found;
}
