import { numberWords } from "../0-base/quantity.js";
import { nearest } from "../0-base/nearest.js";
import type { Category } from "./parts.js";
import { categoryOf } from "./event.js";

/** A way to write what was meant: one line or several, without indentation; inner lines by two spaces. */
export interface Intended {
  readonly title: string;
  readonly lines: readonly string[];
}

/** A line as it was typed, and what of its block it may mean. */
export interface Typed {
  readonly text: string;
  /** Casts that the block names: its pairs, else its athletes. */
  readonly casts: readonly string[];
  readonly pairs: readonly string[];
  readonly inRound: boolean;
}

/** What people type under some lines, and what they mean by it. */
export interface Habit {
  readonly under: "steps" | "event" | "team" | "any";
  readonly typed: RegExp;
  readonly meant: (match: readonly string[], typed: Typed) => readonly Intended[];
}

const name = String.raw`[\p{L}_][\p{L}\p{N}_'-]*`;
const time = String.raw`\d+(?:[.:]\d+)?(?:\s*(?:min|minutes?|s|sec|seconds?|h))?`;
/** What stands between two turns on one line. */
const between = String.raw`\s*(?:,\s*then\s+|,\s*|;\s*|\s+then\s+|\s+and\s+)`;
const how = /\b(each|in sync|together|shared)\b/;

const one = (title: string, ...lines: readonly string[]): readonly Intended[] => [{ title, lines }];
const line = (text: string): readonly Intended[] => one(`write ${text}`, text);
const inSeconds = (amount: string): string => (/[a-z:]/i.test(amount) ? amount : `${amount} s`);
const numeral = `(?:${numberWords.join("|")}|both)`;
const numberOf = (text: string): string =>
  /both/i.test(text) ? "2" : numberWords.includes(text.toLowerCase()) ? `${numberWords.indexOf(text.toLowerCase()) + 1}` : text;
const inMinutes = (amount: string): string => (/[a-z:]/i.test(amount) ? amount : `${amount} min`);

/** So many rounds are written out where a row goes on and on. */
const mostRising = 8;

/** `21, 15, 9` and `3, 6, 9, …` as numbers; a row that goes on does so by its last step. */
function rising(text: string): readonly number[] {
  const counts = [...text.matchAll(/\d+/g)].map(([digits]) => Number(digits));
  const step = (counts.at(-1) ?? 0) - (counts.at(-2) ?? 0);
  const open = /(…|\.\.\.|etc\.?)\s*$/u.test(text.trim());
  for (let last = counts.at(-1) ?? 0; open && step > 0 && counts.length < mostRising; counts.push(last)) last += step;
  return counts;
}

