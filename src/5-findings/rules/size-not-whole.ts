import { plain } from "../../0-base/quantity.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "size-not-whole": { size: number; least: number; most: number };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n";

export const sizeNotWhole: Rule<"size-not-whole"> = {
  id: "size-not-whole",
  severity: always("error"),
  title: "A number that is no whole one, or too large",
  why: "Half a rep is a no-rep.",
  source: "common practice",
  bad: `${ground}  Ada «4.5»\n  Ada 5\n`,
  good: `${ground}  Ada 5\n`,
  check: metEarlier("size-not-whole"),
  message: (values) =>
    `${plain(values.size, 3)} cannot be done: write a whole number from ${values.least} to ${values.most}, or use round( ).`,
};
