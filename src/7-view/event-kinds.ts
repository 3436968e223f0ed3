/** Kinds of events as competitions publish them, in words that a coach replaces. Names and numbers are invented. */
export interface EventKind {
  readonly name: string;
  readonly says: string;
  /** The event's lines under its head. */
  readonly lines: readonly string[];
}

export const eventKinds: readonly EventKind[] = [
  {
    name: "one works at a time",
    says: "the others rest until they are touched",
    lines: [
      "score time",
      "cap 6 min",
      "handover 3 s",
      "working at most 1",
      "stage jumps  60 box jump",
      "rule share within 10 %",
      "standard both feet land on the box, knees straight before the next",
    ],
  },
  {
    name: "two move, one holds",
    says: "reps count only while somebody holds a weight",
    lines: [
      "score time",
      "cap 12 min",
      "handover 3 s",
      "working at most 2",
      "stage squats  120 sandbag squat @ 30/20 kg  while 1 hold stone @ 60/40 kg",
      "rule share within 10 %",
      "rule hold turn at most 45 s",
      "standard the stone stays off the floor while anyone squats",
    ],
  },
  {
    name: "two in step",
    says: "a rep counts when both do it together",
    lines: [
      "score time",
      "cap 8 min",
      "handover 3 s",
      "pairs any",
      "working at most 1 pair",
      "stage jumps  80 plank jump in sync",
      "standard both pairs of feet leave the floor together and come down together",
    ],
  },
  {
    name: "rounds, pairs take turns",
    says: "a pair does a whole round, then the other",
    lines: [
      "score time",
      "cap 14 min",
      "handover 3 s",
      "pairs alternate",
      "working at most 1 pair",
      "round of 10",
      "  4 sandbag clean @ 50/35 kg each",
      "  6 plank jump in sync",
    ],
  },
  {
    name: "a place each for women and men",
    says: "both work at once, each at their own station, to the cap",
    lines: [
      "score reps",
      "cap 7 min",
      "handover 3 s",
      "station low rings for women",
      "station high rings for men",
      "stage ring dip",
      "rule each at least 10 reps",
    ],
  },
  {
    name: "women first, then men",
    says: "each category has its own window",
    lines: [
      "score reps",
      "handover 2 s",
      "window 6 min for women",
      "window 6 min for men",
      "round",
      "  12 swing @ 24/16 kg",
      "  10 step-over",
    ],
  },
  {
    name: "one stage after another",
    says: "first the one to its end, then the next",
    lines: [
      "score time",
      "cap 15 min",
      "handover 3 s",
      "working at most 1",
      "stage swings  80 swing @ 24/16 kg",
      "stage steps  80 step-over",
      "stage jumps  60 box jump",
      "rule share within 15 %",
    ],
  },
];
