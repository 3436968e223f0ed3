/**
 * What a plan may choose from: who works with whom, who holds, in which lanes. Written down again from the notation and
 * the search's manual, not taken from the search: the arrangement is what the exhaustion is there to check.
 */
import type { EventSpec, StageSpec } from "../../src/3-plan/event.js";
import { categoryIn, namesOf, type Rhythm, type Step, type Turn, type Work } from "../../src/3-plan/plan.js";
import type { Team } from "../../src/3-plan/world.js";

/** Reps of the largest set that is tried: more than any of these events lets anyone do in a row. */
const largest = 60;
/** Lines in a repeat that the search allows, where the casts alone are not more. */
const mostLines = 8;
/** Seconds between the parts of a broken set. */
const breakS = 5;

/** A line of a repeat without its size: `pass` n − 1 of the turn is n reps. A broken set has one size. */
export interface Option {
  readonly cast: string;
  readonly turn: Turn;
  /** Null: any size. */
  readonly size: number | null;
  readonly broken: boolean;
  /** Two lines of it after one another are the same as one of both sizes: one rhythm, no break. */
  readonly merges: boolean;
}

/** Turns that follow one another, by the casts that a lane has; each must stand in it. */
export interface Lane {
  readonly stage: number;
  readonly station: string | null;
  readonly window: number | null;
  readonly casts: readonly string[];
  readonly options: readonly Option[];
  readonly mostLines: number;
  readonly startS: number;
  readonly deadlineS: number;
}

/** The lanes of each way to pair the team. */
export function spaces(event: EventSpec, team: Team): readonly (readonly Lane[])[] {
  const everyone = team.athletes.map(({ name }) => name);
  const pairings = event.stages.some((stage) => byPair(stage, event)) ? pairingsOf(everyone, event, team) : [[]];
  return pairings.map((pairs) => {
    const lane = (
      stage: number,
      own: readonly string[],
      place: Pick<Lane, "station" | "window" | "startS" | "deadlineS">,
    ): readonly Lane[] => {
      const spec = event.stages[stage];
      if (!spec) return [];
      const casts =
        place.station === null && byPair(spec, event)
          ? pairs.filter((two) => two.every((name) => own.includes(name)))
          : own.map((name) => [name]);
      const passes = spec.hold && casts.length > 1 ? 2 : 1;
      return [
        {
          stage,
          casts: casts.map((who) => who.join(" + ")),
          options: casts.flatMap((who) => optionsOf(who, spec, everyone)),
          mostLines: Math.max(mostLines, casts.length * passes),
          ...place,
        },
      ];
    };
    const whole = { window: null, station: null, startS: 0, deadlineS: event.capS ?? Number.POSITIVE_INFINITY };
    if (event.windows.length > 0)
      return event.windows.flatMap(({ category, startS, endS }, window) =>
        lane(0, namesOf(team, category), { ...whole, window, startS, deadlineS: endS }),
      );
    if (event.stations.length > 0)
      return event.stations.flatMap(({ name, category }) => lane(0, namesOf(team, category), { ...whole, station: name }));
    return event.stages.flatMap((_, stage) => lane(stage, everyone, whole));
  });
}

function byPair({ items, rounds, hold }: StageSpec, { working, stations }: EventSpec): boolean {
  return items.some(({ how }) => how !== null) || (!rounds && hold !== null && stations.length === 0 && (working?.most ?? 1) > 1);
}

function optionsOf(who: readonly string[], spec: StageSpec, everyone: readonly string[]): readonly Option[] {
  const cast = who.join(" + ");
  const merges = !spec.rounds && (who.length === 1 || spec.items[0]?.how != null);
  return subsets(
    everyone.filter((name) => !who.includes(name)),
    spec.hold?.count ?? 0,
  ).flatMap((holders): readonly Option[] => {
    const option = (size: number | null, parts: number): Option => ({
      cast,
      size,
      broken: parts > 1,
      merges,
      turn: turnOf(who, holders, spec, size, parts),
    });
    if (spec.rounds) return [option(1, 1)];
    const broken = [2, 3].flatMap((parts) => Array.from({ length: largest - 2 * parts + 1 }, (_, at) => option(2 * parts + at, parts)));
    return [option(null, 1), ...broken];
  });
}

function turnOf(who: readonly string[], holders: readonly string[], spec: StageSpec, size: number | null, parts: number): Turn {
  const upTo = Array.from({ length: largest }, (_, at) => at + 1);
  const works = spec.items.map(({ movement, load, how, count }): Work => {
    const rhythm: Rhythm = who.length > 1 && (how === "in sync" || how === "together") ? how : "each";
    return {
      movement,
      load,
      rhythm,
      ladders: who.map(() => (spec.rounds ? [count ?? 0] : upTo)),
      again: false,
      broken: parts > 1 ? { parts: partsOf(size ?? 0, parts), restS: breakS } : null,
    };
  });
  return {
    kind: "turn",
    id: 0,
    who,
    works,
    rounds: spec.rounds ? 1 : null,
    holders,
    hold: spec.hold?.hold ?? null,
    holdLoad: spec.hold?.load ?? null,
  };
}

/** As even as it goes, the larger parts first. */
function partsOf(size: number, parts: number): readonly number[] {
  return Array.from({ length: parts }, (_, at) => Math.floor(size / parts) + (at < size % parts ? 1 : 0));
}

/** A line of a plan with its sizes pass by pass. */
export interface PlanLine {
  readonly option: Option;
  readonly sizes: readonly number[];
}

/** A lane's lines as the steps of a plan: again and again, with a rest before they start over. */
export function stepsOf(lines: readonly PlanLine[], restS: number, nextId: () => number): readonly Step[] {
  const turns = lines.map(({ option, sizes }): Turn => {
    const works = option.turn.works.map((work): Work =>
      option.size === null ? { ...work, ladders: option.turn.who.map(() => sizes) } : work,
    );
    return { ...option.turn, id: nextId(), works };
  });
  const rest: readonly Step[] = restS > 0 ? [{ kind: "rest", id: nextId(), who: [], until: { kind: "time", seconds: restS } }] : [];
  return [{ kind: "repeat", id: nextId(), times: null, untilS: null, body: [...turns, ...rest] }];
}

/** An even team in pairs; of an odd one, every pair once. */
function pairingsOf(names: readonly string[], { pairs }: EventSpec, team: Team): readonly (readonly (readonly string[])[])[] {
  const allowed = ([one = "", other = ""]: readonly string[]): boolean =>
    pairs === "any" || (categoryIn(team, one) === categoryIn(team, other)) === (pairs === "alike");
  if (names.length % 2 === 1) return [subsets(names, 2).filter(allowed)];
  const ways = (left: readonly string[]): readonly (readonly (readonly string[])[])[] => {
    const [first, ...others] = left;
    return first === undefined
      ? [[]]
      : others.flatMap((other) =>
          allowed([first, other]) ? ways(others.filter((name) => name !== other)).map((rest) => [[first, other], ...rest]) : [],
        );
  };
  return ways(names);
}

function subsets(names: readonly string[], count: number): readonly (readonly string[])[] {
  if (count === 0) return [[]];
  return names.flatMap((name, at) => subsets(names.slice(at + 1), count - 1).map((rest) => [name, ...rest]));
}
