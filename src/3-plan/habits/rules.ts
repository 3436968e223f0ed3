import { guess, type Habit, inSeconds, known, line, numberOf, numeral, one, time } from "./habit.js";

/** What a dropped hold costs: in words where the unit comes first, and where it comes last. */
const cost = String.raw`(\d+)\s*(?:-?\s*(s(?:ec(?:onds?)?)?|reps?))?`;

/** Who works when, limits, and what is lost. The first that fits counts. */
export const ruleHabits: readonly Habit[] = [
  { under: "event", typed: /^rule\s*:\s*(\S.*)$/iu, meant: ([, rest = ""]) => line(`rule ${rest}`) },
  {
    under: "event",
    typed: /^(?!rule\s.*%)(?:rule\s+)?((?:hold\s+)?share\s+within)\s+(\d+)(?:\s*%)?$/iu,
    meant: ([, what = "", part = ""]) => line(`rule ${what.toLowerCase()} ${part} %`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:(?:at\s+most|no\s+more\s+than|never\s+more\s+than|max(?:imum)?(?:\s+of)?)\s+(\d+)(?:\s+reps?)?\s+(?:per|a|each|in\s+(?:a|one))\s+(?:set|turn|go|row)|no\s+sets?\s+(?:over|above|(?:of\s+)?more\s+than|longer\s+than)\s+(\d+)(?:\s+reps?)?)$/iu,
    meant: ([, most, other = ""]) => line(`rule set at most ${most ?? other} reps`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:nobody|no\s+one|no\s+athlete)\s+(?:may\s+|can\s+)?works?\s+(?:for\s+)?(?:more|longer)\s+than\s+(${time})(?:\s+at\s+a\s+time)?$`,
      "iu",
    ),
    meant: ([, most = ""]) => line(`rule turn at most ${inSeconds(most)}`),
  },
  {
    under: "event",
    typed:
      /^(?:the\s+)?(women|men)\s+(?:must\s+)?(?:do|does)\s+(?:at\s+least|min(?:imum)?)\s+(\d+)\s*%(?:\s+of\s+(?:the\s+)?(?:work|reps))?$/iu,
    meant: ([, who = "", part = ""]) => line(`rule share ${who.toLowerCase()} at least ${part} %`),
  },
  {
    under: "event",
    typed: /^(athletes|pairs)\s+alternate\s+(?:by\s+|each\s+|every\s+|after\s+(?:each\s+|every\s+|a\s+))?rounds?(?:\s+by\s+round)?$/iu,
    meant: ([, who = ""]) => line(`${who.toLowerCase()} alternate`),
  },
  {
    under: "event",
    typed: /^(?:a\s+)?shared\s+(?!(?:equally|evenly|work|reps|between|among|by)\b)(\p{L}.*)$/iu,
    meant: ([, thing = ""]) => line(`one ${thing}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:rule\s+)?(?:max(?:imum)?\s+hold(?:\s+turn)?|hold\s+turn\s+max(?:imum)?)\s+(${time})$`, "iu"),
    meant: ([, most = ""]) => line(`rule hold turn at most ${inSeconds(most)}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:rule\s+)?(?:turns?\s+(?:at\s+most|max(?:imum)?|up\s+to)|max(?:imum)?\s+turn)\s+(${time})$`, "iu"),
    meant: ([all = "", most = ""]) => known(all, `rule turn at most ${inSeconds(most)}`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:rule\s+(?:rest|min(?:imum)?\s+rest)|min(?:imum)?\s+rest|rest\s+at\s+least)\s+(?:of\s+)?(${time})(?:\s+between\s+sets)?$`,
      "iu",
    ),
    meant: ([, least = ""]) => line(`rule rest at least ${inSeconds(least)} between sets`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:rule\s+)?tempo\s+gap\s+(?:max(?:imum)?\s+|under\s+)?(${time})$`, "iu"),
    meant: ([, most = ""]) => line(`rule tempo gap at most ${inSeconds(most)}`),
  },
  { under: "event", typed: /^drop\s+costs\s+(\d+)$/iu, meant: ([, reps = ""]) => line(`drop costs ${reps} reps`) },
  {
    under: "event",
    typed: /^(?:one|1)\s+(\p{L}.*?)\s+(?:per|for\s+(?:the|each)|a)\s+team$/iu,
    meant: ([, thing = ""]) => line(`one ${thing}`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:(?:exactly|always|just)\s+(${numeral}|\d+)(?:\s+(pairs?))?(?:\s+(?:athletes?|people))?\s+(?:must\s+)?(?:works?|working|moves?|at\s+(?:a\s+time|once))|working:?\s+(?:exactly\s+)?(${numeral}|\d+)(?:\s+(pairs?))?(?:\s+at\s+(?:a\s+time|once))?)$`,
      "iu",
    ),
    meant: ([, many, pairs, other = "", others]) => line(`working at most ${numberOf(many ?? other)}${(pairs ?? others) ? " pair" : ""}`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:each|every)\s+(?:athlete|person|one)?\s*(?:(?:must\s+)?(?:does|do|has|needs))?\s*(?:at\s+least|min(?:imum)?)\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([all = "", reps = ""]) => known(all, `rule each at least ${reps} reps`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:a\s+)?(?:penalty:?\s+(?:of\s+)?(?:${cost})|(?:${cost})(?:\s+penalty)?)\s+(?:per|for(?:\s+(?:a|each|every))?|if|when|each)\s+(?:.*\s)?drop(?:s|ped)?(?:\s.*)?$`,
      "iu",
    ),
    meant: ([, after, unit = "", before = "", ofBefore = ""]) =>
      line(`drop costs ${after ?? before} ${/^s/i.test(unit + ofBefore) ? "s" : "reps"}`),
  },
  {
    under: "event",
    typed: /^(athletes?|pairs?)\s+(?:must\s+)?(?:switch(?:es)?|changes?|swap)\s+(?:after\s+)?every\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([, who = "", reps = ""]) => line(`${/^a/i.test(who) ? "athletes" : "pairs"} alternate every ${reps} reps`),
  },
  {
    under: "event",
    typed:
      /^(?:(?:the\s+)?same\s+order(?:\s+(?:throughout|always|(?:in\s+)?(?:every|each|all)\s+(?:the\s+)?rounds?|all\s+the\s+way))?|fixed\s+order)$/iu,
    meant: () => line("order fixed"),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:at\s+least|min(?:imum)?(?:\s+of)?)\s+(\d+)(?:\s+reps?)?\s+before\s+(?:a\s+|any\s+|the\s+|you\s+)?(?:switch(?:ing)?|chang(?:e|ing)|hands\s+change|swap(?:ping)?)$/iu,
    meant: ([all = "", reps = ""]) => known(all, `rule at least ${reps} reps before a change`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(${numeral})\s+(?!pairs|women|men|athletes|rounds|stages|stations|lanes)\p{L}+s(?:\s+for\s.*)?$`, "iu"),
    meant: ([, many = ""]) => (numberOf(many) === "1" ? [] : one(`at most ${numberOf(many)} at once`, `working at most ${numberOf(many)}`)),
  },
  {
    under: "event",
    typed: /^(?:(?:a|each|every|any)\s+)?drop(?:s|ped\s+hold)?\s+costs?:?\s+(\d.*)$/iu,
    meant: ([all = "", cost = ""]) => (all.startsWith("drop costs ") ? [] : line(`drop costs ${cost}`)),
  },
  {
    under: "event",
    typed:
      /^tie(?:[\s-]?break(?:er)?)?:?\s+(?:time\s+)?(?:(?:of|by|at|after|when|is)\s+)?(?:the\s+)?(?:end\s+of\s+)?(?:stage\s+)?(\p{L}.*)$/iu,
    meant: ([all = "", stage = ""]) => (/^tie time of /.test(all) ? [] : line(`tie time of stage ${stage}`)),
  },
  {
    under: "event",
    typed: /^order:?\s+(?!(?:wom[ae]n|m[ae]n|strongest|weakest|fastest)\b)(\p{L}.*)$/iu,
    meant: ([all = "", names = ""]) => {
      const each = names.split(/\s*(?:,|>|→|\bthen\b|\band\b)\s*|\s+/u).filter((one) => one !== "");
      const meant = /^fixed$/i.test(names) ? "order fixed" : `order ${each.join(", ")}`;
      return known(all, meant);
    },
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(stage\s.*\s|\d.*\s)while\s+(${numeral}|\d+(?=\s+(?:of|athletes?|people|partners?)\s))(?:\s+(?:of\s+them|athletes?|people|partners?))?\s+holds?(?:\s+(?:the|a|an))?(\s.*)$`,
      "iu",
    ),
    meant: ([, work = "", many = "", hold = ""]) => line(`${work}while ${numberOf(many)} hold${hold}`),
  },
  {
    under: "event",
    typed:
      /^((?:stage\s.*\s|\d.*\s)while\s+)(?:the|a|one|their|your)\s+(?:other\s+)?(?:partner|teammate|team-mate|athlete|person|one|other)\s+holds?(?:\s+(?:the|a|an))?(\s.*)$/iu,
    meant: ([, work = "", hold = ""]) => line(`${work}1 hold${hold}`),
  },
  {
    under: "event",
    typed: /^((?:stage\s.*\s|\d.*\s)while\s+\d+\s+hold)\s+(?:the|a|an)(\s.*)$/iu,
    meant: ([, work = "", hold = ""]) => line(`${work}${hold}`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:working\s+at\s+most|(?:only\s+|at\s+most\s+|max(?:imum)?\s+)?(?=(?:${numeral}|\d+)\s+(?:athletes?\s+|people\s+|pairs?\s+)?(?:works?|working|moves?|at\s+(?:a|one)\s+time|at\s+once)))\s*(${numeral}|\d+)\s*(pairs?)?(?:\s*(?:athletes?|people))?(?:\s+(?:works?|working|moves?))?(?:\s+at\s+(?:a\s+time|one\s+time|once|the\s+same\s+time))?$`,
      "iu",
    ),
    meant: ([all = "", many = "", pairs]) =>
      /^working at most \d+( pairs?)?$/.test(all) ? [] : line(`working at most ${numberOf(many)}${pairs ? " pair" : ""}`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:(?:max(?:imum)?|at\s+most)\s+(${time})\s+(?:per|a)\s+hold|hold(?:\s+turns?)?\s+(?:at\s+most|max(?:imum)?)\s+(${time}))$`,
      "iu",
    ),
    meant: ([all = "", before, after = ""]) => known(all, `rule hold turn at most ${inSeconds(before ?? after)}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^transitions?:?\s+(${time})$`, "iu"),
    meant: ([, lasts = ""]) => line(`handover ${inSeconds(lasts)}`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:partners\s+(?:must\s+|have\s+to\s+)?(?:alternate|take\s+turns)(?:\s+(?:each|every)\s+round|\s+round\s+by\s+round)?|(?:you|i)\s+go,?\s+(?:you|i)\s+go)$/iu,
    meant: () => [...line("pairs alternate"), ...line("athletes alternate")],
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:(?:the\s+)?(?:holders?|holds?)\s+(?:must\s+|has\s+to\s+|have\s+to\s+)?(?:changes?|switch(?:es)?|swaps?)|(?!\b(?:athletes?|pairs?)\b)\p{L}[\p{L}\s]*?\s+(?:must\s+)?changes?\s+hands)\s+every\s+(${time})$`,
      "iu",
    ),
    meant: ([, most = ""]) => line(`rule hold turn at most ${inSeconds(most)}`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:(?:min(?:imum)?(?:\s+of)?|at\s+least)\s+(\d+)(?:\s+reps?)?\s+(?:per|a|each|in\s+a)\s+turn|turns?\s+(?:of\s+)?at\s+least\s+(\d+)(?:\s+reps?)?)$/iu,
    meant: ([, before, after = ""]) => line(`rule at least ${before ?? after} reps before a change`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:rule\s+)?at\s+least\s+(${time})(?:\s+of)?\s+rest(?:\s+between\s+sets)?$`, "iu"),
    meant: ([, least = ""]) => line(`rule rest at least ${inSeconds(least)} between sets`),
  },
  {
    under: "event",
    typed: /^rule\s+(working\s+at\s+most\s+\d+(?:\s+pairs?)?)$/iu,
    meant: ([, working = ""]) => line(working.toLowerCase()),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(?:only\s+|at\s+most\s+|max(?:imum)?\s+)?(${numeral}|\d+)\s+(?:(pairs?)|athletes?|people|partners?)?\s*(?:may|can|must|is|are|be)?\s*(?:allowed\s+to\s+)?(?:work(?:ing)?|move|moving)(?:\s+at\s+(?:a\s+time|any\s+(?:one\s+|given\s+)?time|the\s+same\s+time|once))?$`,
      "iu",
    ),
    meant: ([, many = "", pairs]) => line(`working at most ${numberOf(many)}${pairs ? " pair" : ""}`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:equal\s+shares?|shares?\s+(?:must\s+be\s+)?equal(?:ly)?|(?:work|reps)\s+(?:must\s+be\s+)?(?:shared|split)\s+equally)$/iu,
    meant: () => guess(one("10 % either way", "rule share within 10 %")),
  },
  {
    under: "event",
    typed:
      /^(?:pairs\s+(?:must\s+be\s+|are\s+|have\s+to\s+be\s+)mixed|(?:male[\s/-]+female|mixed[\s-]+(?:sex|gender))\s+pairs(?:\s+only)?)$/iu,
    meant: () => line("pairs mixed"),
  },
  {
    under: "event",
    typed: /^no(?:body|\s+athlete)\s+(?:works\s+)?twice\s+(?:in\s+a\s+row|running)$/iu,
    meant: () => line("athletes alternate"),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:(?:everyone|everybody)\s+(?:does\s+|do\s+|has\s+|needs\s+)?(?:at\s+least|min(?:imum)?)\s+(\d+)(?:\s+reps?)?|(?:at\s+least|min(?:imum)?)\s+(\d+)(?:\s+reps?)?\s+(?:each|per\s+(?:athlete|person)|by\s+(?:each|everyone)))$/iu,
    meant: ([, reps, each = ""]) => line(`rule each at least ${reps ?? each} reps`),
  },
  {
    under: "event",
    typed:
      /^(?!rule\s+change\s+every\s)(?:rule\s+)?(?:partners?\s+|they\s+|hands\s+)?(?:must\s+)?(?:switch|change|swap)\s+(?:(?:after\s+)?every|after)\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([, reps = ""]) => line(`rule change every ${reps} reps`),
  },
  {
    under: "event",
    typed: /^(?:only|just)\s+(?:one|1|a)\s+(\p{L}.*)$/iu,
    meant: ([, equipment = ""]) => line(`one ${equipment}`),
  },
  {
    under: "event",
    typed:
      /^(?:rule\s+)?(?:everyone|everybody|all(?:\s+four|\s+of\s+them)?)\s+(?:(?:must|has\s+to|have\s+to)\s+)?works?(\s+in\s+(?:every|each)\s+stage)?$/iu,
    meant: ([all = "", where]) => known(all, `rule everyone works${where ? " in every stage" : ""}`),
  },
  {
    under: "event",
    typed: /^(each(?:\s+stage)?\s+at\s+least\s+.*|(?:set\s+)?at\s+least\s+\d+(?:\s+reps?)?(?:\s+before\s+a\s+change)?)$/iu,
    meant: ([all = ""]) => line(`rule ${all.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^change\s+only\s+between\s+sets$/iu,
    meant: ([all = ""]) => one("a note: here hands change only between turns", `> ${all}`),
  },
];
