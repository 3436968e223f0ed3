/** Beginnings of documents, in words that a coach replaces. Names are invented. */
export interface Template {
  readonly name: string;
  readonly says: string;
  readonly text: string;
}

const team = `team My Team
  Wren   woman
  Odo    man
`;

const abilities = `ability               Wren   Odo
  box jump  unbroken    36    40   reps
  box jump  cycle      2.0   1.8   s
`;

const event = `event First Event
  score time
  cap 6 min
  handover 3 s
  working at most 1
  stage jumps  60 box jump
  rule share within 10 %
  standard both feet land on the box, knees straight before the next
`;

const plan = `plan Short Sets for First Event
  repeat
    Wren 5
    Odo 5
`;

export const templates: readonly Template[] = [
  { name: "one file", says: "team, tests, event and plan together, ready to send", text: `# One file\n> Invented names and numbers: put in your own.\n\n${team}\n${abilities}\n${event}\n${plan}` },
  { name: "team", says: "who competes, and what was tested", text: `# Team\n> All tests fresh, at the load each athlete will use.\n\n${team}\n${abilities}` },
  { name: "event", says: "what the competition publishes", text: `# Event\n> The published rules come first; this page only restates them.\n\n${event}` },
  { name: "plan", says: "who does what, for an event of this notebook", text: `# Plan\n\n${plan}` },
  { name: "week", says: "when each event is tried", text: "# Week\n> A hard day, an easy day. Pain, poor sleep or heat move a session.\n\nweek First Week\n  zone Europe/Lisbon\n  due 2026-03-23 17:00\n  at most 1 event a day\n  2026-03-20 18:00  First Event plan Short Sets\n  2026-03-21  rest\n  2026-03-22 10:00  First Event again\n" },
  { name: "empty", says: "a blank document", text: "" },
];
