import { eventKinds } from "./event-kinds.js";

/** A beginning of a document, in words that a coach replaces. */
export interface Template {
  readonly name: string;
  readonly says: string;
}

export const templates: readonly Template[] = [
  { name: "one file", says: "team, tests, event and plan together, ready to send" },
  { name: "team", says: "who competes, and what was tested" },
  ...eventKinds.map(({ name, says }) => ({ name: `event: ${name}`, says })),
  { name: "plan", says: "who does what, for an event of this notebook" },
  { name: "week", says: "when each event is tried" },
  { name: "empty", says: "a blank document" },
];
