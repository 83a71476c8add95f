import type { ResolvedPart } from '../part/resolved.ts';
import { detect } from './detect.ts';
import { tieUp } from './tie-up.ts';
import type { SolvedChains } from './types.ts';

/**
 * Ties the stations of a part together by its lengths, and says where that fails: what is missing, said twice, contradicts
 * itself or cannot be made, and which size was likely misread.
 *
 * Stations are the nodes of a graph; binding lengths, and tapers with both diameters and an angle, are its edges. Gaps are whole
 * picometres, so a loop closes or it does not. Limits form difference constraints together with the order of the faces, whose
 * shortest paths are the tightest spans and whose negative cycles prove that no part can meet the drawing.
 * Nothing is thrown for what a drawing may hold; what is wrong stands in `errors`, with the lists of the report filled all the same.
 * Source: Cormen et al., Introduction to Algorithms, 3rd ed., 24.4, for the constraints.
 */
export const solveChains = (part: ResolvedPart): SolvedChains => tieUp(part, detect);
