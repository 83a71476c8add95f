import first from '../../static/examples/blower-shaft.json?raw';

/** The examples that come with the app, by their file under `examples/`; the first is what opens first. */
export const examples = [
  { file: 'blower-shaft.json', name: 'Forge-blower shaft: finished' },
  { file: 'idler-axle-open.json', name: 'Idler axle: a length is missing' },
  { file: 'winch-spindle-clash.json', name: 'Winch spindle: sizes clash' },
  { file: 'grindstone-spindle-traced.json', name: 'Grindstone spindle: traced, a size misread' },
] as const;

export type Example = (typeof examples)[number];

/** The text of the first example. It comes with the program: on a first visit a person waits for nothing else. */
export const firstExample = first;

/** The text of an example, from where the app itself came. Rejects where it cannot be had. */
export async function fetchExample(file: string): Promise<string> {
  const answer = await fetch(`${import.meta.env.BASE_URL}examples/${file}`);
  if (!answer.ok) throw new Error(`${file}: the example could not be fetched (${answer.status}).`);
  return answer.text();
}
