import { type Habit, inSeconds, known, line, name, one, time } from "./habit.js";

/** Under any line: numbers, and limits that an event and a plan may set. */
export const anyHabits: readonly Habit[] = [
  {
    under: "any",
    typed: /^(?!(?:cue|note|standard)\s)(?!.*")(.*?)(?<![\p{L}\p{N}.])(\d+(?:_\d+)+|\d+(?:\.\d+)?e[+-]?\d{1,2})(?![\p{L}\p{N}])(.*)$/iu,
    meant: ([, before = "", number = "", after = ""]) => line(`${before}${inDigits(number)}${after}`),
  },
  {
    under: "any",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:(?:no\s+more\s+than|at\s+most|max(?:imum)?)\s+(?:sets?\s+(?:of\s+)?(?=\d+(?:\s+reps?)?$))?(\d+)(?:(?<=sets?\s+(?:of\s+)?\d+)(?:\s+reps?)?|(?:\s+reps?)?\s+(?:at\s+a\s+time|in\s+a\s+row|unbroken|a\s+set|per\s+set))|sets?\s+(?:of\s+)?(?:at\s+most|no\s+(?:more|larger|bigger)\s+than|max(?:imum)?|up\s+to)\s+(\d+)(?:\s+reps?)?)$`,
      "iu",
    ),
    meant: ([all = "", before, after = ""]) => known(all, `rule set at most ${before ?? after} reps`),
  },
  {
    under: "any",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:(?:at\s+least|min(?:imum)?)\s+(\d+)(?:\s+reps?)?\s+(?:at\s+a\s+time|in\s+a\s+row|unbroken|a\s+set|per\s+set)|sets?\s+(?:of\s+)?(?:at\s+least|no\s+(?:less|fewer|smaller)\s+than|min(?:imum)?)\s+(\d+)(?:\s+reps?)?)$`,
      "iu",
    ),
    meant: ([all = "", before, after = ""]) => known(all, `rule set at least ${before ?? after} reps`),
  },
  {
    under: "any",
    typed: /^(?:rule\s+)?sets?\s+(?:of\s+)?(?:under|below|less\s+than|fewer\s+than)\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([, past = ""]) => line(`rule set at most ${Number(past) - 1} reps`),
  },
  {
    under: "any",
    typed:
      /^(?:rule\s+)?sets?\s+(?:of\s+)?(?:at\s+most|max(?:imum)?)\s+(\d+)\s*%\s+of\s+(?:an?\s+|the\s+|each\s+)?(?:unbroken|best|max(?:imum)?)(?:\s+sets?)?$/iu,
    meant: ([, part = ""]) => line(`rule set at most ${part} % unbroken`),
  },
  {
    under: "any",
    typed: /^(?:rule\s+)?sets?\s+(?:of\s+)?(?:at\s+most|no\s+more\s+than|max(?:imum)?)\s+(\d+)\s+(?!reps?$)\p{L}.*$/iu,
    meant: ([, most = ""]) => one("for every movement", `rule set at most ${most} reps`),
  },
  {
    under: "any",
    typed: /^(?:cal|calories)\s+(\p{L}.*?)\s+(unbroken|cycle|in\s+\S+(?:\s+min)?)\s+(.*?)\s*(reps|s|cal)$/iu,
    meant: ([, movement = "", measure = "", cells = "", unit = ""]) =>
      one("calories are what is counted", `${movement} ${measure} ${cells} ${unit === "reps" ? "cal" : unit}`),
  },
  {
    under: "any",
    typed: /^(?:rule\s+)?sets?\s+(?:of\s+|between\s+)?(\d+)\s*(?:to|and|-|–)\s*(\d+)(?:\s+reps?)?$/iu,
    meant: ([, least = "", most = ""]) =>
      one(`sets of ${least} to ${most}`, `rule set at least ${least} reps`, `rule set at most ${most} reps`),
  },
  {
    under: "any",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:(?:nobody|no\s*one|no\s+athlete)\s+(?:may\s+)?holds?\s+(?:for\s+)?(?:longer|more)\s+than|no\s+holds?\s+(?:longer|over|above)(?:\s+than)?|holds?\s+(?:of\s+)?(?:at\s+most|up\s+to|no\s+longer\s+than))\s+(${time})$`,
      "iu",
    ),
    meant: ([, most = ""]) => line(`rule hold turn at most ${inSeconds(most)}`),
  },
  {
    under: "any",
    typed:
      /^(?:rule\s+)?(?:everyone|everybody|(?:each|every)(?:\s+athlete)?|all(?:\s+(?:four|of\s+them|athletes))?)\s+(?:must\s+|has\s+to\s+|have\s+to\s+)?holds?(?:\s+(?:at\s+least\s+)?once)?$/iu,
    meant: ([all = ""]) => known(all, "rule everyone holds"),
  },
  {
    under: "any",
    typed: /^(?!(?:cue|note|standard)\s)(.*\d),(\d+)(\s*(?:s|sec|min|h|kg|lb|m|%)(?:\s.*)?)$/iu,
    meant: ([, before = "", after = "", rest = ""]) => {
      const number = /\S*$/.exec(before)?.[0] ?? "";
      const decimal = one(`write ${number}.${after}`, `${before}.${after}${rest}`);
      // Three digits behind the comma may be thousands.
      return after.length === 3 ? [...decimal, ...one(`write ${number}${after}`, `${before}${after}${rest}`)] : decimal;
    },
  },
  {
    under: "any",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?!(?:women|men|everyone|all|pairs?|nobody)\s)(${name}(?:(?:\s*[,&]\s*|\s+and\s+)${name})*)\s+(?:never\s+(?:on\s+(?:the\s+)?hold|hold)|(?:does\s+not|doesn['’]t|can['’]t|cannot|can\s+not|may\s+not|must\s+not|won['’]t)\s+hold(?:\s+(?:the\s+)?\p{L}+)?|not\s+on\s+the\s+hold)$`,
      "iu",
    ),
    meant: ([, who = ""]) => {
      const each = who.split(/\s*[,&]\s*|\s+and\s+/iu).map((athlete) => `rule ${athlete} never holds`);
      return one(each.length === 1 ? `write ${each[0]}` : `${each.length} lines`, ...each);
    },
  },
];

/** `1_000` and `1e3` in the digits that the language reads, without an exponent. */
function inDigits(number: string): string {
  const amount = Number(number.replaceAll("_", ""));
  return Number.isInteger(amount) ? BigInt(amount).toString() : amount.toFixed(20).replace(/0+$/, "");
}
