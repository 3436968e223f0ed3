import { ruleForms, limitKinds } from "../5-findings/limits/kinds.js";
import { readLimit } from "../5-findings/limits/limit.js";
import type { RuleLine } from "../3-plan/ast.js";
import { athleteNamed } from "../3-plan/names.js";
import { openDocument } from "../3-plan/open.js";
import type { Team } from "../3-plan/world.js";

/** What every suggestion has to keep besides the event's own rules. */
export interface Wishes {
  readonly rules: readonly RuleLine[];
  /** Pairs that stay together. */
  readonly pairs: readonly (readonly string[])[];
}

/** A coach's own limits, typed as under a plan: lines of `rule …` and of `pair …`; or what is wrong with the first that is neither. */
export function wishesOf(typed: string, { name, athletes }: Team): Wishes | { readonly reason: string } {
  const lines = typed.split("\n").filter((line) => line.trim() !== "");
  const text = ["plan Wishes for Wishes", ...lines.map((line) => `  ${line.trim()}`)].join("\n");
  const [block] = openDocument({ path: "wishes", text: `${text}\n` }, null).blocks;
  const byName = new Map(athletes.map((athlete) => [athlete.name, athlete]));
  const wishes: { rules: RuleLine[]; pairs: (readonly string[])[] } = { rules: [], pairs: [] };
  for (const line of block?.read.line.body ?? []) {
    const said = text.slice(line.span.from, line.span.to);
    if (line.kind === "rule") {
      if (!readLimit(line, limitKinds)) return { reason: `“${said}” is no limit here. Limits: ${ruleForms.join("; ")}.` };
      wishes.rules.push(line);
    } else if (line.kind === "pair") {
      const pair = line.athletes.map((word) => athleteNamed(word.text, byName));
      if (!pair.every((athlete) => athlete !== null)) return { reason: `“${said}” names somebody who is not in team ${name}.` };
      wishes.pairs.push(pair);
    } else return { reason: `“${said}” is no rule and no pair. Write lines such as “rule set at most 8 reps” or “pair A Ada + Olu”.` };
  }
  return wishes;
}
