import { inParts, cast, guess, type Habit, inSeconds, known, line, mostWrittenOut, name, numberOf, numeral, one, time } from "./habit.js";

/** How a turn, a rest or a repeat of a plan is put in other words. The first that fits counts. */
export const turnHabits: readonly Habit[] = [
  { under: "steps", typed: /^(?:[-–*•]|\d{1,2}[.)])\s+(\S.*)$/u, meant: ([, rest = ""]) => line(rest) },
  { under: "steps", typed: /^(.*[\p{L}\d])[.;,]$/u, meant: ([, rest = ""]) => line(rest) },
  { under: "steps", typed: /^(.*\S)\s+#\s*(\S.*)$/u, meant: ([, turn = "", said = ""]) => line(`${turn} // ${said}`) },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(?:does|do|takes?|goes|gets?|[-–—:])\s+(\d.*)$`, "iu"),
    meant: ([, who = "", rest = ""]) => line(`${who} ${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(?!rest\s|repeat\s|lane\s|pair\s|stage\s|window\s|round\s)(${cast})\s+(${numeral.replace("|both", "")})((?:\s.*)?)$`,
      "iu",
    ),
    meant: ([, who = "", many = "", rest = ""]) => line(`${who} ${numberOf(many)}${rest}`),
  },
  {
    under: "steps",
    typed: /^(\p{Lu}\S*\s+\d+)((?:\s+\p{Lu}\S*\s+\d+)+)$/u,
    meant: ([, first = "", others = ""]) => {
      const turns = [first, ...(others.match(/\p{Lu}\S*\s+\d+/gu) ?? [])];
      return one(`${turns.length} lines`, ...turns);
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+(?:total|in\s+total|split|between\s+them|altogether)$`, "iu"),
    meant: ([, who = "", reps = ""]) => line(`${who} ${reps} shared`),
  },
  {
    under: "steps",
    typed: /^the\s+(women|men)\s+(\d.*|round)$/iu,
    meant: ([, who = "", rest = ""]) => line(`${who.toLowerCase()} ${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s*%\s+(?:of\s+)?(?:the\s+|her\s+|his\s+)?(?:max(?:imum)?|best)$`, "iu"),
    meant: ([, who = "", part = ""]) => line(`${who} ${part} % unbroken`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast}\s+\d.*?)(?:(?<!\sin)\s+sync|\s+(?:in\s+)?synchro(?:ni[sz]ed)?)$`, "iu"),
    meant: ([, turn = ""]) => line(`${turn} in sync`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast}\s+.*?)\s+while\s+(${name}(?:(?:\s*,\s*|\s*&\s*|\s+and\s+)${name})+)\s+holds?$`, "iu"),
    meant: ([, turn = "", who = ""]) => line(`${turn} while ${who.split(/\s*[,&]\s*|\s+and\s+/i).join(" + ")} hold`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast}\s+\d.*?),?\s+with\s+(${cast})\s+(?:holding|on\s+(?:the\s+)?\p{L}+)$`, "iu"),
    meant: ([, turn = "", who = ""]) => line(`${turn} while ${who} hold`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast}\s+\d.*?)\s+(?:apiece|a\s+piece|each\s+of\s+them)$`, "iu"),
    meant: ([, turn = ""]) => line(`${turn} each`),
  },
  {
    under: "steps",
    typed:
      /^(.*\d.*?|.*\sround)\s+while\s+(?:(?:the|her|his|their|a|one)\s+)?(?:(?:other\s+)?(?:partners?|pair|two|one)|someone|somebody|others?)\s+(?:is\s+|are\s+)?hold(?:s|ing)?$/iu,
    meant: ([all = "", turn = ""]) => known(all, `${turn} while others hold`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+(?:\s+\d+)+)$`, "u"),
    meant: ([, who = "", sizes = ""]) => line(`${who} ${sizes.split(/\s+/).join("-")}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+(?:down\s+)?to\s+(\d+)$`, "iu"),
    meant: ([, who = "", from = "", to = ""]) => {
      const [first, last] = [Number(from), Number(to)];
      const many = Math.abs(first - last) + 1;
      const steps = Array.from({ length: Math.min(many, mostWrittenOut) }, (_, at) => first + at * Math.sign(last - first));
      return many < 2 || many > mostWrittenOut ? [] : line(`${who} ${steps.join("-")}`);
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+as\s+(\d+)\s*[x×]\s*(\d+)((?:\s+rest\s.*)?)$`, "iu"),
    meant: ([, who = "", reps = "", times = "", each = "", rest = ""]) =>
      Number(times) * Number(each) === Number(reps) && Number(times) <= mostWrittenOut
        ? line(`${who} ${reps} as ${Array.from({ length: Number(times) }, () => each).join("+")}${rest || " rest 5 s"}`)
        : [],
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+as\s+(\d+(?:\s*[-,/]\s*\d+)+)((?:\s+rest\s.*)?)$`, "iu"),
    meant: ([, who = "", reps = "", parts = "", rest = ""]) =>
      line(`${who} ${reps} as ${parts.split(/\s*[-,/]\s*/).join("+")}${rest || " rest 5 s"}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+in\s+(?:sets\s+of\s+)?(\d+)s?$`, "iu"),
    meant: ([, who = "", reps = "", each = ""]) => {
      const [all, part] = [Number(reps), Math.max(1, Number(each))];
      const parts = [
        ...Array.from({ length: Math.min(mostWrittenOut, Math.floor(all / part)) }, () => part),
        ...(all % part > 0 ? [all % part] : []),
      ];
      return parts.length > mostWrittenOut ? [] : inParts(who, parts, "5");
    },
  },
  { under: "steps", typed: /^rest\s+(?:for\s+)?(\d+)$/iu, meant: ([, seconds = ""]) => line(`rest ${seconds} s`) },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?:rest\s+for|pause|wait|break|breathe)(?:\s+(?:for|of))?\s+(${time})$`, "iu"),
    meant: ([, seconds = ""]) => line(`rest ${inSeconds(seconds)}`),
  },
  { under: "steps", typed: /^rest\s+(?:as\s+(?:needed|required)|if\s+needed|when\s+needed)$/iu, meant: () => line("rest until ready") },
  { under: "steps", typed: /^until\s+(\d+:\d\d)$/iu, meant: ([, atS = ""]) => line(`repeat until ${atS}`) },
  {
    under: "steps",
    typed: /^pair\s+(\S+?)\s*[:=]?\s+(\p{L}\S*)\s*(?:\+|&|,|\band\b|\s)\s*(\p{L}\S*)$/iu,
    meant: ([all = "", of = "", first = "", second = ""]) =>
      new RegExp(String.raw`^pair\s+[^\s:=]+\s+\S+\s*\+\s*\S+$`, "u").test(all) ? [] : line(`pair ${of} ${first} + ${second}`),
  },
  { under: "steps", typed: /^lane\s+(\d+)((?:\s+on\s.*)?)$/iu, meant: ([, of = "", on = ""]) => line(`lane "${of}"${on}`) },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)(?:\s+reps?)?\s+unbroken$`, "iu"),
    meant: ([, who = "", reps = ""]) => line(`${who} ${reps}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+broken\s+(?:in(?:to)?\s+)?(\d+(?:\s*[/+-]\s*\d+)+)$`, "iu"),
    meant: ([, who = "", reps = "", parts = ""]) => line(`${who} ${reps} as ${parts.split(/\s*[/+-]\s*/).join("+")}`),
  },
  {
    under: "steps",
    typed: /^(?:(?:short|quick|long)\s+)?(?:break|breather|rest|pause)$/iu,
    meant: () => guess(line("rest 10 s")),
  },
];
