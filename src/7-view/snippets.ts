/** Beginnings of blocks, to be filled in. `#{…}` is a place to type in, with what may stand there. */
export interface Snippet {
  readonly word: string;
  readonly says: string;
  readonly text: string;
}

export const snippets: readonly Snippet[] = [
  { word: "team", says: "who competes", text: "team #{Team}\n  #{Ada}   woman\n  #{Olu}   man\n" },
  { word: "movement", says: "what a movement asks of the body", text: "movement #{name}\n  asks squat #{60} %, engine #{20} %\n" },
  { word: "hold", says: "what a hold asks of the body", text: "hold #{name}\n  asks grip #{40} %, trunk #{30} %\n" },
  { word: "ability", says: "what was tested", text: "ability                #{Ada}   #{Olu}\n  #{movement}  unbroken   #{20}    #{24}   reps\n  #{movement}  cycle      #{2.0}   #{2.0}  s\n" },
  { word: "event", says: "the published rules, for time", text: "event #{Event}\n  score time\n  cap #{10} min\n  handover #{3} s\n  working at most #{1}\n  stage #{main}  #{60} #{movement}\n" },
  { word: "event", says: "the published rules, for reps", text: "event #{Event}\n  score reps\n  cap #{7} min\n  handover #{3} s\n  stage #{main}\n" },
  { word: "event", says: "rounds in pairs", text: "event #{Event}\n  score time\n  cap #{12} min\n  working at most 1 pair\n  round of #{8}\n    #{6} #{movement} each\n    #{10} #{other} in sync\n" },
  { word: "plan", says: "turns, one after the other", text: "plan #{Plan} for #{Event}\n  repeat\n    #{Ada} #{5}\n    #{Olu} #{5}\n" },
  { word: "plan", says: "pairs, one holds while the other works", text: "plan #{Plan} for #{Event}\n  pair A  #{Ada} + #{Olu}\n  pair B  #{Ines} + #{Bram}\n  repeat\n    A #{6} each    while #{Ines} hold\n    B #{6} each    while #{Ada} hold\n" },
  { word: "week", says: "when each event is tried", text: "week #{Week}\n  zone #{Europe/Lisbon}\n  due #{2026-03-23} #{17:00}\n  #{2026-03-20} #{18:00}  #{Event} plan #{Plan}\n  #{2026-03-21}  rest\n" },
  { word: "log", says: "what happened", text: "log #{Plan} on #{2026-03-20} #{18:00}\n  finish #{12:30}\n" },
  { word: "let", says: "a value of your own", text: "let #{name} = #{1 min}\n" },
  { word: "expect", says: "say what you count on, and see when it fails", text: "expect #{Plan}.time under #{14:30}\n" },
  { word: "compare", says: "two plans on the same days", text: "compare #{Plan}, #{Other}\n" },
  { word: "use", says: "another document of the notebook", text: "use \"#{team.rota}\"\n" },
  { word: "assume", says: "another value for a constant of the models", text: "assume #{handover} #{4 s}\n" },
];

/** A snippet with its suggestions standing in their places. */
export function filled({ text }: Snippet): string {
  return text.replace(/#\{([^}]*)\}/g, "$1");
}
