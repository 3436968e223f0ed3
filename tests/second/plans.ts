/** Random documents in the plan language, for comparing two simulators: the same seed gives the same text. */

interface Athlete {
  name: string;
  woman: boolean;
}
/** What a turn may do: its stage's hold, its way of working, its items where the stage is rounds. */
interface Stage {
  name: string;
  movement: string;
  how: string | null;
  holders: number;
  items: readonly string[] | null;
}

const people: readonly Athlete[] = [
  { name: "Ada", woman: true },
  { name: "Olu", woman: false },
  { name: "Ines", woman: true },
  { name: "Bram", woman: false },
  { name: "Marta", woman: true },
];
const movements: readonly string[] = ["squat", "swing", "dip"];
const rhythms: readonly string[] = ["each", "in sync", "together"];

/** Mulberry32. */
function random(seed: number): () => number {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x51ed270b) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomPlan(seed: number): string {
  const next = random(seed);
  const chance = (p: number): boolean => next() < p;
  const whole = (least: number, most: number): number => least + Math.floor(next() * (most - least + 1));
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
  const tenths = (least: number, most: number): string => (least + next() * (most - least)).toFixed(chance(0.5) ? 1 : 2);
  const shuffled = <T>(from: readonly T[]): T[] =>
    from
      .map((one) => ({ one, at: next() }))
      .sort((a, b) => a.at - b.at)
      .map(({ one }) => one);
  const out: string[] = [];
  const line = (depth: number, text: string): void => void out.push("  ".repeat(depth) + text);

  const team = people.slice(0, whole(2, 5));
  const names = team.map(({ name }) => name);

  function writeTeam(): void {
    line(0, "team Random");
    for (const { name, woman } of team) line(1, `${name}  ${woman ? "woman" : "man"}`);
  }
  function writeAsks(): void {
    const parts = ["grip", "pull", "push", "squat", "hinge", "trunk", "engine", "hands"];
    const asks = (): string =>
      `asks ${shuffled(parts)
        .slice(0, whole(1, 4))
        .map((part) => `${part} ${whole(1, 6) * 10} %`)
        .join(", ")}`;
    for (const movement of shuffled(movements).slice(0, 2)) {
      line(0, `movement ${movement}`);
      line(1, asks());
    }
    line(0, "hold stone");
    line(1, asks());
  }
  function writeAbilities(): void {
    line(0, `ability  ${names.join("  ")}`);
    const row = (what: string, unit: string, cell: (at: number) => string): void =>
      line(1, `${what}  ${names.map((_, at) => cell(at)).join("  ")}  ${unit}`);
    const strong = chance(0.5);
    for (const movement of movements) {
      const best = names.map(() => (chance(strong ? 0.03 : 0.15) ? whole(2, 3) : strong ? whole(20, 70) : whole(4, 40)));
      const cycle = names.map(() => 1 + next() * (chance(0.1) ? 9 : 3));
      if (chance(0.95)) row(`${movement}  unbroken`, "reps", (at) => (chance(0.03) ? "-" : `${best[at]}`));
      if (chance(0.95)) row(`${movement}  cycle`, "s", (at) => cycle[at]!.toFixed(1));
      if (chance(0.7)) row(`${movement}  fade`, "%", () => `${chance(0.3) ? 0 : whole(1, 15) * 10}`);
      if (chance(0.3)) {
        const minutes = whole(2, 6);
        row(`${movement}  in ${minutes} min`, "reps", (at) => {
          const room = (minutes * 60) / cycle[at]!;
          return `${Math.max(1, Math.floor(Math.min(room * 0.8, best[at]! * (1.1 + next() * 1.6))))}`;
        });
      } else if (chance(0.4)) row(`${movement}  recovery`, "", () => tenths(0.5, 2));
    }
    row("stone  hold", "s", () => `${whole(10, chance(0.5) ? 40 : 150)}.${whole(11, 99)}`);
  }
  function writeAssumes(): void {
    const values: readonly (readonly [string, string])[] = [
      ["carry-over", `${whole(0, 10) * 10} %`],
      ["step no-rep", `${whole(1, 9) * 10} %`],
      ["step cost", `${tenths(0, 2)} s`],
      ["set-up", `${tenths(0, 4)} s`],
      ["miss cost", `${tenths(0, 8)} s`],
      ["handover", `${tenths(0, 8)} s`],
      ["break rest", `${whole(0, 9)} s`],
      ["fast share", `${whole(0, 10) * 10} %`],
      ["fast recovery", `${whole(10, 60)} s`],
      ["slow recovery", `${whole(100, 600)} s`],
      ["hold rest factor", `${whole(5, 30)}`],
      ["hold fatigue", "0.02"],
      ["hold recovery", "0.002"],
      ["fade", `${whole(0, 10) * 10} %`],
    ];
    // Numbers without a common measure: a hold that fails in the very moment in which a rep ends is nobody's question.
    line(0, `assume regrip ${whole(3, 15)}.${whole(11, 89)} s`);
    for (const [name, value] of values)
      if (chance(0.15)) line(0, `assume ${/fade|recovery|hold/.test(name) ? `"${name}"` : name} ${value}`);
  }

  // ---- The event ----

  const kind = pick([
    "one",
    "one",
    "one",
    "several",
    "several",
    "round",
    "round",
    "windows",
    "lanes",
    "lanes",
    "stage lanes",
    "stage lanes",
  ]);
  const laneCount = kind.includes("lanes") ? whole(2, Math.min(3, team.length)) : 1;
  /** Nobody is in two lanes: by category where there are stations. */
  const stations = kind === "lanes" && laneCount === 2 && chance(0.5);
  const inLane: readonly (readonly string[])[] = stations
    ? [team.filter(({ woman }) => woman), team.filter(({ woman }) => !woman)].map((some) => some.map(({ name }) => name))
    : Array.from({ length: laneCount }, (_, lane) => names.filter((_, at) => at % laneCount === lane));
  const fewest = kind === "windows" ? 1 : Math.min(...inLane.map(({ length }) => length));
  const score = kind !== "windows" && chance(0.6) ? "time" : "reps";
  const targeted = score === "time" || (kind !== "windows" && chance(0.5));
  const stages: Stage[] = [];

  function holdersHere(): number {
    return fewest > 1 && chance(0.45) ? (fewest > 2 && chance(0.35) ? 2 : 1) : 0;
  }
  function whileHold(holders: number): string {
    return holders > 0 ? ` while ${holders} hold stone${chance(0.3) ? " @ 60/40 kg" : ""}` : "";
  }
  function writeEvent(): void {
    line(0, "event E");
    line(1, `score ${score}`);
    if (kind === "windows") {
      line(1, `window ${whole(20, 240)} s for women`);
      line(1, `window ${whole(20, 240)} s for men`);
    } else if (!targeted || chance(0.85)) line(1, `cap ${chance(0.25) ? `${whole(15, 90)} s` : `${whole(3, 20)} min`}`);
    if (chance(0.7)) line(1, `handover ${chance(0.3) ? "0" : tenths(0, 6)} s`);
    if (chance(0.3)) line(1, `setup ${chance(0.3) ? "0" : tenths(0, 4)} s`);
    if (stations) {
      line(1, "station low for women");
      line(1, "station high for men");
    }
    if (kind === "round" || (kind === "windows" && chance(0.5))) {
      const items = shuffled(movements).slice(0, whole(1, 3));
      const holders = holdersHere();
      line(1, targeted ? `round of ${whole(1, 8)}` : "round");
      items.forEach((movement, at) => line(2, `${whole(1, 9)} ${movement}${load()} ${pick(rhythms)}${at === 0 ? whileHold(holders) : ""}`));
      stages.push({ name: "round", movement: items[0]!, how: "each", holders, items });
      return;
    }
    const count = kind === "several" || kind === "stage lanes" ? whole(2, 3) : 1;
    for (let at = 0; at < count; at++) {
      const movement = pick(movements);
      const how = chance(0.2) ? pick(rhythms) : null;
      const holders = holdersHere();
      const target = targeted && (score === "time" || chance(0.7)) ? `${whole(3, chance(0.5) ? 30 : 90)} ` : "";
      const name = target === "" ? `"part ${at + 1}" ` : `part${at + 1} `;
      line(1, `stage ${count > 1 || chance(0.3) ? name : ""}${target}${movement}${load()}${how ? ` ${how}` : ""}${whileHold(holders)}`);
      stages.push({ name: count > 1 ? (target === "" ? `part ${at + 1}` : `part${at + 1}`) : "", movement, how, holders, items: null });
    }
  }
  function load(): string {
    return chance(0.3) ? " @ 30/20 kg" : "";
  }

  // ---- The plan ----

  let pair: readonly string[] | null = null;
  function who(some: readonly string[]): string {
    return pair && some.length === 2 && some[0] === pair[0] && some[1] === pair[1] && chance(0.7) ? "A" : some.join(" + ");
  }
  function writeTurn(depth: number, stage: Stage, crew: readonly string[]): void {
    const order =
      pair && crew.includes(pair[0]!) && crew.includes(pair[1]!) && chance(0.3)
        ? [...pair, ...shuffled(crew.filter((name) => !pair!.includes(name)))]
        : shuffled(crew);
    const most = Math.max(1, order.length - stage.holders);
    const workers = order.slice(0, Math.min(most, chance(0.6) ? 1 : chance(0.85) ? 2 : 3));
    const holders = order.slice(workers.length, workers.length + stage.holders);
    const hold = holders.length > 0 ? ` while ${who(holders)} hold` : "";
    const doing = who(workers);
    if (stage.items && chance(0.8)) {
      const rounds = whole(1, 3);
      return line(depth, `${doing} ${rounds > 1 ? `${rounds} rounds` : "round"}${hold}`);
    }
    const movement = stage.items ? ` ${pick(stage.items)}` : "";
    const atLoad = !stage.items && chance(0.05) ? " @ 40/25 kg" : "";
    const how = workers.length < 2 || stage.how ? "" : ` ${pick(rhythms)}`;
    const some = (): number => (chance(0.1) ? whole(15, 30) : whole(1, 12));
    const size = pick(["number", "number", "number", "ladder", "ladder", "percent", "broken", "broken", "shared", "expression"]);
    if (size === "ladder") {
      const steps = Array.from({ length: whole(2, 4) }, () => (chance(0.08) ? 0 : whole(1, 9)));
      line(depth, `${doing} ${steps.join("-")}${chance(0.5) ? " again" : ""}${movement}${atLoad}${how}${hold}`);
    } else if (size === "percent") {
      const parts = Array.from({ length: chance(0.3) ? whole(2, 4) : 1 }, () => whole(1, 24) * 5);
      line(
        depth,
        `${doing} ${parts.join("-")} % unbroken${parts.length > 1 && chance(0.5) ? " again" : ""}${movement}${atLoad}${how}${hold}`,
      );
    } else if (size === "broken") {
      const parts = Array.from({ length: whole(2, 4) }, () => whole(1, 7));
      const rest = chance(0.6) ? ` rest ${whole(0, 15)} s` : "";
      line(depth, `${doing} ${parts.reduce((a, b) => a + b)}${movement}${atLoad} as ${parts.join("+")}${rest}${how}${hold}`);
    } else if (size === "shared" && workers.length > 1 && !stage.how) {
      line(depth, `${doing} ${whole(workers.length, 20)}${movement}${atLoad} shared${hold}`);
    } else if (size === "expression") {
      line(depth, `${doing} (max(1, round(0.${whole(1, 9)} * ${workers[0]!}.${movements[0]!}.unbroken)))${movement}${atLoad}${how}${hold}`);
    } else line(depth, `${doing} ${some()}${movement}${atLoad}${how}${hold}`);
  }
  function writeRest(depth: number, crew: readonly string[]): void {
    for (let more = chance(0.25) ? 2 : 1; more > 0; more--) {
      const own = chance(0.5) ? "" : `${who(shuffled(crew).slice(0, chance(0.8) ? 1 : 2))} `;
      const until = pick(["time", "time", "share", "ready"]);
      if (until === "time")
        line(depth, `${own}rest ${chance(0.8) ? `${whole(0, 40)} s` : chance(0.5) ? `1:${whole(1, 3)}` : `0:${whole(10, 59)}`}`);
      else line(depth, `${own}rest until ${until === "ready" ? "ready" : `${whole(1, 19) * 5} %`}`);
    }
  }
  function writeSteps(depth: number, stage: Stage, crew: readonly string[], nested: number): void {
    for (let more = whole(1, 4); more > 0; more--) {
      if (nested < 3 && chance(0.35)) {
        const kindOf = pick(["", "", ` ${whole(2, 5)}`, ` ${whole(2, 5)}`, ` until ${whole(0, 4)}:${whole(10, 59)}`]);
        line(depth, `repeat${kindOf}`);
        writeSteps(depth + 1, stage, crew, nested + 1);
      } else if (chance(0.3)) writeRest(depth, crew);
      else writeTurn(depth, stage, crew);
    }
    writeTurn(depth, stage, crew);
    if (nested < 2 && chance(targeted ? 0.6 : 0.3)) {
      line(depth, "repeat");
      for (let more = whole(1, 3); more > 0; more--) writeTurn(depth + 1, stage, crew);
      if (chance(0.4)) writeRest(depth + 1, crew);
    }
  }
  function stageHead(depth: number, stage: Stage): void {
    line(depth, `stage ${stage.name.includes(" ") ? `"${stage.name}"` : stage.name}`);
  }
  function writePlan(): void {
    line(0, "plan P for E");
    if (!kind.includes("lanes") && kind !== "windows" && chance(0.4)) {
      pair = shuffled(names).slice(0, 2);
      line(1, `pair A  ${pair.join(" + ")}`);
    }
    const [only] = stages;
    if (kind === "windows") {
      for (const woman of chance(0.9) ? [true, false] : [false, true]) {
        line(1, `window ${woman ? "women" : "men"}`);
        const crew = team.filter((one) => one.woman === woman).map(({ name }) => name);
        writeSteps(2, only!, crew, 0);
      }
    } else if (kind === "several") {
      const order = chance(0.8) ? [...stages] : shuffled(stages);
      if (chance(0.3)) order.push(pick(stages));
      for (const stage of order) {
        stageHead(1, stage);
        if (chance(0.25)) writeLanes(2, () => [stage], false);
        else writeSteps(2, stage, names, 0);
      }
    } else if (kind === "lanes") {
      if (chance(0.2)) writeSteps(1, only!, names, 2);
      if (chance(0.15)) {
        line(1, `repeat ${whole(2, 3)}`);
        writeLanes(2, () => [only!], false);
      } else writeLanes(1, () => [only!], false);
      if (chance(0.3)) writeSteps(1, only!, names, 1);
    } else if (kind === "stage lanes") {
      writeLanes(1, () => (chance(0.7) ? [...stages] : shuffled(stages).slice(0, whole(1, stages.length))), true);
      if (chance(0.3)) {
        const stage = pick(stages);
        stageHead(1, stage);
        writeSteps(2, stage, names, 1);
      }
    } else {
      writeSteps(1, only!, names, 0);
      if (chance(0.6)) {
        line(1, "repeat");
        writeSteps(2, only!, names, 1);
      }
    }
  }
  function writeLanes(depth: number, stagesOf: () => readonly Stage[], heads: boolean): void {
    const groups = laneCount > 1 ? inLane : [names.slice(0, 1), names.slice(1)];
    groups.forEach((crew, lane) => {
      const mine = stagesOf().map((stage) => ({ ...stage, holders: Math.min(stage.holders, crew.length - 1) }));
      line(depth, `lane way${lane + 1}${stations ? ` on ${lane === 0 ? "low" : "high"}` : ""}`);
      for (const stage of mine) {
        if (heads) stageHead(depth + 1, stage);
        writeSteps(depth + (heads ? 2 : 1), stage, crew, heads ? 1 : 0);
      }
    });
  }

  writeTeam();
  if (chance(0.5)) writeAsks();
  writeAbilities();
  writeAssumes();
  writeEvent();
  writePlan();
  return `${out.join("\n")}\n`;
}
