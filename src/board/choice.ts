/** What is chosen on the board or in a table: one kind of thing of the part, by its id. */
export type ChoiceKind = 'station' | 'segment' | 'length' | 'edge' | 'hole' | 'crossing';
export type Choice = { readonly kind: ChoiceKind; readonly id: string };

export const sameChoice = (a: Choice | null, b: Choice | null): boolean =>
  a === b || (a !== null && b !== null && a.kind === b.kind && a.id === b.id);
