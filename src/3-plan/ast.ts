/** The plan AST: one typed node a line, with what is indented under it. */
import type { Span } from "../0-base/span.js";
import type {
  BrokenItem,
  Category,
  Cell,
  Clauses,
  Comparison,
  Expression,
  Hours,
  Load,
  Measure,
  RestSize,
  Size,
  Value,
  Word,
  Beside,
  HandChange,
} from "./parts.js";

interface Node<Kind extends string> {
  readonly kind: Kind;
  /** The line, without its indentation and its comment. */
  readonly span: Span;
  readonly body: readonly Line[];
}

export interface TeamLine extends Node<"team"> {
  readonly name: Word;
}
export interface AthleteLine extends Node<"athlete"> {
  readonly name: Word;
  readonly category: Category;
}
export interface MovementLine extends Node<"movement"> {
  readonly name: Word;
}
export interface HoldLine extends Node<"hold"> {
  readonly name: Word;
}
export interface AsksLine extends Node<"asks"> {
  readonly asks: readonly { readonly part: Word; readonly share: Value }[];
}
export interface AbilityLine extends Node<"ability"> {
  readonly on: string | null;
  readonly athletes: readonly Word[];
}
export interface AbilityRowLine extends Node<"ability row"> {
  readonly subject: Word;
  readonly measure: Measure;
  readonly load: Load | null;
  readonly cells: readonly Cell[];
}
export interface EventLine extends Node<"event"> {
  readonly name: Word;
  readonly like: Word | null;
}
export interface ScoreLine extends Node<"score"> {
  readonly choice: Word;
}
export interface CapLine extends Node<"cap"> {
  readonly value: Value;
}
export interface HandoverLine extends Node<"handover"> {
  readonly value: Value;
}
export interface SetUpLine extends Node<"setup"> {
  readonly value: Value;
}
export interface PairsLine extends Node<"pairs"> {
  readonly choice: Word;
  readonly change: HandChange | null;
}
export interface AthletesLine extends Node<"athletes"> {
  readonly choice: Word;
  readonly change: HandChange | null;
}
export interface DropCostLine extends Node<"drop cost"> {
  readonly value: Value;
}
/** Which stage's time tells two of one score apart. */
export interface TieLine extends Node<"tie"> {
  readonly stage: Word;
}
/** `one bar for snatch, jerk`: a thing there is one of; no movements: for all of the event. */
export interface EquipmentLine extends Node<"equipment"> {
  readonly name: Word;
  readonly movements: readonly Word[];
}
/** Nobody: a fixed order, whichever it is. */
export interface OrderLine extends Node<"order"> {
  readonly athletes: readonly Word[];
}
export interface WorkingLine extends Node<"working"> {
  readonly most: number;
  readonly what: Word | null;
}
export interface StageLine extends Node<"stage"> {
  /** The category that does it; null: anybody. */
  readonly whom: Word | null;
  readonly name: Word | null;
  readonly count: Value | null;
  readonly movement: Word | null;
  readonly clauses: Clauses;
  /** The longest it may take from where it begins; the pause that must follow it; whether its reps are part of the score. */
  readonly within: Value | null;
  readonly rest: Value | null;
  readonly scored: boolean;
}
export interface WindowLine extends Node<"window"> {
  readonly lasts: Value | null;
  readonly who: Word;
}
export interface StationLine extends Node<"station"> {
  readonly name: Word;
  readonly who: Word;
}
export interface RoundLine extends Node<"round"> {
  readonly of: number | null;
}
export interface RoundItemLine extends Node<"round item"> {
  readonly count: Value | null;
  readonly movement: Word;
  readonly clauses: Clauses;
}
export interface RuleLine extends Node<"rule"> {
  readonly parts: readonly (Word | Value)[];
}
export interface StandardLine extends Node<"standard"> {
  readonly text: string;
}
/** Words for an athlete; `when` where they are for a time of the event, from its start or before its end. */
export interface CueLine extends Node<"cue"> {
  readonly text: string;
  readonly when: { readonly of: "from" | "last"; readonly value: Value } | null;
}
export interface PlanLine extends Node<"plan"> {
  readonly name: Word;
  readonly event: Word;
}
export interface PairLine extends Node<"pair"> {
  readonly name: Word;
  readonly athletes: readonly Word[];
}
export interface RepeatLine extends Node<"repeat"> {
  readonly times: number | null;
  readonly until: Value | null;
  readonly whenReady: boolean;
}
export interface LaneLine extends Node<"lane"> {
  readonly name: Word;
  readonly station: Word | null;
}
export interface RestLine extends Node<"rest"> {
  readonly rest: RestSize;
}
export interface TurnLine extends Node<"turn"> {
  readonly who: readonly Word[];
  readonly size: Size;
  /** `Nora 8 + Otto 11`: others who do a number of their own in the same turn. */
  readonly beside: readonly Beside[];
  readonly movement: Word | null;
  readonly clauses: Clauses;
}
export interface RoundTurnLine extends Node<"round turn"> {
  readonly who: readonly Word[];
  readonly count: number;
  readonly clauses: Clauses;
  readonly items: readonly BrokenItem[];
}
export interface NamedRestLine extends Node<"named rest"> {
  readonly who: readonly Word[];
  readonly rest: RestSize;
}
export interface WeekLine extends Node<"week"> {
  readonly name: Word;
}
export interface ZoneLine extends Node<"zone"> {
  readonly zone: string;
}
export interface DueLine extends Node<"due"> {
  readonly date: string;
  readonly time: string;
  readonly zone: string | null;
}
export interface DayLimitLine extends Node<"day limit"> {
  readonly most: number;
  readonly what: Word;
}
export interface GapLine extends Node<"gap"> {
  readonly least: Value;
  readonly what: Word;
}
export interface KeepLine extends Node<"keep"> {
  readonly value: Value;
  readonly what: Word;
}
/** When the floor can be had: on one day, or on every day. */
export interface OpenLine extends Node<"open"> {
  readonly date: string | null;
  readonly hours: Hours;
}
/** Who cannot come: a day, the days to another, or hours of a day. */
export interface AwayLine extends Node<"away"> {
  readonly who: readonly Word[];
  readonly date: string;
  readonly until: string | null;
  readonly hours: Hours | null;
}
/** A day of a week. An event without its day or hour is still to be placed. */
export interface DayLine extends Node<"day"> {
  readonly date: string | null;
  readonly time: string | null;
  readonly rest: boolean;
  readonly event: Word | null;
  readonly plan: Word | null;
  readonly again: boolean;
  /** How hard it was, or will be, from 0 to 10. */
  readonly effort: number | null;
  /** How much it counts against the others; 1 where nothing is said. */
  readonly weight: number | null;
}
export interface LogLine extends Node<"log"> {
  readonly plan: Word;
  readonly date: string;
  readonly time: string | null;
}
export interface LogDoneLine extends Node<"log done"> {
  readonly stage: Word;
  readonly at: Value;
}
export interface LogBrokeLine extends Node<"log broke"> {
  readonly athlete: Word;
  readonly at: number;
  readonly movement: Word | null;
}
export interface LogDroppedLine extends Node<"log dropped"> {
  readonly athlete: Word;
  readonly at: Value;
}
export interface LogNoRepLine extends Node<"log no-rep"> {
  readonly athlete: Word;
  readonly count: number;
}
export interface LogFinishLine extends Node<"log finish"> {
  readonly at: Value;
}
/** What stood on the board at a time: reps, or rounds where the event is made of rounds. */
export interface LogRepsLine extends Node<"log reps"> {
  readonly at: Value;
  readonly reps: number;
}
export interface LogHandoverLine extends Node<"log handover"> {
  readonly value: Value;
}
/** How hard it was, from 0 to 10. */
export interface LogFeltLine extends Node<"log felt"> {
  readonly effort: number;
}
export interface LogNoteLine extends Node<"log note"> {
  readonly text: string;
}
export interface LetLine extends Node<"let"> {
  readonly name: Word;
  readonly value: Expression;
}
export interface ExpectLine extends Node<"expect"> {
  readonly left: Expression;
  readonly comparison: Comparison;
  readonly right: Expression;
}
export interface CompareLine extends Node<"compare"> {
  readonly plans: readonly Word[];
}
export interface UseLine extends Node<"use"> {
  readonly path: string;
}
export interface AssumeLine extends Node<"assume"> {
  readonly name: Word;
  readonly value: Value;
}
export interface BrokenLine extends Node<"broken"> {}

