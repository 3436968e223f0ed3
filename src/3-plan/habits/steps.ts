import { inParts, cast, type Habit, inSeconds, type Intended, line, mostWrittenOut, name, numberOf, numeral, one, time } from "./habit.js";

/** What stands between two turns on one line. */
const between = String.raw`\s*(?:,\s*then\s+|,\s*|;\s*|/\s*|\s+then\s+|\s+and\s+)`;
const how = /\b(each|in sync|sync(?:hro(?:ni[sz]ed)?)?|together|shared|apiece)\b/;

/** Turns, rests and repeats of a plan. The first that fits counts. */
export const stepHabits: readonly Habit[] = [
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?:(${time})\s+rest|REST\s+(${time}))$`, "iu"),
    meant: ([all = "", before, after = ""]) => (/^[Rr]est/.test(all) ? [] : line(`rest ${inSeconds((before ?? after).toLowerCase())}`)),
  },
  {
    under: "steps",
    typed: /^rest\s+(\d+)\s*m(?:in)?\s*(\d+)\s*s(?:ec)?$/iu,
    meant: ([, minutes = "", seconds = ""]) => line(`rest ${minutes}:${seconds.padStart(2, "0")}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${time})\s+rest\s+for\s+(${name})$`, "iu"),
    meant: ([, seconds = "", who = ""]) => line(`${who} rest ${inSeconds(seconds)}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(\d+)\s+(?:(${name}(?:\s${name})*)\s+)?(?:by|for)\s+(${name})$`, "iu"),
    meant: ([, reps = "", movement, who = ""]) => line(`${who} ${reps}${movement ? ` ${movement}` : ""}`),
  },
  { under: "steps", typed: /^repeat\s*[x×]\s*(\d+)\s*:?$/iu, meant: ([, times = ""]) => line(`repeat ${times}`) },
  { under: "steps", typed: /^[x×]\s*(\d+)\s*:?$/iu, meant: ([, times = ""]) => line(`repeat ${times}`) },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(${cast})\s+(?:(${numeral}|\d+)\s+sets?\s+of|(\d+)\s*[x×])\s*(\d+)\s*,?\s+(?:with\s+)?rest\s+(${time})$`,
      "iu",
    ),
    meant: ([, who = "", many, times = "", reps = "", seconds = ""]) =>
      inParts(
        who,
        Array.from({ length: Math.min(mostWrittenOut, Number(numberOf(many ?? times))) }, () => Number(reps)),
        seconds,
      ),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?!.*\sas\s)(${cast}\s+\d.*?)(?:\s*[,;]|\s+then|\s+and)?\s+(?:then\s+)?rest\s+(${time})$`, "iu"),
    meant: ([, turn = "", seconds = ""]) => one("two lines", turn, `rest ${inSeconds(seconds)}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name})\s+holds?\s*(?:,|while)\s+(${cast}\s+(?:\d.*|round))$`, "u"),
    meant: ([, holder = "", turn = ""]) => line(`${turn} while ${holder} hold`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?:rest\s+(${time})\s+(?:between|after|in\s+between)\s.*|(${time})\s+off)$`, "iu"),
    meant: ([, before, after = ""]) => line(`rest ${inSeconds(before ?? after)}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast}\s+\d+)\s+(?:unbroken|in\s+(?:a|one)\s+(?:row|set|go))$`, "iu"),
    meant: ([, turn = ""]) => line(turn),
  },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(${name})\s+(?:max(?:imum)?(?:\s+(?:reps?|set))?|as\s+many\s+as\s+possible|to\s+failure|all\s+out)$`,
      "iu",
    ),
    meant: ([, who = ""]) => one("the whole of a best set, by the tests", `${who} 100 % unbroken`),
  },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(${name})\s+(?:(\d+)\s*per\s*cent|(half)(?:\s+(?:of\s+)?(?:a\s+|the\s+|her\s+|his\s+|their\s+)?(?:best|max))?)$`,
      "iu",
    ),
    meant: ([, who = "", part]) => line(`${who} ${part ?? "50"} % unbroken`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+(?:\s*\+\s*\d+)+)$`, "u"),
    meant: ([, who = "", sets = ""], { twoOf }) => {
      const sizes = sets.split(/\s*\+\s*/);
      const [first, second] = twoOf(who);
      const apart = first && second && sizes.length === 2 ? one("a number for each", `${first} ${sizes[0]} + ${second} ${sizes[1]}`) : [];
      return [...apart, ...inParts(who, sizes.map(Number), "5")];
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s+(?:in|as)\s+(${numeral}|\d+)\s+(?:sets?|parts?)$`, "iu"),
    meant: ([, who = "", reps = "", many = ""]) => {
      const parts = Math.min(Number(reps), Number(numberOf(many)), mostWrittenOut);
      const each = Array.from({ length: parts }, (_, at) => Math.floor(Number(reps) / parts) + (at < Number(reps) % parts ? 1 : 0));
      return inParts(who, each, "5");
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(${numeral}|\d+)\s+sets?\s+of\s+(\d+)$`, "iu"),
    meant: ([, who = "", many = "", reps = ""]) =>
      one(`repeat ${numberOf(many)}, ${reps} at a time`, `repeat ${numberOf(many)}`, `  ${who} ${reps}`),
  },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(${name})\s+(?:and|&|,)\s+(${name})\s+(?:alternate|take\s+turns|in\s+turns?)(?:\s+(?:every\s+|with\s+|at\s+)?(\d+|rounds?))?$`,
      "iu",
    ),
    meant: ([, first = "", second = "", size = "round"], { pairs }) => inTurns(first, second, size, pairs),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name})\s+alternates?\s+(?:(\d+|rounds?)\s+)?with\s+(${name})$`, "iu"),
    meant: ([, first = "", size = "round", second = ""], { pairs }) => inTurns(first, second, size, pairs),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?!repeat\b)(${cast})\s+(\d.*?|round)\s+when\s+ready$`, "iu"),
    meant: ([, who = "", size = ""]) => one("a rest, then the turn", `${who} rest until ready`, `${who} ${size}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+waits?\s+(?:for\s+)?(${time})$`, "iu"),
    meant: ([, who = "", seconds = ""]) => line(`${who} rest ${inSeconds(seconds)}`),
  },
  {
    under: "steps",
    typed: /^(?:the\s+)?(girls|ladies|females|gals|boys|guys|males|lads)\s+(\d.*|round)$/iu,
    meant: ([, group = "", rest = ""]) => line(`${/^[glf]/i.test(group) && !/^(?:guys|lads)$/i.test(group) ? "women" : "men"} ${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name}(?:(?:\s*(?:,|&|/)\s*|\s+and\s+)${name})+)\s+(\d.*|rest\s.*)$`, "u"),
    meant: ([, names = "", rest = ""]) =>
      line(`${names.split(/\s*(?:,|&|\/)\s*|\s+and\s+/).join(" + ")} ${rest}${how.test(rest) || /\brest\b/.test(rest) ? "" : " each"}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^${cast}\s+\d.*?(?:${between}${cast}\s+\d.*)+$`, "u"),
    meant: ([all = ""]) => {
      const turns = all.split(new RegExp(String.raw`${between}(?=${cast}\s+\d)`, "u"));
      return one(turns.length === 2 ? "two lines" : `${turns.length} lines`, ...turns);
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+(\d+)\s*[x×]\s*(\d+)(.*)$`, "iu"),
    meant: ([, who = "", times = "", reps = "", rest = ""]) =>
      one(`repeat ${times}, ${reps} at a time`, `repeat ${times}`, `  ${who} ${reps}${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(?!repeat\s)(${cast})\s+[x×]\s*(\d+)$`, "u"),
    meant: ([, who = "", times = ""]) => [
      ...one(`repeat ${times}, one rep at a time`, `repeat ${times}`, `  ${who} 1`),
      ...line(`${who} ${times}`),
    ],
  },
  {
    under: "steps",
    typed: /^(Everyone|All|Women|Men|everybody|Everybody)\s+(\d.*)$/u,
    meant: ([, group = "", rest = ""]) => line(`${/body/.test(group) ? "everyone" : group.toLowerCase()} ${rest}`),
  },
  { under: "steps", typed: /^(?:for\s+)?(\d+)\s+(?:rounds?|times|sets?|x)\s*:?$/iu, meant: ([, times = ""]) => line(`repeat ${times}`) },
  { under: "steps", typed: /^repeat\s+(\d+)\s*(?:times|x|rounds?|sets?|:)+$/iu, meant: ([, times = ""]) => line(`repeat ${times}`) },
  {
    under: "steps",
    typed: /^(?:switch|alternate|change)\s+(?:every\s+)?(\d+)(?:\s+reps?)?$/u,
    meant: ([, reps = ""], { casts, pairs }) => {
      const [first = "women", second = "men"] = casts.length > 1 ? casts : [];
      const each = (cast: string): string => (pairs.includes(cast) || casts.length < 2 ? " each" : "");
      return one(
        `${first} and ${second} in turn, ${reps} at a time`,
        "repeat",
        `  ${first} ${reps}${each(first)}`,
        `  ${second} ${reps}${each(second)}`,
      );
    },
  },
  {
    under: "steps",
    typed: /^(?:reps\s+)?(\d+)(?:\s+reps?)?((?:\s+(?:each|shared))?)$/u,
    meant: ([, reps = "", rest = ""], { casts, pairs }) =>
      (casts.length > 0 ? casts : ["everyone", "women", "men"]).map((cast) => ({
        title: `${cast} ${reps}`,
        lines: [`${cast} ${reps}${casts.length === 0 || pairs.includes(cast) ? rest : ""}`],
      })),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${cast})\s+rests?\s+(?:for\s+)?(?<=rests\s|for\s)(.*)$`, "u"),
    meant: ([, who = "", rest = ""]) => line(`${who} rest ${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name}):\s*(\d.*)$`, "u"),
    meant: ([, who = "", rest = ""]) => line(`${who} ${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(
      String.raw`^(${cast}\s+\d+.*?),?\s+(?:\(\s*(${name})\s+holds?\s*\)|while\s+(${name})\s+(?:is\s+)?holding|(?:while\s+)?(${name})\s+holds)$`,
      "u",
    ),
    meant: ([, turn = "", one, other, third = ""]) => line(`${turn} while ${one ?? other ?? third} hold`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name})\s+(\d+)\s*%$`, "u"),
    meant: ([, who = "", part = ""]) => line(`${who} ${part} % unbroken`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name})\s+(\d+(?:\s*[,/]\s*\d+)+)$`, "u"),
    meant: ([, who = "", sizes = ""], { pairs }) => {
      const each = sizes.split(/\s*[,/]\s*/);
      // `A 5/5` is a number for each of a pair.
      const ofPair = pairs.includes(who) && sizes.includes("/");
      return !ofPair ? line(`${who} ${each.join("-")}`) : new Set(each).size === 1 ? line(`${who} ${each[0]} each`) : [];
    },
  },
  {
    under: "steps",
    typed: /^repeat\s+(?:(?:to|until)\s+the\s+end|until\s+(?:done|finished|the\s+cap)|for\s*ever)$/iu,
    meant: () => line("repeat"),
  },
  { under: "steps", typed: new RegExp(String.raw`^then\s+(${name}\s.*)$`, "iu"), meant: ([, turn = ""]) => line(turn) },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(\d+)\s+(${name})\s*\+\s*(\d+)\s+(${name})$`, "u"),
    meant: ([, one = "", first = "", other = "", second = ""]) => line(`${first} ${one} + ${second} ${other}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(\d+)\s*(?:(\p{L}[^\d+]*?)\s+)?(\p{Lu}${name.slice(name.indexOf("]") + 1)})$`, "u"),
    meant: ([, reps = "", movement = "", who = ""]) => line(`${who} ${reps}${movement === "" ? "" : ` ${movement.toLowerCase()}`}`),
  },
  {
    under: "steps",
    typed: /^(.+?)\s+while\s+(.+?)\s+hold$/iu,
    meant: ([all = "", turn = "", who = ""]) => (/\swhile\s.*\shold$/.test(all) ? [] : line(`${turn} while ${who} hold`)),
  },
];

/** Two who take turns, by reps or by rounds. */
function inTurns(first: string, second: string, size: string, pairs: readonly string[]): readonly Intended[] {
  const turn = (who: string): string => `  ${who} ${/^r/i.test(size) ? "round" : `${size}${pairs.includes(who) ? " each" : ""}`}`;
  return one(`${first} and ${second} in turn`, "repeat", turn(first), turn(second));
}
