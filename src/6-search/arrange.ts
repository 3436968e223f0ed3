import { areSideBySide, type EventSpec, type StageSpec, takes } from "../3-plan/event.js";
import { categoryIn, mayBePair, namesOf, orderIn, type PlanPair, workingIn } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { changeEvery } from "../5-findings/limits/change-every.js";
import { inForce, sourcesOf } from "../5-findings/limits/limit.js";
import { mayHold } from "../5-findings/limits/never-holds.js";
import { heldApart } from "./holding.js";
import { kindOf } from "./kind.js";
import { pairNamed } from "./trim.js";
import { bestBy, type DraftPlan, type DraftBlock, type DraftLane, type DraftTurn, evenParts, mostTurns, type SetSize } from "./draft.js";

/** A way to share an event's work out: who with whom, in what order. Sizes are to be found. */
export interface Arrangement {
  /** The same for drafts of the same kind. */
  readonly kind: string;
  readonly draft: DraftPlan;
}

/** A first size, before the search looks for a better one. */
const firstSize: SetSize = { kind: "reps", steps: [5], parts: 1 };

/** Who works with whom, in pairs or more, or side by side. */
interface Grouping {
  readonly pairs: readonly (readonly string[])[];
  /** Those who share a lane where several lanes run side by side, or a station; one of all where one does. */
  readonly sides: readonly (readonly string[])[];
}

/** Every way to pair a team, to work alone or side by side, that the event's own lines allow. */
export function arrangements(event: EventSpec, team: Team, abilities: Abilities, rules: DraftPlan["rules"] = []): readonly Arrangement[] {
  const best = bestBy(event, team, abilities);
  const holders = new Set(mayHold({ event, team, rules }));
  const [{ value: every } = { value: null }] = inForce(sourcesOf({ event, team, rules }), changeEvery);
  if (areSideBySide(event)) return besideOne(event, team, rules, best, holders);
  return groupings(event, team, best).flatMap(({ pairs: pairing, sides }) => {
    const twos = pairing.filter(({ length }) => length === 2);
    const pairs: readonly PlanPair[] = twos.map((two, at) => ({
      name: pairNamed(at),
      athletes: two,
      span: { from: 0, to: 0 },
    }));
    const blocks =
      event.windows.length > 0
        ? windowBlocks(event, team, pairing, holders)
        : inTurn(
            event.stages.map((_, stage) => ({ stage, window: null, lanes: lanesOf(stage, event, team, sides, pairing, holders) })),
            event,
            every,
          );
    const workable = blocks.length > 0 && blocks.every(({ lanes }) => lanes.length > 0 && lanes.every(({ turns }) => turns.length > 0));
    if (!workable) return [];
    const draft = { event, team, pairs, rules, blocks, best };
    return [draft, ...sharedOut(draft, holders)].map((one) => ({ kind: kindOf(one), draft: one }));
  });
}

/** Every way to share a team out to stages that run side by side; those of a stage hold for each other, one works at a time. */
function besideOne(
  event: EventSpec,
  team: Team,
  rules: DraftPlan["rules"],
  best: DraftPlan["best"],
  holders: ReadonlySet<string>,
): readonly Arrangement[] {
  const { stages } = event;
  const shares = team.athletes.reduce<readonly (readonly (readonly string[])[])[]>(
    (made, { name, category }) =>
      made.flatMap((share) =>
        share.flatMap((crew, at) => {
          const whose = stages[at]?.category ?? null;
          return whose === null || whose === category ? [share.with(at, [...crew, name])] : [];
        }),
      ),
    [stages.map(() => [])],
  );
  return shares.slice(0, mostShares).flatMap((share): readonly Arrangement[] => {
    const blocks = stages.map((spec, stage): DraftBlock => {
      const crew = share[stage] ?? [];
      const casts = needsTwo(spec) ? matchings(crew).slice(0, 1).flat() : crew.map((name) => [name]);
      const turns = turnsFor(
        casts.map((who) => ({ who, size: sizeAt(spec) })),
        spec,
        crew,
        holders,
      );
      return { stage, window: null, lanes: [{ station: null, rest: 0, waits: [], turns }] };
    });
    const draft = { event, team, pairs: [], rules, blocks, best };
    return blocks.every(({ lanes }) => lanes.every(({ turns }) => turns.length > 0)) ? [{ kind: kindOf(draft), draft }] : [];
  });
}