export type Line =
  | TeamLine
  | AthleteLine
  | MovementLine
  | HoldLine
  | AsksLine
  | AbilityLine
  | AbilityRowLine
  | EventLine
  | ScoreLine
  | CapLine
  | HandoverLine
  | SetUpLine
  | PairsLine
  | AthletesLine
  | DropCostLine
  | TieLine
  | EquipmentLine
  | OrderLine
  | WorkingLine
  | StageLine
  | WindowLine
  | StationLine
  | RoundLine
  | RoundItemLine
  | RuleLine
  | StandardLine
  | CueLine
  | PlanLine
  | PairLine
  | RepeatLine
  | LaneLine
  | RestLine
  | TurnLine
  | RoundTurnLine
  | NamedRestLine
  | WeekLine
  | ZoneLine
  | DueLine
  | DayLimitLine
  | GapLine
  | KeepLine
  | OpenLine
  | AwayLine
  | DayLine
  | LogLine
  | LogDoneLine
  | LogBrokeLine
  | LogDroppedLine
  | LogNoRepLine
  | LogFinishLine
  | LogRepsLine
  | LogHandoverLine
  | LogFeltLine
  | LogNoteLine
  | LetLine
  | ExpectLine
  | CompareLine
  | UseLine
  | AssumeLine
  | BrokenLine;
