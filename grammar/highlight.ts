import { styleTags, tags } from "@lezer/highlight";
import { keywords } from "./tokens.js";

/** Which kind of thing each node is, in the editor's terms. */
export const highlighting = styleTags({
  Head: tags.definitionKeyword,
  [keywords.map(([token]) => token).join(" ")]: tags.keyword,
  "To Under Over Is AtLimit AtMost AtLeast": tags.keyword,
  Unit: tags.unit,
  "Number Time Date Hours": tags.number,
  "String Text ZoneName": tags.string,
  "TeamHead/Name EventHead/Name PlanHead/Name Pair/Name Lane/Name Stage/Name Let/Name": tags.definition(tags.variableName),
  "Name Athlete Part Choice": tags.variableName,
  "Reference Callee": tags.variableName,
  "Operator = + - @ %": tags.operator,
  Comment: tags.lineComment,
  Heading: tags.heading,
  Note: tags.docComment,
  "Junk Missing": tags.invalid,
});
