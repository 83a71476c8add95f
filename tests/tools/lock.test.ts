import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const read = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
type Package = {
  version?: string;
  resolved?: string;
  integrity?: string;
  hasInstallScript?: boolean;
  link?: boolean;
};
const lock = JSON.parse(read('package-lock.json')) as { packages: Record<string, Package> };
const manifest = JSON.parse(read('package.json')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;
const packages = Object.entries(lock.packages).filter(([path]) => path !== '');

describe('the lock file', () => {
  test('locks what it should', () => {
    expect(packages.length).toBeGreaterThan(100);
  });

  test('brings no install scripts', () => {
    expect(packages.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path)).toEqual([]);
  });

  test('names no hosts, and keeps every integrity hash', () => {
    expect(packages.filter(([, { resolved }]) => resolved !== undefined).map(([path]) => path)).toEqual([]);
    expect(read('package-lock.json')).not.toMatch(/"(?:https?|git[^"]*):\/\/[^"]*\.tgz/);
    expect(
      packages.filter(([, { integrity }]) => !integrity?.startsWith('sha512-')).map(([path]) => path),
    ).toEqual([]);
  });

  test('holds exactly the versions that package.json pins', () => {
    const pins = { ...manifest.dependencies, ...manifest.devDependencies };
    for (const [name, pin] of Object.entries(pins)) {
      expect(pin).toMatch(/^\d+\.\d+\.\d+$/);
      expect(lock.packages[`node_modules/${name}`]?.version).toBe(pin);
    }
  });
});
