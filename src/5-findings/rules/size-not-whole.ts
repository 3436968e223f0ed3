import { plain } from "../../0-base/quantity.js";
import { always, amount, metEarlier, type Rule } from "../rule.js";

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n";

export const sizeNotWhole: Rule = {
  id: "size-not-whole",
  severity: always("error"),
  title: "A number that is no whole one, or too large",
  why: "Half a rep is a no-rep.",
  source: "common practice",
  bad: `${ground}  Ada «4.5»\n  Ada 5\n`,
  good: `${ground}  Ada 5\n`,
  check: metEarlier("size-not-whole"),
  message: (values) =>
    `${plain(amount(values, "size"), 3)} cannot be done: write a whole number from ${amount(values, "least")} to ${amount(values, "most") || 5000}, or use round( ).`,
};
