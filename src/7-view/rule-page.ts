import type { AnyRule } from "../5-findings/rule.js";

/** A rule explained for the terminal: what, why, where it comes from, a bad and a good example. */
export function explainRule({ id, title, why, source, bad, good }: AnyRule): string {
  return `${id}: ${title}\n\n${why}\nSource: ${source}.\n\nBad, at «»:\n${indented(bad)}\nGood:\n${indented(good)}`;
}

const head = `# The rules

Made from the files in \`src/5-findings/rules/\`; a test fails where this page is stale. An *error* breaks a published rule or
cannot be carried out, a *warning* will likely cost, a *note* is worth knowing. \`// allow ID: why\` behind a line silences
warnings and notes of that rule there; behind the head of a block, in all of it; on a line of its own, for what follows.
\`rotaline explain ID\` shows one rule. In the bad examples «» mark the place of the finding.
`;

/** The reference of all rules, made from their files. */
export function rulePage(rules: readonly AnyRule[]): string {
  const sections = rules.map(
    ({ id, title, why, source, bad, good }) =>
      `## ${id}\n\n**${title}.** ${why} Source: ${source}.\n\nBad:\n\n\`\`\`\n${bad}\`\`\`\n\nGood:\n\n\`\`\`rota\n${good}\`\`\`\n`,
  );
  return `${head}\n${sections.join("\n")}`;
}

function indented(text: string): string {
  return text.replace(/^(?=.)/gm, "    ");
}
