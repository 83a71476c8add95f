import { expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { drawingPlaces } from '../../../src/core/outline/drawing-places.ts';
import { ordinatesOf, presented, type Presentation } from '../../../src/core/outline/presentation.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { pin } from '../part/samples.ts';

const part = pin(['12', '20', '12'], {
  unit: 'mm',
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '10', tol: '±0.1' },
    { id: 'L2', from: 'A', to: 'C', size: '25' },
    { id: 'L3', from: 'C', to: 'D', size: '12.5', lane: 2 },
  ],
});
const told = (one: Part, how: Presentation) => {
  const chains = solveChains(resolvePart(one)).report;
  return presented(one, chains, one.unit, how, drawingPlaces(one, chains).at).map(
    ({ from, to, text, given }) => `${from}${to} ${text}${given ? '' : ' worked out'}`,
  );
};

// One part, four presentations; differences and sums by hand. Chain, baseline (from one face) and ordinate (running)
// dimensioning are the arrangements of ISO 129-1; an auxiliary size stands in brackets there (from memory).
test('the same part as its plan gives it, end to end, from one face, and as places', () => {
  expect(told(part, 'plan')).toEqual(['AB 10 ±0.1', 'AC 25', 'CD 12.5']);
  expect(told(part, 'chain')).toEqual(['AB 10 ±0.1', 'BC (15) worked out', 'CD 12.5']);
  expect(told(part, 'baseline')).toEqual(['AB 10 ±0.1', 'AC 25', 'AD (37.5) worked out']);
  expect(told(part, 'ordinate')).toEqual([]);
  const chains = solveChains(resolvePart(part)).report;
  expect(ordinatesOf(part, chains, 'mm').map(({ station, text }) => `${station} ${text}`)).toEqual([
    'A 0',
    'B 10',
    'C 25',
    'D 37.5',
  ]);
});

test('what nothing places has no size to work out, and asks for one', () => {
  const open = { ...part, lengths: part.lengths.slice(0, 2) };
  expect(told(open, 'chain')).toEqual(['AB 10 ±0.1', 'BC (15) worked out', 'CD ? worked out']);
  const chains = solveChains(resolvePart(open)).report;
  expect(ordinatesOf(open, chains, 'mm').at(-1)).toEqual({ station: 'D', text: null });
});
