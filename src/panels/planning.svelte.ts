import { drawingOf } from '../bench/drawing.ts';
import { stepsOf } from '../bench/steps.ts';
import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { PartDocument } from '../keep/document.svelte.ts';
import type { Advised, Planned } from '../keep/planner.ts';
import { rooms } from './rooms.ts';

/** What is planned for. */
type Desk = { readonly document: PartDocument; readonly lathe: Lathe };

/** The plan of what is on the board, as far as it is worked out by now, and which of its pages a person looks at. */
export class Planning {
  readonly #desk: Desk;
  planned = $state.raw<Planned | null>(null);
  advised = $state.raw<Advised | null>(null);
  #drawing: Part | null = null;
  #at = $state(0);
  #holding = $state<string | null>(null);

  /** What is planned: the part without what was done at the lathe. */
  drawing: Part = $derived.by(() => (this.#drawing = drawingOf(this.#desk.document.part, this.#drawing)));
  /** Whether the plan of what is on the board is still being worked out. */
  pending = $derived.by(() => !this.#isFor(this.planned));
  /** All that is worked out by now: with the plan where it belongs to this very drawing and lathe, else without. */
  #planned: Report = $derived.by(() => {
    const { report } = this.#desk.document;
    return this.planned && !this.pending ? withScan(this.planned.report, report) : report;
  });
  /** What was measured and ticked, and what follows from it. */
  actuals = $derived.by(() => {
    const { document, lathe } = this.#desk;
    if (!this.#planned.plan) return null;
    return rooms.actuals.now?.actualsOf(document.part, lathe, this.#planned) ?? null;
  });
  /** All that is known now, with what was done at the lathe. */
  report: Report = $derived.by(() =>
    this.actuals ? { ...this.#planned, actuals: this.actuals } : this.#planned,
  );
  /** What mends lengths that the plan of this very drawing and lathe does not hold; null while it is sought. */
  advice = $derived.by(() => (this.advised && this.#isFor(this.advised) ? this.advised.advice : null));
  steps = $derived.by(() => stepsOf(this.report.plan));
  /** The page of the Cut place; stays within a plan that became shorter. */
  at = $derived.by(() => Math.max(0, Math.min(this.#at, this.steps.length - 1)));
  holding = $derived.by(() => {
    const holdings = this.report.plan?.holdings ?? [];
    return holdings.find(({ id }) => id === this.#holding) ?? holdings[0] ?? null;
  });

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  turnTo(at: number): void {
    this.#at = at;
    this.#holding = this.steps[at]?.holding?.id ?? this.#holding;
  }

  lookAt(holding: string): void {
    this.#holding = holding;
    const first = this.steps.findIndex((step) => step.holding?.id === holding);
    if (first >= 0) this.#at = first;
  }

  /** Another part is on the board: its plan is looked at from the first page. */
  lookAfresh(): void {
    this.#at = 0;
    this.#holding = null;
  }

  /** Takes it that what is on the board now cannot be planned, as the planner itself stopped. */
  failed(why: string): void {
    const { document, lathe } = this.#desk;
    const { report } = document;
    const fault = { code: 'planner-stopped', where: 'plan', say: `No plan could be worked out: ${why}.` };
    this.planned = {
      part: this.drawing,
      lathe,
      report: { ...report, errors: [...report.errors, fault] },
    };
  }

  #isFor(worked: Pick<Planned, 'part' | 'lathe'> | null): boolean {
    return worked?.part === this.drawing && worked.lathe === this.#desk.lathe;
  }
}

/** What is planned has no picture, so what that says about the sizes comes from the report of the whole part. */
function withScan(planned: Report, whole: Report): Report {
  const said = whole.warnings.filter(({ code }) => code.startsWith('scan-'));
  return said.length === 0 ? planned : { ...planned, warnings: [...said, ...planned.warnings] };
}
