/** A thread's text taken apart from the marks that both systems share. */
export type ThreadText = { readonly body: string; readonly leftHand: boolean; readonly asWritten: string };

/** Left hand is kept in the designation, as the tables are the same for both hands. */
export const withHand = (designation: string, leftHand: boolean): string =>
  leftHand ? `${designation}-LH` : designation;
