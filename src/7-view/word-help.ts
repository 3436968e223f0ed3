import { allKinds } from "../3-plan/lines/kinds.js";

/** What words do that no kind of line has to itself. */
const shared: Readonly<Record<string, string>> = {
  each: "Each of those named does that many, at an own pace.",
  "in sync": "All named move rep by rep at the pace of the slowest.",
  sync: "All named move rep by rep at the pace of the slowest.",
  together: "All named lift one load together: one rep is one rep of the stage.",
  shared: "The reps are split between those named.",
  as: "A set broken into parts: 10 as 4+3+3 rest 5 s.",
  while: "Who holds meanwhile, or what must be held.",
  until: "The end of a rest or of a repeat.",
  when: "`, each when ready` behind a repeat: each of its turns waits until its athletes can do the whole of it.",
  ready: "Until the next set can be done without a miss.",
  again: "In a week, a second try; behind a ladder, the ladder from its start.",
  on: "The day of a test or try; the station of a lane.",
};

/** What each word of the language does, in a sentence: shown where the pointer rests and beside what is offered. */
export const wordHelp: Readonly<Record<string, string>> = Object.assign({}, shared, ...allKinds.map(({ help }) => help));