/** The same with rounds whose movements are shared out among all who work there: each by one, by two, or by everybody. */
function sharedOut(draft: DraftPlan, holders: ReadonlySet<string>): readonly DraftPlan[] {
  const { event, blocks } = draft;
  if (event.alternate !== null || event.order !== null || event.stations.length > 0) return [];
  return [1, 2, Number.POSITIVE_INFINITY].flatMap((by): readonly DraftPlan[] => {
    let told = false;
    const shared = blocks.map((block): DraftBlock => {
      const stage = event.stages[block.stage];
      const [lane, another] = block.lanes;
      // Where several may work, lanes beside each other gain more than parts of a round in one.
      if (
        !stage?.rounds ||
        lanesAllowed(stage, event, draft.team.athletes.length) > 1 ||
        needsTwo(stage) ||
        !lane ||
        another ||
        lane.turns.some(({ who }) => who.length > 1)
      )
        return block;
      const names = [...new Set(lane.turns.flatMap(({ who }) => who))];
      const crew = [...new Set([...names, ...lane.turns.flatMap((turn) => turn.holders)])];
      const parts = partsOf(stage, names, by);
      const turns = turnsFor(parts, stage, crew, holders);
      if (names.length < 2 || parts.length > mostTurns || turns.length < parts.length) return block;
      told = true;
      return { ...block, lanes: [{ ...lane, turns }] };
    });
    return told ? [{ ...draft, blocks: shared }] : [];
  });
}

/** A round's movements in their order, each by so many of the athletes who come next; rounds go on until everybody has worked. */
function partsOf({ items }: StageSpec, names: readonly string[], by: number): readonly Cast[] {
  const each = Math.min(by, names.length);
  const rounds = Math.max(1, Math.floor(Math.min(mostTurns, names.length) / (each * items.length)));
  let next = 0;
  return Array.from({ length: rounds }, () => items).flatMap((round) =>
    round.flatMap(({ count }, item) => {
      const of = count ?? 0;
      return evenParts(of, Math.max(1, Math.min(each, of))).map((reps): Cast => {
        const who = names[next % names.length] ?? "";
        next += 1;
        return { who: [who], size: { kind: "item", item, reps, of } };
      });
    }),
  );
}

/** Where hands change after so many reps, a stage begins with whoever comes after the last turn of the stage before it. */
function inTurn(blocks: readonly DraftBlock[], { stages, alternate }: EventSpec, every: number | null): readonly DraftBlock[] {
  if (alternate === null || every === null) return blocks;
  let done = 0;
  return blocks.map((block): DraftBlock => {
    const spec = stages[block.stage];
    const begun = done;
    const each = spec?.items.some(({ how }) => how === "each") ? 2 * every : every;
    done += Math.ceil((spec?.target ?? 0) / each);
    const lanes = block.lanes.map((lane) => {
      const from = begun % lane.turns.length;
      return { ...lane, turns: [...lane.turns.slice(from), ...lane.turns.slice(0, from)] };
    });
    return block.lanes.length === 1 && !spec?.rounds ? { ...block, lanes } : block;
  });
}

function groupings(event: EventSpec, team: Team, best: DraftPlan["best"]): readonly Grouping[] {
  const order = orderIn(event, team);
  const athletes = order === null || order === "fixed" ? team.athletes.map(({ name }) => name) : order;
  const lanes = event.windows.length > 0 ? 1 : Math.max(1, ...event.stages.map((stage) => lanesAllowed(stage, event, athletes.length)));
  const chosen = event.stages.some((stage) => mayPair(stage, event));
  if (event.stages.some(needsTwo)) {
    return pairingsOf(athletes, event, team).flatMap((pairs) => {
      const whole = pairs.length * 2 === athletes.length;
      return [...(whole ? sidesOf(pairs, lanes).map((sides) => grouped(pairs, sides)) : []), grouped(pairs, [pairs])];
    });
  }
  if (event.stations.length > 0) return stationShares(event, team).map((sides) => ({ pairs: [], sides }));
  const singles = athletes.map((name) => [name]);
  const together = chosen
    ? [...crewsOf(athletes, event, best), ...pairingsOf(athletes, event, team)].map((pairs) => grouped(pairs, [pairs]))
    : [];
  const pairsOnly = event.alternate === "pairs" && event.stages.every((stage) => mayPair(stage, event)) && together.length > 0;
  return pairsOnly ? together : [...sidesOf(singles, lanes).map((sides) => grouped([], sides)), ...together, grouped([], [singles])];
}

/** Who works at which station, in the stations' order: nobody at two, since all run at once; some stand empty where they are too many. */
function stationShares({ stations }: EventSpec, team: Team): readonly Grouping["sides"][] {
  const categories = [...new Set(stations.map(({ category }) => category))];
  let shares: readonly Grouping["sides"][] = [stations.map(() => [])];
  for (const category of categories) {
    const places = stations.flatMap((station, at) => (station.category === category ? [at] : []));
    const own = namesOf(team, category);
    const ways = places.length > 1 && own.length > 1 ? sidesOf(own, places.length) : [[own]];
    shares = shares
      .flatMap((share) => ways.map((way) => way.reduce((made, side, nth) => made.with(places[nth] ?? 0, side), share)))
      .slice(0, mostPairings);
  }
  return shares;
}

