import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, counted, percent, plain, toBase } from "../../0-base/quantity.js";
import type { Span } from "../../0-base/span.js";
import type { Line } from "../../3-plan/ast.js";
import type { Value } from "../../3-plan/parts.js";
import { dimensionOf } from "../../3-plan/values.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "out-of-bounds": Bounds & { value: number };
  }
}

/** What a number may be, both ends included: times in s, shares as fractions. */
interface Bounds {
  readonly what: string;
  readonly least: number;
  readonly most: number;
  readonly unit: "time" | "reps" | "share" | "number";
}

interface Given extends Bounds {
  readonly value: number;
  readonly span: Span;
}

export const outOfBounds: Rule<"out-of-bounds"> = {
  id: "out-of-bounds",
  severity: always("error"),
  title: "A number that cannot be meant",
  why: "A slip of a key makes a cap of nothing or a handover of hours, and all that follows from it is wrong.",
  source: "common practice",
  bad: "event Sprint\n  cap 5 min\n  handover «3 h»\n  stage 10 box jump\n",
  good: "event Sprint\n  cap 5 min\n  handover 3 s\n  stage 10 box jump\n",
  check: ({ line }) => outOfBoundsIn(line),
  message: ({ what, least, most, unit, value }) =>
    `${what} of ${shown(value, unit)} cannot be meant: from ${shown(least, unit)} to ${shown(most, unit)} is taken.`,
};

const hourS = 3600;
const longestChangeS = 600;

function outOfBoundsIn(line: Line): readonly ProblemOf<"out-of-bounds">[] {
  const own = givenBy(line).flatMap(({ span, ...given }) =>
    given.value < given.least || given.value > given.most ? [problem("out-of-bounds", span, given)] : [],
  );
  return [...own, ...line.body.flatMap(outOfBoundsIn)];
}

function givenBy(line: Line): readonly Given[] {
  switch (line.kind) {
    case "cap":
      return time("A cap", line.value, 1, 24 * hourS);
    case "window":
      return line.lasts ? time("A window", line.lasts, 1, 24 * hourS) : [];
    case "handover":
      return time("A handover", line.value, 0, longestChangeS);
    case "setup":
      return time("A set-up", line.value, 0, longestChangeS);
    case "drop cost":
      return dimensionOf(line.value) === "time"
        ? time("A cost", line.value, 0, longestChangeS)
        : [{ ...number("A cost", toBase(line.value), 0, 1000, line.value.span), unit: "reps" }];
    case "stage":
      return [
        ...(line.within ? time("A stage’s time", line.within, 1, 24 * hourS) : []),
        ...(line.rest ? time("A rest", line.rest, 0, 24 * hourS) : []),
        ...(line.count && dimensionOf(line.count) === "count" ? [number("A target", toBase(line.count), 1, 100_000, line.count.span)] : []),
      ];
    case "rule":
      return line.parts.flatMap((part) => ("kind" in part ? limitGiven(part) : []));
    case "keep":
      return time("A time kept free", line.value, 0, 7 * 24 * hourS);
    case "log finish":
      return time("A finish", line.at, 1, 24 * hourS);
    case "log no-rep":
      return [number("A count of no-reps", line.count, 1, 1000, line.span)];
    default:
      return [];
  }
}

function limitGiven(value: Value): readonly Given[] {
  const dimension = dimensionOf(value);
  if (dimension === "share") return [{ what: "A share", value: toBase(value), least: 0, most: 1, unit: "share", span: value.span }];
  if (dimension === "time") return time("A limit", value, 0, 24 * hourS);
  return [{ ...number("A limit", toBase(value), 1, 100_000, value.span), unit: "reps" }];
}

function time(what: string, value: Value, least: number, most: number): readonly Given[] {
  // Another unit is told as such.
  return dimensionOf(value) === "time" ? [{ what, value: toBase(value), least, most, unit: "time", span: value.span }] : [];
}

function number(what: string, value: number, least: number, most: number, span: Span): Given {
  return { what, value, least, most, unit: "number", span };
}

function shown(value: number, unit: Bounds["unit"]): string {
  switch (unit) {
    case "time":
      return value < 60 ? `${plain(value)} s` : clock(value);
    case "share":
      return percent(value);
    case "reps":
      return counted(value, "rep");
    case "number":
      return plain(value);
  }
}
