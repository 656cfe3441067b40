// The shapes that page and desk hand each other. For the type checker alone; nothing of it is served.
export type Path = (string | number)[];
export type Value = string | Value[] | {[key: string]: Value};
export type Tree = {[key: string]: any};
export type UnitSystem = "metric" | "us";
export type Level = "normal" | "mild" | "moderate" | "severe";
export type State = "examine" | "sign" | "ready" | "at-printer" | "printed" | "mailed" | "maybe-mailed";
export type JobState = "waiting" | "at-work" | "at-printer" | "stopped" | "done" | "unsure" | "failed";

/** A field of the visit record, as the schema tables of the desk have it. */
export interface Field {
  key: string;
  kind: "text" | "date" | "partial-date" | "quantity" | "band" | "box" | "choice" | "flag" | "texts" | "choices" | "record" | "records" | "some-records" | "named";
  required: boolean;
  long: boolean;
  example: string | null;
  units?: string[];
  usual?: Record<UnitSystem, string>;
  choices?: string[];
  fields?: Field[];
}

export interface Part { key: string; fields: string[] }
export interface Species { code: string; name: string; scientific: string; group: string; also: string[]; findings: string[] }
export interface Group { group: string; findings: string[] }
export interface Finding {
  code: string; system: string; name: string; severities: Level[];
  /** Findings that cannot stand beside it; the steps of its own scale; whether a number is written down with it. */
  excludes: string[]; steps: string[]; value: boolean;
}
export interface Procedure { code: string; name: string; groups: string[]; sets_sex: boolean }
export interface Named { code: string; name: string }

export type Role = "reception" | "veterinarian" | "shelter";
export interface Person { name: string; role: Role }

export interface Start {
  people: boolean; person: Person | null; idle: number;
  token: string; today: string; lang: string; clinic: string; units: UnitSystem; language: string; languages: string[]; kinds: string[];
  words: Record<string, string>; species: Species[]; unlisted: Group[]; findings: Finding[]; procedures: Procedure[]; foods: Named[];
  fields: Field[]; parts: Part[];
}

export interface Fault { path: string; code: string; number?: number; text: string; said?: string }
export interface LogLine { at: string; deed: string; who: string; remark: string }
export interface Action { code: string; own: string | null; do: string; how: string | null; why: string[] }
/** What the veterinarian decided, as the record has it. */
export interface Decision { topic?: string; stance?: string; until?: string; confirmed?: string; action?: string; strike?: string; place?: string; do?: string; because?: string }
/** What holds of a topic of care from one day to another, in words. */
export interface Phase { stance: string; says: string; beside: string[]; from: string; until: string | null; ends: string | null; because: string[];
  gave_way: {says: string; because: string | null}[]; decided_by?: string; reason?: string; confirmed?: boolean }
export interface Topic { topic: string; name: string; usual: boolean; phases: Phase[]; choices: {stance: string; says: string; needs_end: boolean}[] }
export interface Plan { topics: Topic[]; go_now: boolean; first: Action[]; more: Action[]; struck: {code: string; do: string | null}[]; missing: string[]; review: string[] }
export interface Entry { code: string; severity?: Level; where?: string; note?: string; step?: string; value?: string; state?: string; certainty?: string }

/** What one window typed and nobody saved. */
export interface Draft { window: string; at: string; who: string; version: string; record: Tree }

export interface Job { number: number; kind: "mail" | "print"; record: string; who: string; state: JobState; why: string; tries: number }
export interface Printer { name: string; info: string; default: boolean; stopped: string | null }
export interface Printers { known: boolean; why: string; printers: Printer[] }

/** Of a signature that no longer holds: whose it was, and which parts changed since. */
export interface Stale { by: string; on: string; changed: string[] }

export interface Opened {
  name?: string; draft?: string; version?: string; state?: State; remarks?: boolean; record?: Tree; stale?: Stale | null;
  drafts?: Draft[]; log?: LogLine[]; jobs?: Job[]; faults?: Fault[]; notes?: Fault[]; plan?: Plan | null;
}

/** A file that was kept beside the records, and the probes of a logger's. */
export interface Beside { file: string; probes: string[] }

export interface Visit { name: string; version: string; patient: string; keeper: string; telephone: string; species: string; date: string; state: State; broken: number }
/** Who is to come: the record of the visit before, and the time. */
export interface Booked { name: string; patient: string; keeper: string; telephone: string; species: string; at: string }
export interface Begun { draft: string; patient: string; who: string; at: string }
export interface Visits {
  today: string; visits: Visit[]; drafts: Begun[]; jobs: Job[]; found: number; shown: number; records: number;
  left: string[]; booked: Booked[]; templates_broken: boolean;
}

/** A row of a shelter's list: as the spreadsheet counts its lines, with its cells as they stand there. */
export interface Row { line: number; left: boolean; good: boolean; name: string; species: string; adopter: string; cells: string[]; faults: Fault[] }
export interface Making { ended: boolean; done: number; all: number; good: boolean; joined: boolean; bad: number }
export interface List {
  id: string; file: string; at: string; encoding: string; signed: boolean; by: string | null; columns: {title: string; name: string}[]; names: string[];
  faults: Fault[]; rows: Row[]; making: Making | null;
}
export interface Lists { lists: {id: string; file: string; at: string}[] }

export type Trusted = "original" | "copy" | "memory";
export interface Trust { values: number; left: number; by: string | null; on?: string }
export interface ReviewedSpecies { code: string; trust: Trust }
export interface Sourced { metric: string; us: string; source: string | null; trust: Trusted }
export interface ValueOfSheet extends Sourced {
  key: string; open: boolean; written: string; choice: string | null; disagrees: Sourced[]; says: string[]; shipped_now: Sourced | null;
  confirmed: {by: string; on: string; edition: string | null; reason: string | null} | null;
}
export interface Review { code: string; scientific: string; trust: Trust; values: ValueOfSheet[] }

/** Where a field stands on the page, and where its fault is told. */
export interface Place { input: HTMLElement; fault: HTMLElement; path: Path }

/** What the fields of a form need of it (form.js). */
export interface FormLike {
  record: Tree;
  places: Map<string, Place>;
  findings: HTMLElement;
  /** What fields do when the record's units become known. */
  units: (() => void)[];
  changed(path: Path, value: unknown): void;
  /** The same for what is done with a click, so that it can be undone. */
  chosen(path: Path, value: unknown): void;
  /** Another record in its place, to be undone likewise. */
  replace(record: Tree): void;
  speciesChanged(): void;
  forget(prefix: string): void;
  showFaults(): void;
}

export type Child = Node | string | number | false | null | undefined | Child[];
export type Leave = () => void | Promise<void>;