function grouped(pairs: Grouping["pairs"], sides: readonly Grouping["pairs"][]): Grouping {
  return { pairs, sides: sides.map((side) => [...new Set(side.flat())]) };
}

/** Three or more at once while the others hold, the likes of each other together, as a ring; none where so many may not work. */
function crewsOf(athletes: readonly string[], event: EventSpec, best: DraftPlan["best"]): readonly (readonly (readonly string[])[])[] {
  const { stages, pairs } = event;
  const working = workingIn(event);
  const holders = Math.max(...stages.map(({ hold }) => hold?.count ?? 0));
  const most = Math.min(athletes.length - holders, working?.pairs ? 2 : (working?.most ?? athletes.length));
  if (most < 3 || pairs !== "any") return [];
  const held = stages.findIndex(({ hold }) => hold !== null);
  const likes = athletes.toSorted((a, b) => best(b, held) - best(a, held));
  const round = [...likes, ...likes];
  return [likes.map((_, at) => round.slice(at, at + most))];
}

/** How many lanes may run side by side at a stage: each has workers of its own, and those who hold for them. */
function lanesAllowed(stage: StageSpec, { working, stations, alternate, order, equipment }: EventSpec, athletes: number): number {
  if (stations.length > 0 || alternate !== null || order !== null || takesOneThing(stage, { equipment })) return 1;
  const workers = needsTwo(stage) ? 2 : 1;
  const held = Math.floor(athletes / (workers + (stage.hold?.count ?? 0)));
  const apart =
    working === null ? Number.POSITIVE_INFINITY : working.pairs ? (workers === 2 ? working.most : 1) : Math.floor(working.most / workers);
  return Math.max(1, Math.min(held, apart));
}

/** Whether a rep of a stage needs two. */
function needsTwo({ items }: StageSpec): boolean {
  return items.some(({ how }) => how !== null);
}

/** Whether two may work in one turn, each for himself: while another holds; or where the event counts or changes by pairs. */
function mayPair(stage: StageSpec, event: EventSpec): boolean {
  const { stations, alternate } = event;
  const working = workingIn(event);
  if (takesOneThing(stage, event) || stage.rounds || stations.length > 0) return false;
  const two = working === null || working.pairs || working.most >= 2;
  return two && (stage.hold !== null || alternate === "pairs" || working?.pairs === true);
}

/** Whether what is done at a stage takes a thing that there is one of. */
function takesOneThing({ items }: StageSpec, { equipment }: Pick<EventSpec, "equipment">): boolean {
  return equipment.some((one) => items.some(({ movement }) => takes(one, movement)));
}

function windowBlocks(
  event: EventSpec,
  team: Team,
  pairing: readonly (readonly string[])[],
  holders: ReadonlySet<string>,
): readonly DraftBlock[] {
  return event.windows.flatMap(({ category }, window) => {
    const own = namesOf(team, category);
    const pairs = pairing.filter((two) => two.every((name) => own.includes(name)));
    return event.stages.flatMap((spec, stage): readonly DraftBlock[] => {
      if (spec.category !== null && spec.category !== category) return [];
      const units = needsTwo(spec) ? pairs : own.map((name) => [name]);
      const [sides = [units]] = sidesOf(units, lanesAllowed(spec, event, own.length));
      const lanes = sides.map((side) => side.flat());
      return [{ stage, window, lanes: lanesOf(stage, event, team, lanes, pairs, holders) }];
    });
  });
}

function lanesOf(
  at: number,
  event: EventSpec,
  team: Team,
  sides: readonly (readonly string[])[],
  pairing: readonly (readonly string[])[],
  holders: ReadonlySet<string>,
): readonly DraftLane[] {
  const stage = event.stages[at];
  if (!stage) return [];
  if (event.stations.length > 0) {
    return event.stations.flatMap(({ name, category }, station) => {
      if (stage.category !== null && stage.category !== category) return [];
      const own = needsTwo(stage) ? namesOf(team, category) : (sides[station] ?? []);
      // Those of a station hold for each other where they are enough: nobody is wanted at two stations at once.
      const crew = own.length > (stage.hold?.count ?? 0) ? own : sides.flat();
      const casts = own.map((one): Cast => ({ who: [one], size: sizeAt(stage) }));
      return own.length === 0 ? [] : [{ station: name, rest: 0, waits: [], turns: turnsFor(casts, stage, crew, holders) }];
    });
  }
  const theirs = (name: string): boolean => stage.category === null || categoryIn(team, name) === stage.category;
  const inPairs = needsTwo(stage) || (pairing.length > 0 && mayPair(stage, event));
  const allowed = lanesAllowed(stage, event, sides.flat().length);
  // Where a stage lets its pairs' members work by themselves, each pair has a lane; where it allows fewer lanes, they are one.
  const once = new Set(pairing.flat()).size === pairing.flat().length;
  const apart = sides.length === 1 && !inPairs && once && pairing.length > 1 && allowed >= pairing.length ? pairing : sides;
  return (apart.length > allowed ? [apart.flat()] : apart)
    .filter((side) => side.some(theirs))
    .map((side) => ({
      station: null,
      rest: 0,
      waits: [],
      turns: turnsFor(
        (inPairs
          ? pairing.filter((two) => two.every((name) => theirs(name) && side.includes(name)))
          : side.filter(theirs).map((one) => [one])
        ).map((who) => ({ who, size: sizeAt(stage) })),
        stage,
        side,
        holders,
      ),
    }));
}

