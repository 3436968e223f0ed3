import { clock } from "../../0-base/quantity.js";
import { guess, type Habit, inMinutes, inSeconds, known, line, numberOf, numeral, one, time } from "./habit.js";

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

/** So many metres or calories, in the language's own words. */
function inShort(count: string, unit: string): string {
  return `${count} ${/^m/i.test(unit) ? "m" : "cal"}`;
}

/** Words behind a number that are no movement. */
const noMovement = String.raw`(?!(?:pairs?|athletes?|people|partners?|teams?|judges?|rounds?|sets?|women|men|works?|working|moves?|at|of|min(?:utes?)?|s(?:ec(?:onds?)?)?|h(?:ours?)?|reps?|points?|stations?|lanes?|heats?|attempts?|tries|minutes?|(?:bar|dumb|kettle)bells?|bars?|x\d+)\b)(?!.*\b(?:per|every)\b)`;

/** Score, cap, stages, rounds, stations and windows. The first that fits counts. */
export const eventHabits: readonly Habit[] = [
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:cap\s+(?:at|of|is)|cap:|duration|length|time\s+limit):?\s+(${time})(?:\s+min)?$`, "iu"),
    meant: ([, cap = ""]) => line(`cap ${inMinutes(cap)}`),
  },
  {
    under: "event",
    typed: /^cap\s+(\d+(?::\d\d)?)\s*(?:m|mins|min\.|(?<=:\d\d\s*)min)$/iu,
    meant: ([, cap = ""]) => line(`cap ${inMinutes(cap)}`),
  },
  {
    under: "event",
    typed: /^score\s*:\s*(time|reps)$/iu,
    meant: ([, what = ""]) => line(`score ${what.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^(?:amrap|as\s+many\s+(?:reps|rounds)\s+as\s+possible|max(?:imum)?\s+reps)$/iu,
    meant: () => line("score reps"),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:handover:|(?:handover|change-?over|switch)(?:\s+(?:takes|lasts|is|of))?(?=\s*:?\s+\d))\s*:?\s+(${time})$`,
      "iu",
    ),
    meant: ([all = "", lasts = ""]) => known(all, `handover ${inSeconds(lasts)}`),
  },
  { under: "event", typed: /^(mixed|alike|any)\s+pairs(?:\s+only)?$/iu, meant: ([, which = ""]) => line(`pairs ${which.toLowerCase()}`) },
  {
    under: "event",
    typed: /^(athletes|pairs)\s+(?:take\s+turns|take\s+it\s+in\s+turns|in\s+turns?)$/iu,
    meant: ([, who = ""]) => line(`${who.toLowerCase()} alternate`),
  },
  { under: "event", typed: /^(?:[-–*•]|\d{1,2}[.)])\s+(\S.*)$/u, meant: ([, rest = ""]) => line(rest) },
  {
    under: "event",
    typed: /^stage\s+([^\s:"]+)\s*:\s+(\d.*)$/iu,
    meant: ([, of = "", work = ""]) => line(`stage ${/^\p{L}/u.test(of) ? of : `"${of}"`} ${work}`),
  },
  {
    under: "event",
    typed: /^(stage\s+(?:.*\s)?\d+)\s+(?:reps?|times)\s+(?:of\s+)?(?!at\b)(\p{L}.*)$/iu,
    meant: ([, head = "", movement = ""]) => line(`${head} ${movement}`),
  },
  {
    under: "event",
    typed: /^stage\s+(?:max(?:imum)?|amrap)\s+(?:reps\s+(?:of\s+)?)?(\p{L}.*)$/iu,
    meant: ([, work = ""]) => line(`stage ${work}`),
  },
  {
    under: "event",
    typed:
      /^(?!.*@\s*[\d.]+\s*\/\s*[\d.]+\s*(?:kg|lb)$)(stage\s.*?\S|\d+\s+\p{L}.*?)\s*(?:\(|@|\s+at(?=\s))?\s*@?\s*(\d+(?:\.\d+)?)\s*(kg|lb)?(?:\s+men)?\s*[/,]\s*(\d+(?:\.\d+)?)\s*(kg|lb)?(?:\s+women)?\s*\)?$/iu,
    meant: ([, work = "", men = "", before, women = "", after]) =>
      line(`${work} @ ${men}/${women} ${(after ?? before ?? "kg").toLowerCase()}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^round\s+of\s+(${numeral})$`, "iu"),
    meant: ([, many = ""]) => line(`round of ${numberOf(many)}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^window\s+(?:for\s+)?(women|men)\s*:?\s+(${time})$`, "iu"),
    meant: ([, who = "", lasts = ""]) => line(`window ${inMinutes(lasts)} for ${who.toLowerCase()}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^cap:?\s+(\d+)$|^(${time})\s+(?:time\s*)?cap$`, "iu"),
    meant: ([, before, after = ""]) => line(`cap ${inMinutes(before ?? after)}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:score\s+)?(?:most\s+)?rounds?(?:\s*(?:and|\+|&)\s*reps?)?(?:\s+in\s+(${time}))?$`, "iu"),
    meant: ([all = "", cap]) =>
      /^rounds?$/i.test(all)
        ? []
        : cap
          ? one(`score reps, cap ${inMinutes(cap)}`, "score reps", `cap ${inMinutes(cap)}`)
          : line("score reps"),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(stage\s.*?)\s+(?:in|within|inside|max(?:imum)?|at\s+most)\s+(${time})((?:\s*,?\s*(?:un(?:-?)scored|not\s+scored|(?:does\s+not|doesn't)\s+count|not\s+counted))?)$`,
      "iu",
    ),
    meant: ([all = "", stage = "", seconds = "", unscored]) =>
      /\swithin\s\S+(?:\s(?:min|s|h))?(?:\sunscored)?$/u.test(all)
        ? []
        : line(`${stage} within ${inMinutes(seconds)}${unscored ? " unscored" : ""}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(stage\s.*?)\s+for\s+(?:the\s+)?(?:${numeral}|\d+)\s+(women|men)$`, "iu"),
    meant: ([, stage = "", whose = ""]) => one(`any of the ${whose.toLowerCase()}`, `${stage} for ${whose.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^(stage\s+(?:\D*\s)?)(\d+(?:[.,]\d+)?)\s*(k(?:ilo)?m(?:et(?:re|er)s?)?|miles?)\s+(.*)$/iu,
    meant: ([, head = "", many = "", unit = "", work = ""]) => {
      const metres = Math.round(Number(many.replace(",", ".")) * (/^k/i.test(unit) ? 1_000 : 1_609.344));
      return line(`${head}${metres} m ${work}`);
    },
  },
  {
    under: "event",
    typed: /^(stage\s+(?:\D*\s)?)(\d{1,3})[.,](\d{3})\s+(\D.*)$/iu,
    meant: ([, head = "", thousands = "", rest = "", work = ""]) => line(`${head}${thousands}${rest} ${work}`),
  },
  {
    under: "event",
    typed: /^(stage\s.*?)\s+by\s+(?:the\s+)?(women|men)$/iu,
    meant: ([, stage = "", whose = ""]) => line(`${stage} for ${whose.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^stage\s+(?:for\s+)?(women|men):?\s+(\d.*)$/iu,
    meant: ([, whose = "", work = ""]) => line(`stage ${work} for ${whose.toLowerCase()}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^time\s*cap:?\s*(${time})$`, "iu"),
    meant: ([, cap = ""]) => line(`cap ${inMinutes(cap)}`),
  },
  {
    under: "event",
    typed: new RegExp(
      String.raw`^(?:(?:amrap|(?:max|most)\s+reps|as\s+many\s+(?:reps|rounds)\s+as\s+possible)(?:\s+in)?\s+(${time})|(${time})\s+amrap)$`,
      "iu",
    ),
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
    typed: /^stage\s+(\p{L}[^\d@]*?)\s+(\d+)\s+(m|met(?:re|er)s?|cals?|calories)(\s*@.*)?$/iu,
    meant: ([, movement = "", count = "", unit = "", load = ""]) => line(`stage ${inShort(count, unit)} ${movement}${load}`),
  },
  {
    under: "event",
    typed:
      /^(?!\d{4}-\d\d-\d\d)(?:rounds?\s+(?:of\s+)?|stage\s+)?(\d+(?:\s*[-,]\s*\d+)+(?:\s*,?\s*(?:…|\.\.\.|etc\.?))?)\s+(?:reps?\s+|ladder\s+)?(?:of\s+)?(\p{L}.*)$/iu,
    meant: ([, counts = "", movements = ""]) => {
      const each = movements.split(/\s*(?:,|&|\band\b)\s*/u).filter((movement) => movement !== "");
      const stages = rising(counts).flatMap((count) =>
        each.map((movement) => `stage "${movement.replace(/\s*@.*$/u, "")} ${count}" ${count} ${movement}`),
      );
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
    typed: /^(stage\s+.*?)\s+(?:by|for|with)\s+(?:everyone|everybody|all)\s+(?:at\s+once|together)$/iu,
    meant: ([, stage = ""]) => one("everyone does each rep at once", `${stage} in sync`),
  },
  {
    under: "event",
    typed: /^(stage\s+.*?)\s+(?:by|for|with)\s+(?:everyone|everybody|all)$/iu,
    meant: ([, stage = ""]) => [...one("anybody may do it", stage), ...one("everyone does each rep at once", `${stage} in sync`)],
  },
  {
    under: "event",
    typed: /^(?:the\s+)?(women|men):?\s+(?:from\s+)?(\d+):(\d\d)\s*(?:-|–|to)\s*(\d+):(\d\d)$/iu,
    meant: ([, who = "", fromMin = "", fromS = "", toMin = "", toS = ""]) => {
      const lasts = 60 * (Number(toMin) - Number(fromMin)) + Number(toS) - Number(fromS);
      return lasts > 0 ? line(`window ${clock(lasts)} for ${who.toLowerCase()}`) : [];
    },
  },
  {
    under: "event",
    typed: /^(women|men)\s*:\s*(\d.*)$/iu,
    meant: ([, whose = "", work = ""], { inRound }) => (inRound ? [] : line(`stage ${work} for ${whose.toLowerCase()}`)),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(?:score\s+)?for\s+(time|reps)\s*[,;]\s*(?:time\s*)?cap:?\s*(${time})$`, "iu"),
    meant: ([, what = "", cap = ""]) =>
      one(`score ${what.toLowerCase()}, cap ${inMinutes(cap)}`, `score ${what.toLowerCase()}`, `cap ${inMinutes(cap)}`),
  },
  {
    under: "event",
    typed: /^(stage\s+.*?)(?:,\s*unscored|,?\s+not\s+scored|,?\s+(?:does\s+not|doesn't)\s+count|not\s+counted)$/iu,
    meant: ([, stage = ""]) => line(`${stage} unscored`),
  },
  {
    under: "event",
    typed: /^(?:buy-?in(?:\s+of)?:?\s+(\d.*?)|(\d+\s+\p{L}.*?)\s+buy-?in)(,?\s+(?:unscored|not\s+scored))?$/iu,
    meant: ([, after, before = "", unscored]) => [
      ...one("its reps are no part of the score", `stage buy-in ${after ?? before} unscored`),
      ...(unscored ? [] : one("its reps count", `stage buy-in ${after ?? before}`)),
    ],
  },
  {
    under: "event",
    typed: /^cash-?out:?\s+(\d.*)$/iu,
    meant: ([, work = ""]) => line(`stage cash-out ${work}`),
  },
  {
    under: "event",
    typed: /^rounds:?\s+(\d+)$/iu,
    meant: ([, many = ""]) => line(`round of ${many}`),
  },
  {
    under: "event",
    typed:
      /^(?!(?:cap|handover|set-?up|window|score|stage|rounds?|rule|rest|working|pairs|athletes|order|station|standard|drop|tie|one|event|like|time|within|then|max|women|men|duration|length|amrap|emom|for|work|lasts?)\b)(\p{L}[\p{L} -]*?)\s+(\d+)\s*(m|met(?:re|er)s?|cals?|calories)(\s*@.*)?$/iu,
    meant: ([, movement = "", count = "", unit = "", load = ""], { inRound }) =>
      line(`${inRound ? "" : "stage "}${inShort(count, unit)} ${movement}${load}`),
  },
  { under: "event", typed: /^then\s+(\d.*)$/iu, meant: ([, work = ""], { inRound }) => (inRound ? [] : line(`stage ${work}`)) },
  {
    under: "event",
    typed: /^(?:stage\s+)?(\d+)\s*[x×]\s*(\d+)\s+(?:reps?\s+(?:of\s+)?)?(\p{L}.*)$/iu,
    meant: ([, of = "", count = "", work = ""]) => one(`round of ${of}, its movement below`, `round of ${of}`, `  ${count} ${work}`),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(stage\s.*?|\d.*?)(?:,?\s*and\s+|,?\s+|,\s*)then\s+(?:rest\s+(${time})|(${time})\s+rest)$`, "iu"),
    meant: ([all = "", stage = "", before, after = ""]) =>
      known(all, `${/^\d/.test(stage) ? "stage " : ""}${stage.replace(/,$/, "")} then rest ${inMinutes(before ?? after)}`),
  },
  {
    under: "event",
    typed: /^(\d.*?|stage\s.*?),\s*(?:in\s+)?sync(?:hro(?:ni[sz]ed)?)?$/iu,
    meant: ([, work = ""]) => line(`${/^\d/.test(work) ? "stage " : ""}${work} in sync`),
  },
  {
    under: "event",
    typed:
      /^(?:then\s+)?(?:max(?:imum)?|amrap)\s+(?:reps\s+(?:of\s+)?)?(\p{L}.*?)(?:\s+(?:in|for|with)\s+(?:the\s+)?(?:remaining\s+time|time\s+(?:left|remaining)|rest\s+of\s+the\s+time))?$/iu,
    meant: ([, movement = ""]) => line(`stage ${movement}`),
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
  {
    under: "event",
    typed: new RegExp(String.raw`^(?!.*\b(?:for|only|while|synchro\w*)\b)(\d+)\s+${noMovement}(\p{L}[\p{L}\s-]*)$`, "iu"),
    meant: ([, count = "", movement = ""], { inRound }) => (inRound ? [] : guess(line(`stage ${count} ${movement}`))),
  },
  {
    under: "event",
    typed: new RegExp(String.raw`^(\d+\s+${noMovement}\p{L}[^@]*?(?:@.*|while\s+\d+\s+hold\s.*))$`, "iu"),
    meant: ([, work = ""], { inRound }) => (inRound ? [] : line(`stage ${work}`)),
  },
  { under: "event", typed: /^(?:score\s+)?for\s+(time|reps)$/iu, meant: ([, what = ""]) => line(`score ${what.toLowerCase()}`) },
  { under: "event", typed: /^score\s+(?:most|max|maximum)\s+reps$/iu, meant: () => line("score reps") },
  { under: "event", typed: /^score\s+(?:best|least|fastest)\s+time$/iu, meant: () => line("score time") },
  {
    under: "event",
    typed: /^station\s+(\d\S*)\s+for\s+(women|men)$/iu,
    meant: ([, of = "", who = ""]) => line(`station "${of}" for ${who.toLowerCase()}`),
  },
  {
    under: "event",
    typed: /^station\s+(.*?[^\s,:])\s*[,:]?(?:\s+for\s+the)?\s+(women|men)$/iu,
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
    typed: /^(?:stage\s+)?(.*?\S)\s+(?:for\s+(women|men)(?:\s+only)?|(women|men)\s+only)$/iu,
    meant: ([all = "", work = "", whose, only = ""], { inRound }) => {
      if (
        /^(?:window|station|rule|standard|\d+\s+(?:stations?|lanes?|heats?))\s/iu.test(all) ||
        (/^stage\s/u.test(all) && /\sfor (?:women|men)$/u.test(all))
      )
        return [];
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
    typed: /^((?:stage\s.*?|)\d+\s+)(?:(?:sync(?:hro(?:ni[sz]ed)?)?)\s+(.*)|(\p{L}.*?)(?:\s+in)?\s+sync(?:hro(?:ni[sz]ed)?)?)$/iu,
    meant: ([all = "", count = "", before, after = ""]) => (/\bin sync$/iu.test(all) ? [] : line(`${count}${before ?? after} in sync`)),
  },
  {
    under: "event",
    typed: /^(?:stage\s+)?(\d+(?:\.\d+)?)\s*km?\s+(row|run|ski|bike|swim|walk|ride|carry)$/iu,
    meant: ([, km = "", how = ""]) => line(`stage ${Math.round(1000 * Number(km))} m ${how}`),
  },
  {
    under: "event",
    typed: /^(stage\s[^,]*\S),\s*(?:@\s*)?(\d+(?:\.\d+)?(?:\/\d+(?:\.\d+)?)?)\s*(kg|lb)$/iu,
    meant: ([, stage = "", load = "", unit = ""]) => line(`${stage} @ ${load} ${unit}`),
  },
  {
    under: "event",
    typed: /^(?:partners?|teammates?)\s+alternate\s+(every\s+\d+\s+reps?|at\s+will)$/iu,
    meant: ([, when = ""]) =>
      ["pairs", "athletes"].map((who) => ({
        title: `${who} take turns`,
        lines: [`${who} alternate ${when}`],
        guess: true,
      })),
  },
];