/** The first that fits counts. */
export const habits: readonly Habit[] = [
  {
    under: "any",
    typed: /^(?!(?:cue|note|standard)\s)(.*\d),(\d+)(\s*(?:s|sec|min|h|kg|lb|m|%)(?:\s.*)?)$/iu,
    meant: ([, before = "", after = "", rest = ""]) => one(`write ${/\S*$/.exec(before)?.[0] ?? ""}.${after}`, `${before}.${after}${rest}`),
  },
  {
    under: "any",
    typed: new RegExp(
      String.raw`^(?:rule\s+)?(${name})\s+(?:never\s+(?:on\s+(?:the\s+)?hold|hold)|does\s+not\s+hold|not\s+on\s+the\s+hold)$`,
      "iu",
    ),
    meant: ([, who = ""]) => line(`rule ${who} never holds`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name}(?:(?:\s*(?:,|&|/)\s*|\s+and\s+)${name})+)\s+(\d.*|rest\s.*)$`, "u"),
    meant: ([, names = "", rest = ""]) =>
      line(`${names.split(/\s*(?:,|&|\/)\s*|\s+and\s+/).join(" + ")} ${rest}${how.test(rest) || /\brest\b/.test(rest) ? "" : " each"}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^${name}(?:\s*\+\s*${name})*\s+\d.*?(?:${between}${name}(?:\s*\+\s*${name})*\s+\d.*)+$`, "u"),
    meant: ([all = ""]) => {
      const turns = all.split(new RegExp(String.raw`${between}(?=${name}(?:\s*\+\s*${name})*\s+\d)`, "u"));
      return one(turns.length === 2 ? "two lines" : `${turns.length} lines`, ...turns);
    },
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name}(?:\s*\+\s*${name})*)\s+(\d+)\s*[x×]\s*(\d+)(.*)$`, "iu"),
    meant: ([, who = "", times = "", reps = "", rest = ""]) =>
      one(`repeat ${times}, ${reps} at a time`, `repeat ${times}`, `  ${who} ${reps}${rest}`),
  },
  {
    under: "steps",
    typed: new RegExp(String.raw`^(${name}(?:\s*\+\s*${name})*)\s+[x×]\s*(\d+)$`, "u"),
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
  { under: "steps", typed: /^(\d+)\s+(?:rounds?|times|sets?|x)\s*:?$/iu, meant: ([, times = ""]) => line(`repeat ${times}`) },
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
    typed: new RegExp(String.raw`^(${name}(?:\s*\+\s*${name})*)\s+rests?\s+(?:for\s+)?(?<=rests\s|for\s)(.*)$`, "u"),
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
      String.raw`^(${name}(?:\s*\+\s*${name})*\s+\d+.*?),?\s+(?:\(\s*(${name})\s+holds?\s*\)|while\s+(${name})\s+is\s+holding|(${name})\s+holds)$`,
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
    meant: ([, who = "", sizes = ""]) => line(`${who} ${sizes.split(/\s*[,/]\s*/).join("-")}`),
  },
  { under: "steps", typed: /^repeat\s+(?:to|until)\s+the\s+end$/iu, meant: () => line("repeat") },
  { under: "steps", typed: new RegExp(String.raw`^then\s+(${name}.*)$`, "iu"), meant: ([, turn = ""]) => line(turn) },
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
    under: "event",
    typed: new RegExp(String.raw`^time\s*cap:?\s*(${time})$`, "iu"),
    meant: ([, cap = ""]) => line(`cap ${inMinutes(cap)}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:(?:amrap|(?:max|most)\s+reps)(?:\s+in)?\s+(${time})|(${time})\s+amrap)$`, "iu"),
    meant: ([, after = "", before = ""]) => {
      const cap = after || before;
      return one(`score reps, cap ${inMinutes(cap)}`, "score reps", `cap ${inMinutes(cap)}`);
    },
  },
  {
    under: "event",
    typed: /^cap:?\s+(\d+)\s*(min|minutes?)$/iu,
    meant: ([all = "", cap = ""]) => (/^[Cc]ap \d+ [a-z]+$/.test(all) ? [] : line(`cap ${cap} min`)),
  },
  {
    under: "event",
    typed: /^pairs\s+alternat(?:e|ing|ely)$/iu,
    meant: ([all = ""]) => (all === "pairs alternate" ? [] : line("pairs alternate")),
  },
  {
    under: "event",
    typed: /^stage\s+(\p{L}[^\d@]*?)\s+(\d+)\s+(cal|m|metres?|calories)$/iu,
    meant: ([, movement = "", count = "", unit = ""]) => line(`stage ${count} ${unit} ${movement}`),
  },
  {
    under: "event",
    typed:
      /^(?!\d{4}-\d\d-\d\d)(?:rounds?\s+(?:of\s+)?)?(\d+(?:\s*[-,]\s*\d+)+(?:\s*,?\s*(?:…|\.\.\.|etc\.?))?)\s+(?:reps?\s+)?(?:of\s+)?(\p{L}.*)$/iu,
    meant: ([, counts = "", movements = ""]) => {
      const each = movements.split(/\s*(?:,|&|\band\b)\s*/u).filter((movement) => movement !== "");
      const stages = rising(counts).flatMap((count) => each.map((movement) => `stage "${movement} ${count}" ${count} ${movement}`));
      return one(`${stages.length} stages, one after the other`, ...stages);
    },
  },
  {
    under: "event",
    typed: /^stage\s+(?:(\p{L}[^\d@]*?)\s+)?(\d+)\/(\d+)\s+(\p{L}.*)$/iu,
    meant: ([, name, men = "", women = "", work = ""]) => {
      const movement = /^[^@]*?(?=\s+(?:@|each|in sync|together|while)\b|\s*@|$)/u.exec(work)?.[0] ?? work;
      const rest = work.slice(movement.length);
      const stage = (whose: string, count: string): string =>
        `stage "${name ?? movement} ${whose}" ${count} ${movement} for ${whose}${rest}`;
      return one("a stage for the men, one for the women", stage("men", men), stage("women", women));
    },
  },
  {
    under: "event",
    typed: /^(stage\s+.*?)\s+(?:by|for|with)\s+(?:everyone|everybody|all)(?:\s+(?:at\s+once|together))?$/iu,
    meant: ([, stage = ""]) => one("everyone does each rep at once", `${stage} in sync`),
  },
  {
    under: "event",
    typed: /^(stage\s+.*?),?\s+(?:not\s+scored|(?:does\s+not|doesn't)\s+count|not\s+counted)$/iu,
    meant: ([, stage = ""]) => line(`${stage} unscored`),
  },
  {
    under: "event",
    typed: /^(?:a\s+)?drops?\s+costs?:?\s+(\d.*)$/iu,
    meant: ([all = "", cost = ""]) => (all.startsWith("drop costs ") ? [] : line(`drop costs ${cost}`)),
  },
  {
    under: "event",
    typed: /^tie(?:[\s-]?break(?:er)?)?:?\s+(?:time\s+)?(?:of\s+|by\s+)?(?:stage\s+)?(\p{L}.*)$/iu,
    meant: ([all = "", stage = ""]) => (/^tie time of /.test(all) ? [] : line(`tie time of stage ${stage}`)),
  },
  {
    under: "event",
    typed: /^order:?\s+(\p{L}.*)$/iu,
    meant: ([all = "", names = ""]) => {
      const each = names.split(/\s*(?:,|>|→|\bthen\b|\band\b)\s*|\s+/u).filter((one) => one !== "");
      const meant = /^fixed$/i.test(names) ? "order fixed" : `order ${each.join(", ")}`;
      return meant === all ? [] : line(meant);
    },
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(stage\s.*\s|\d.*\s)while\s+(${numeral})(?:\s+(?:of\s+them|athletes?|people|partners?))?\s+holds?(\s.*)$`,
      "iu",
    ),
    meant: ([, work = "", many = "", hold = ""]) => line(`${work}while ${numberOf(many)} hold${hold}`),
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
    meant: ([all = "", before, after = ""]) => {
      const meant = `rule hold turn at most ${inSeconds(before ?? after)}`;
      return meant === all ? [] : line(meant);
    },
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^transitions?:?\s+(${time})$`, "iu"),
    meant: ([, lasts = ""]) => line(`handover ${inSeconds(lasts)}`),
  },
  { under: "event", typed: /^partners\s+alternate$/iu, meant: () => line("pairs alternate") },
  {
    under: "event",
    typed: /^no(?:body|\s+athlete)\s+(?:works\s+)?twice\s+(?:in\s+a\s+row|running)$/iu,
    meant: () => line("athletes alternate"),
  },
  {
    under: "event",
    typed: /^(?:everyone|everybody)\s+(?:does|has|needs)\s+at\s+least\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([, reps = ""]) => line(`rule each at least ${reps} reps`),
  },
  {
    under: "event",
    typed: /^(?:switch|change)\s+every\s+(\d+)(?:\s+reps?)?$/iu,
    meant: ([, reps = ""]) => line(`rule change every ${reps} reps`),
  },
  { under: "event", typed: /^buy-?in:?\s+(\d.*)$/iu, meant: ([, work = ""]) => line(`stage buy-in ${work}`) },
  {
    under: "event",
    typed: /^(?:only|just)\s+(?:one|1|a)\s+(\p{L}.*)$/iu,
    meant: ([, equipment = ""]) => line(`one ${equipment}`),
  },
  {
    under: "event",
    typed: /^(?:stage\s+)?(\d+)\s+rounds?(?:\s+for\s+time)?\s*(?:of\s*:?|:)\s*(\d.*)$/iu,
    meant: ([, of = "", items = ""]) => {
      const each = items.split(/\s*(?:,|\+|&|\band\b)\s*/u).filter((item) => item !== "");
      return one(`round of ${of}, its movements below`, `round of ${of}`, ...each.map((item) => `  ${item}`));
    },
  },
  {
    under: "event",
    typed: /^(?:stage\s+)?(\d+)\s+rounds?(?:\s+for\s+time)?(?:\s+of)?\s*:?$/iu,
    meant: ([, of = ""]) => line(`round of ${of}`),
  },
  {
    under: "event",
    typed: /^(\d+)\s+(cal|m)\s+(\p{L}.*)$/iu,
    meant: ([, count = "", unit = "", movement = ""], { inRound }) =>
      inRound ? [] : line(`stage ${count} ${unit.toLowerCase()} ${movement}`),
  },
  { under: "event", typed: /^(?:score\s+)?for\s+(time|reps)$/iu, meant: ([, what = ""]) => line(`score ${what.toLowerCase()}`) },
  { under: "event", typed: /^score\s+(?:most|max|maximum)\s+reps$/iu, meant: () => line("score reps") },
  { under: "event", typed: /^score\s+(?:best|least|fastest)\s+time$/iu, meant: () => line("score time") },
  {
    under: "event",
    typed: /^((?:everyone|everybody|all\s+(?:four|of\s+them)?)\s+(?:must\s+)?works?)(\s+in\s+(?:every|each)\s+stage)?$/iu,
    meant: ([, , where]) => line(`rule everyone works${where ? " in every stage" : ""}`),
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
  {
    under: "event",
    typed: /^station\s+(\d\S*)\s+for\s+(women|men)$/iu,
    meant: ([, of = "", who = ""]) => line(`station "${of}" for ${who.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^station\s+(.*?\S)(?:\s+for\s+the)?\s+(women|men)$/iu,
    meant: ([, of = "", who = ""]) =>
      /\sfor$/.test(of) ? [] : line(`station ${/^[\p{L}"]/u.test(of) ? of : `"${of}"`} for ${who.toLowerCase()}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^window\s+(${time})\s+(women|men)$`, "iu"),
    meant: ([, lasts = "", who = ""]) => line(`window ${inMinutes(lasts)} for ${who.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^(?:stage\s+)?(.*\S)\s+(?:for\s+(women|men)|(women|men)\s+only)$/iu,
    meant: ([all = "", work = "", whose, only = ""], { inRound }) => {
      if (/^(?:window|station|rule|standard)\s/iu.test(all) || (/^stage\s/u.test(all) && /\sfor (?:women|men)$/u.test(all))) return [];
      return inRound ? one("the same for everybody", work) : line(`stage ${work} for ${(whose ?? only).toLowerCase()}`);
    },
  },
  {
    under: "event",
    typed: /^(stage\s.*\swhile\s+)(?:the\s+)?others\s+hold(\s.*)$/iu,
    meant: ([, stage = "", hold = ""]) =>
      ["1", "2"].map((count) => ({ title: `while ${count} hold`, lines: [`${stage}${count} hold${hold}`] })),
  },
  {
    under: "event",
    typed: /^((?:stage\s.*?|)\d+\s+)(?:(?:sync(?:hro(?:ni[sz]ed)?)?)\s+(.*)|(\p{L}.*?)\s+sync(?:hro(?:ni[sz]ed)?))$/iu,
    meant: ([all = "", count = "", before, after = ""]) => (/\bin sync$/iu.test(all) ? [] : line(`${count}${before ?? after} in sync`)),
  },
  {
    under: "team",
    typed: new RegExp(
      String.raw`^(?!${name}\s+(?:[Ww]oman|[Mm]an)$)(${name}(?:(?:\s*[,&]\s*|\s+and\s+)${name})*)\s*[:,(–-]?\s*\b(\p{L}+)\)?$`,
      "u",
    ),
    meant: ([, names = "", word = ""]) => {
      const category = categoryMeant(word.toLowerCase());
      const rows = names.split(/\s*[,&]\s*|\s+and\s+/).map((athlete) => `${athlete} ${category}`);
      return category === null ? [] : one(rows.length === 1 ? `write ${rows[0]}` : `${rows.length} lines`, ...rows);
    },
  },
];

/** The category that a word beside an athlete's name means; null where it could be anything. */
function categoryMeant(word: string): Category | null {
  if (/^(f|w|female|girl|lady)$/.test(word)) return "woman";
  if (/^(m|male|boy|guy)$/.test(word)) return "man";
  return categoryOf(word) ?? categoryOf(nearest(word, ["woman", "man"])[0] ?? "");
}
