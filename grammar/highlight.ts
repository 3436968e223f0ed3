import { styleTags, tags } from "@lezer/highlight";

/** Which kind of thing each node is, in the editor's terms. */
export const highlighting = styleTags({
  Head: tags.definitionKeyword,
  "Woman Man On Like At Most For Of Until When Rounds RestWord PlanWord Again Done Broke Dropped The HoldWord NoRep Least AwayWord EffortWord WeightWord":
    tags.keyword,
  "Unbroken Ready Cycle In Max Recovery Fade Each Sync Together Shared AsWord WhileWord To Under Over Is AtLimit AtMost AtLeast":
    tags.keyword,
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
