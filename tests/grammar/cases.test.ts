import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import type { Line } from "../../src/3-plan/ast.js";
import type { Clauses, Load, RestSize, Word } from "../../src/3-plan/parts.js";
import { printExpression, printValue } from "../../src/3-plan/print-parts.js";
import { readBlock } from "../../src/3-plan/read.js";

const rows = readFileSync(new URL("cases.txt", import.meta.url), "utf8")
  .split("\n")
  .filter((row) => row.includes("==>"));

describe("a line alone", () => {
  it.each(rows.map((row) => row.split("==>").map((part) => part.trim())))("%s", (line = "", wanted = "") => {
    const [block] = blocksOf(line, parse(line).tree);
    const read = block && readBlock(block);
    expect(read && describeLine(read.line)).toBe(wanted);
    expect(read?.problems.filter(({ rule }) => ["does-not-parse", "said-otherwise"].includes(rule))).toHaveLength(
      wanted === "broken" ? 1 : 0,
    );
  });

  it("is tested broken at least as often as a third of whole ones", () => {
    const broken = rows.filter((row) => row.endsWith("broken")).length;
    expect(broken * 2).toBeGreaterThan(rows.length - broken);
  });
});

const word = (key: string, of: Word | null): string => (of ? ` ${key}="${of.text}"` : "");
const joined = (words: readonly Word[]): string => words.map(({ text }) => text).join("+");

function load(key: string, of: Load | null): string {
  return of ? ` ${key}=${of.man === of.woman ? of.man : `${of.man}/${of.woman}`} ${of.unit}` : "";
}

function clauses({ load: own, how, broken, hold }: Clauses): string {
  const parts = broken ? ` parts=${broken.parts.join("+")}${broken.rest ? ` partRest=${printValue(broken.rest)}` : ""}` : "";
  const held = hold
    ? ` while=${hold.count ?? joined(hold.who)}${hold.hold ? ` hold=${hold.hold.text}` : ""}${load("holdLoad", hold.load)}`
    : "";
  return `${load("load", own)}${how ? ` how=${how}` : ""}${parts}${held}`;
}

function rest(of: RestSize): string {
  if (of.kind === "ratio") return ` ${of.work}:${of.rest}`;
  return of.kind === "ready" ? " ready" : of.kind === "share" ? ` ${of.fraction * 100} %` : ` ${printValue(of.value)}`;
}

