/** One delivery being received: the document, its judgement, and every change saved at once. */
import { t } from "../messages";
import { uuidv7 } from "uuidv7";
import type { Addendum, Carton, Inspection, Judgement, Line, Specification } from "../store/document";
import { EMPTY_NOTES, closeForSigning, deliveryById, keepAddendum, reopenDraft, saveDocument, saveNotes } from "../store/documents";
import type { StoredDelivery, WalkNotes } from "../store/schema";
import type { judge } from "./judging";
import { newCarton } from "./start_document";
import { runs } from "./runs.svelte";
import { session } from "./session.svelte";
import { cartonAt, nextOpen, stepsOf, type Step } from "./steps";
import { undo } from "./undo.svelte";
import { waiting } from "./waiting.svelte";

/** What one tap changes: the document, the notes beside it, or both. */
export interface Change {
  said: string;
  document?: (draft: Inspection) => void;
  notes?: (draft: WalkNotes) => void;
}

let judging = $state.raw<typeof judge | null>(null);
/** The judgements come with the screens behind the first question; nothing is suggested before. */
export function judgeBy(given: typeof judge): void {
  judging = given;
}

export class Walk {
  #body = $state.raw<Inspection>() as Inspection;
  #notes = $state.raw<WalkNotes>(EMPTY_NOTES);
  #stored = $state.raw<StoredDelivery | null>(null);
  #failure = $state<string | null>(null);
  #queue: Promise<void> = Promise.resolve();

