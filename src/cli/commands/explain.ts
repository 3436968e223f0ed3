import { nearest } from "../../0-base/nearest.js";
import { rules } from "../../5-findings/registry.js";
import { explainRule } from "../../7-view/rule-page.js";
import { type Command, fail, status } from "../command.js";

export const explainCommand: Command = {
  about: "explain a rule, or list them",
  help: `rotaline explain [RULE]

Says what a rule wants, why, where it comes from, with a bad and a good example. Without a rule: all of them.

  rotaline explain hold-turn-missed`,
  run: ([id, ...others]) => {
    if (others.length > 0) return fail("One rule at a time.");
    const rule = rules.find((one) => one.id === id);
    if (id !== undefined && !rule) {
      const near = nearest(
        id,
        rules.map((one) => one.id),
      );
      return fail(`There is no rule “${id}”. ${near.length > 0 ? `Near: ${near.join(", ")}.` : "rotaline explain lists them."}`);
    }
    process.stdout.write(rule ? explainRule(rule) : rules.map((one) => `${one.id.padEnd(22)}${one.title}\n`).join(""));
    return status.good;
  },
};
