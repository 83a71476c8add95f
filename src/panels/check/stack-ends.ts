/** Between which stations a person looks. */
export type StackView = { readonly from: string; readonly to: string };
export const freshStackView: StackView = { from: '', to: '' };