/** Who works in a turn, and how much. */
type Cast = Pick<DraftTurn, "who" | "size">;

function sizeAt({ rounds, items }: StageSpec): SetSize {
  return rounds ? { kind: "round", broken: items.map(() => null) } : firstSize;
}

/** Each cast in turn; the holds go round among those who do not work, so often that everyone has held. */
function turnsFor(casts: readonly Cast[], stage: StageSpec, crew: readonly string[], holders: ReadonlySet<string>): readonly DraftTurn[] {
  const needed = stage.hold?.count ?? 0;
  // Two who hold for each other have nothing to change in a second pass.
  const eachOther = casts.length < 3 && casts.every(({ who }) => crew.length === who.length + needed);
  const able = crew.filter((name) => holders.has(name));
  const allHold = needed * casts.length >= able.length;
  const passes = needed > 0 && !eachOther && !allHold && casts.length > 1 && 2 * casts.length <= mostTurns ? 2 : 1;
  const held = new Map(able.map((name) => [name, 0]));
  const turns: DraftTurn[] = [];
  for (let pass = 0; pass < passes; pass += 1) {
    for (const { who, size } of casts) {
      // Of those who held least, who does not hold already; then who comes next: the hold goes round as the work does.
      const holdsOn = (name: string): boolean => turns.at(-1)?.holders.includes(name) ?? false;
      const after = (name: string): number => (crew.indexOf(name) - crew.indexOf(who.at(-1) ?? "") + crew.length) % crew.length;
      const free = able
        .filter((name) => !who.includes(name))
        .sort((a, b) => (held.get(a) ?? 0) - (held.get(b) ?? 0) || Number(holdsOn(a)) - Number(holdsOn(b)) || after(a) - after(b));
      if (free.length < needed) continue;
      const next = free.slice(0, needed);
      for (const name of next) held.set(name, (held.get(name) ?? 0) + 1);
      turns.push({ who, size, holders: next });
    }
  }
  return heldApart(turns, able);
}

/** Ways to share athletes or pairs out to several sides, as evenly as it goes; none where there is but one side. */
function sidesOf<T>(units: readonly T[], lanes: number): readonly (readonly (readonly T[])[])[] {
  const sides = Math.min(lanes, units.length);
  const [least, most] = [Math.floor(units.length / sides), Math.ceil(units.length / sides)];
  const found: (readonly (readonly T[])[])[] = [];
  const place = (at: number, made: readonly (readonly T[])[]): void => {
    const unit = units[at];
    if (found.length >= mostPairings) return;
    if (unit === undefined) {
      if (made.length === sides && made.every(({ length }) => length >= least)) found.push(made);
      return;
    }
    made.forEach((side, number) => {
      if (side.length < most) place(at + 1, made.with(number, [...side, unit]));
    });
    // A new side only for the first who is in none: the same shares are not told twice.
    if (made.length < sides) place(at + 1, [...made, [unit]]);
  };
  if (sides > 1) place(0, []);
  return found;
}

/** Ways to make pairs of a team: each athlete in one pair; of an odd team, in two. */
function pairingsOf(athletes: readonly string[], event: EventSpec, team: Team): readonly (readonly (readonly string[])[])[] {
  const allowed = ([one = "", other = ""]: readonly string[]): boolean => mayBePair(event, team, one, other);
  if (athletes.length % 2 === 0) return matchings(athletes).filter((pairing) => pairing.every(allowed));
  // Round the ring, so that everybody works twice: Ada + Eda, Ian + Olu, Una + Ada, Eda + Ian, Olu + Una.
  const round = [...athletes, ...athletes];
  const ring = athletes.map((_, at) => round.slice(2 * at, 2 * at + 2)).filter(allowed);
  return ring.length > 0 ? [ring] : [];
}

/** Of six athletes to two stages there are 64. */
const mostShares = 1_000;

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