function describeLine(line: Line): string {
  switch (line.kind) {
    case "team":
    case "movement":
    case "hold":
    case "week":
      return `${line.kind}${word("name", line.name)}`;
    case "athlete":
      return `athlete${word("name", line.name)} category=${line.category}`;
    case "asks":
      return `asks${line.asks.map(({ part, share }) => ` ${part.text}=${printValue(share)}`).join("")}`;
    case "ability":
      return "ability";
    case "ability row": {
      const cells = line.cells.map((cell) =>
        cell.kind === "unknown" ? "-" : cell.kind === "paren" ? printExpression(cell.of) : printValue(cell),
      );
      return `ability row${word("subject", line.subject)} measure=${line.measure.name}${line.measure.within ? ` ${printValue(line.measure.within)}` : ""}${load("load", line.load)} cells=${cells.join(",")}`;
    }
    case "event":
      return `event${word("name", line.name)}${word("like", line.like)}`;
    case "score":
      return `score${word("choice", line.choice)}`;
    case "pairs":
    case "athletes":
      return `${line.kind}${word("choice", line.choice)}${line.change ? ` change=${line.change.kind === "every" ? printValue(line.change.reps) : "at will"}` : ""}`;
    case "tie":
      return `tie${word("stage", line.stage)}`;
    case "equipment":
      return `equipment${word("name", line.name)}${line.movements.length > 0 ? ` movements=${joined(line.movements)}` : ""}`;
    case "order":
      return `order${line.athletes.length > 0 ? ` athletes=${joined(line.athletes)}` : ""}`;
    case "drop cost":
    case "cap":
    case "handover":
    case "setup":
      return `${line.kind} value=${printValue(line.value)}`;
    case "working":
      return `working most=${line.most}${word("what", line.what)}`;
    case "stage":
      return `stage${word("name", line.name)}${line.count ? ` count=${printValue(line.count)}` : ""}${word("movement", line.movement)}${clauses(line.clauses)}${line.within ? ` within=${printValue(line.within)}` : ""}${line.rest ? ` rest=${printValue(line.rest)}` : ""}${line.scored ? "" : " unscored"}`;
    case "window":
      return `window${line.lasts ? ` lasts=${printValue(line.lasts)}` : ""}${word("who", line.who)}`;
    case "station":
      return `station${word("name", line.name)}${word("who", line.who)}`;
    case "round":
      return `round${line.of === null ? "" : ` of=${line.of}`}`;
    case "round item":
      return `round item${line.count ? ` count=${printValue(line.count)}` : ""}${word("movement", line.movement)}${clauses(line.clauses)}`;
    case "rule":
      return `rule ${line.parts.map((part) => ("kind" in part ? printValue(part) : part.text)).join(" ")}`;
    case "standard":
      return `standard text="${line.text}"`;
    case "plan":
      return `plan${word("name", line.name)}${word("event", line.event)}`;
    case "pair":
      return `pair${word("name", line.name)} athletes=${joined(line.athletes)}`;
    case "repeat":
      return `repeat${line.times === null ? "" : ` times=${line.times}`}${line.until ? ` until=${printValue(line.until)}` : ""}`;
    case "lane":
      return `lane${word("name", line.name)}${word("station", line.station)}`;
    case "rest":
      return `rest${rest(line.rest)}`;
    case "named rest":
      return `named rest who=${joined(line.who)}${rest(line.rest)}`;
    case "round turn":
      return `round turn who=${joined(line.who)} count=${line.count}${clauses(line.clauses)}`;
    case "turn": {
      const { size } = line;
      const shown =
        size.kind === "number"
          ? printValue(size.value)
          : size.kind === "percent"
            ? `${size.fraction * 100} % unbroken`.replace(/(\.\d)\d+/, "$1").replace(".0 ", " ")
            : size.kind === "ladder"
              ? `${size.steps.join("-")}${size.ofBest ? " % unbroken" : ""}${size.again ? " again" : ""}`
              : printExpression(size.of);
      return `turn who=${joined(line.who)} size=${shown}${word("movement", line.movement)}${clauses(line.clauses)}`;
    }
    case "zone":
      return `zone zone="${line.zone}"`;
    case "due":
      return `due date="${line.date}" time="${line.time}"${line.zone ? ` zone="${line.zone}"` : ""}`;
    case "day limit":
      return `day limit most=${line.most}${word("what", line.what)}`;
    case "cue":
      return `cue${line.when ? ` ${line.when.of}=${printValue(line.when.value)}` : ""} text="${line.text}"`;
    case "gap":
      return `gap least=${printValue(line.least)}${word("what", line.what)}`;
    case "keep":
      return `keep value=${printValue(line.value)}${word("what", line.what)}`;
    case "open":
      return `open${line.date ? ` date="${line.date}"` : ""} hours="${line.hours.from}–${line.hours.to}"`;
    case "away":
      return `away who=${joined(line.who)} date="${line.date}"${line.until ? ` until="${line.until}"` : ""}${line.hours ? ` hours="${line.hours.from}–${line.hours.to}"` : ""}`;
    case "day":
      return `day${line.date ? ` date="${line.date}"` : ""}${line.time ? ` time="${line.time}"` : ""}${line.rest ? " rest" : ""}${word("event", line.event)}${word("plan", line.plan)}${line.again ? " again" : ""}${line.effort === null ? "" : ` effort=${line.effort}`}${line.weight === null ? "" : ` weight=${line.weight}`}`;
    case "log":
      return `log${word("plan", line.plan)} date="${line.date}"${line.time ? ` time="${line.time}"` : ""}`;
    case "log done":
      return `log done${word("stage", line.stage)} at=${printValue(line.at)}`;
    case "log broke":
      return `log broke${word("athlete", line.athlete)} at=${line.at}${word("movement", line.movement)}`;
    case "log dropped":
      return `log dropped${word("athlete", line.athlete)} at=${printValue(line.at)}`;
    case "log no-rep":
      return `log no-rep${word("athlete", line.athlete)} count=${line.count}`;
    case "log reps":
      return `log reps at=${printValue(line.at)} reps=${line.reps}`;
    case "log handover":
      return `log handover value=${printValue(line.value)}`;
    case "log felt":
      return `log felt effort=${line.effort}`;
    case "log note":
      return `log note text="${line.text}"`;
    case "log finish":
      return `log finish at=${printValue(line.at)}`;
    case "let":
      return `let${word("name", line.name)} value=${printExpression(line.value)}`;
    case "expect":
      return `expect left=${printExpression(line.left)} comparison="${line.comparison}" right=${printExpression(line.right)}`;
    case "compare":
      return `compare plans=${joined(line.plans)}`;
    case "use":
      return `use path="${line.path}"`;
    case "assume":
      return `assume${word("name", line.name)} value=${printValue(line.value)}`;
    case "broken":
      return "broken";
  }
}
