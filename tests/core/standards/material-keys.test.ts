import { expect, test } from 'vitest';
import { isMaterial, MATERIAL_KEYS } from '../../../src/core/standards/material-keys.ts';
import { material, materialKeys } from '../../../src/core/standards/materials.ts';

test('the keys that a drawing is read with are those of the table, in its order', () => {
  expect(materialKeys()).toEqual(MATERIAL_KEYS);
});

test('a name is known where the table has figures for it', () => {
  for (const key of [...MATERIAL_KEYS, 'silver-steel', 'aluminum', 'oak', ''])
    expect(isMaterial(key), key).toBe(material(key) !== null);
});