  readonly steps: Step[] = $derived(stepsOf(this.#body, this.#notes, (id) => session.specification(id)));
  readonly judgement: Judgement | null = $derived(this.#judge());

  constructor(body: Inspection, stored: StoredDelivery | null = null) {
    this.#body = body;
    this.#stored = stored;
    this.#notes = stored?.notes ?? { ...EMPTY_NOTES };
  }

  /** Read a delivery from the phone; null when it is not here. */
  static async open(id: string): Promise<Walk | null> {
    const stored = await deliveryById(id);
    return stored ? new Walk(stored.body, stored) : null;
  }

  get body(): Inspection {
    return this.#body;
  }
  get notes(): WalkNotes {
    return this.#notes;
  }
  get stored(): StoredDelivery | null {
    return this.#stored;
  }
  get id(): string {
    return this.#body.id;
  }
  get isDraft(): boolean {
    return (this.#stored?.state ?? "draft") === "draft";
  }
  /** Why the last change could not be kept; shown where the person looks until it is kept. */
  get failure(): string | null {
    return this.#failure;
  }

  line(id: string | null): Line {
    const line = this.#body.lines.find((candidate) => candidate.id === id);
    if (!line) throw new Error(`no line ${id}`);
    return line;
  }
  specification(line: Line): Specification | null {
    return session.specification(line.specification_id);
  }
  carton(lineId: string | null, position: number | null): Carton | null {
    return position === null ? null : cartonAt(this.line(lineId), position);
  }
  step(key: string | null): Step | null {
    return this.steps.find((step) => step.key === key) ?? null;
  }
  nextAfter(key: string | null): Step | null {
    return nextOpen(this.steps, key);
  }

  #judge(): Judgement | null {
    return this.judgementOf(this.#body);
  }
  /** What the limits say of a document that is being changed. */
  judgementOf(document: Inspection): Judgement | null {
    const limits = session.limitSet(document.limits_id);
    return limits && judging ? judging(document, session.reference?.specifications ?? [], limits) : null;
  }

  /** Record one tap: shown at once, kept on the disk at once, and it can be taken back. */
  change(change: Change): Promise<void> {
    const before = { body: this.#body, notes: this.#notes };
    this.#apply(change);
    undo.offer(change.said, async () => {
      this.#body = before.body;
      this.#notes = before.notes;
      await this.#save("");
    });
    return this.#save(change.said);
  }

  /** Change something of an opened carton; its first answer is what opens it in the record. */
  changeCarton(lineId: string, position: number, said: string, edit: (carton: Carton) => void): Promise<void> {
    return this.change({
      said,
      document: (draft) => {
        const line = draft.lines.find((candidate) => candidate.id === lineId)!;
        let carton = cartonAt(line, position);
        if (!carton) line.cartons.push((carton = newCarton(position)));
        edit(carton);
      },
    });
  }

  #apply(change: Change): void {
    if (change.document) {
      const draft = structuredClone(this.#body);
      change.document(draft);
      this.#body = withoutStaleWords(this.#body, draft);
    }
    if (change.notes) {
      const draft = structuredClone(this.#notes);
      change.notes(draft);
      this.#notes = draft;
    }
  }

  #save(said: string): Promise<void> {
    const { body, notes } = { body: this.#body, notes: this.#notes };
    this.#queue = this.#queue.then(async () => {
      try {
        this.#stored = await saveDocument(body, notes);
        this.#failure = null;
        undo.markKept(said);
        waiting.nudge();
      } catch (error) {
        this.#failure = failureSentence(error);
      }
    });
    return this.#queue;
  }

  /** Try to keep the present state once more, after a full or failing disk. */
  saveAgain(): Promise<void> {
    return this.#save("");
  }

  async saveNotesOnly(edit: (draft: WalkNotes) => void): Promise<void> {
    this.#apply({ said: "", notes: edit });
    if (this.#stored) await saveNotes(this.id, this.#notes);
  }

  /** What the sender has learnt since: conflict, seal, state. The words being typed stay. */
  async refresh(): Promise<void> {
    const stored = await deliveryById(this.id);
    if (!stored) return;
    if (stored.state !== this.#stored?.state) this.#body = stored.body;
    this.#stored = stored;
  }

  /** Close the document with both signatures and queue it for the seal. */
  async sign(): Promise<void> {
    const { receiver_signature: receiver, driver_signature: driver } = this.#notes;
    if (!receiver || !driver) throw new Error("both signatures, or the driver's refusal, are needed");
    await this.#queue;
    try {
      this.#stored = await closeForSigning(this.id, { receiver, driver }, uuidv7());
      this.#body = this.#stored.body;
      this.#failure = null;
    } catch (error) {
      this.#failure = failureSentence(error);
      return;
    }
    void runs.endAllOf(this.id);
    undo.clear();
    waiting.nudge();
  }

  /** Open the draft again after the server would not sign it. */
  async reopen(): Promise<void> {
    await reopenDraft(this.id);
    const stored = await deliveryById(this.id);
    if (stored) {
      this.#stored = stored;
      this.#body = stored.body;
      this.#notes = stored.notes;
    }
    waiting.nudge();
  }

  async add(kind: Addendum["kind"], at: string, body: Addendum["body"]): Promise<void> {
    const me = session.me;
    const person = me ? { person_id: me.id, name: me.name } : this.#body.receiver;
    try {
      await keepAddendum({ id: uuidv7(), delivery_id: this.id, kind, at, person, device_id: session.device, body });
      this.#failure = null;
    } catch (error) {
      this.#failure = failureSentence(error);
    }
    await this.refresh();
    waiting.nudge();
  }
}

/** A decision was made on the line's facts, the docket words on all of them: changed facts undo both. */
function withoutStaleWords(before: Inspection, after: Inspection): Inspection {
  const factsOf = (line: Line | undefined) => JSON.stringify({ ...line, decision: null, suggested: null });
  for (const line of after.lines) {
    const earlier = before.lines.find(({ id }) => id === line.id);
    if (factsOf(earlier) === factsOf(line)) continue;
    line.decision = null;
    line.suggested = null;
  }
  const wordedBy = (body: Inspection) => JSON.stringify([body.lines, body.vehicle, body.docket_number]);
  const isWordedNow = JSON.stringify(before.wording) !== JSON.stringify(after.wording);
  if (!isWordedNow && wordedBy(before) !== wordedBy(after)) after.wording = null;
  return after;
}

function failureSentence(error: unknown): string {
  if (error instanceof DOMException && error.name === "QuotaExceededError") {
    return t("dock-walk-phone-full-last");
  }
  if (error instanceof Error && error.name === "SignedAlready") {
    return t("dock-walk-delivery-signed-what");
  }
  return t("dock-walk-last-entry-could");
}
