type Rules = { createHTML: (text: string) => string; createScriptURL: (url: string) => string };
type Types = { createPolicy: (name: string, rules: Rules) => unknown };

/**
 * What may be run, where the browser asks (trusted types): scripts of workers from where the app itself came, and no text
 * as HTML but the empty one that clears a box. Svelte's own templates have a policy of their own.
 */
export function trustOnlyOurOwn(): void {
  const { trustedTypes } = globalThis as { trustedTypes?: Types };
  trustedTypes?.createPolicy('default', {
    createHTML: (text) => {
      if (text === '') return text;
      throw new TypeError('No text is taken as HTML here.');
    },
    createScriptURL: (url) => {
      if (new URL(url, location.href).origin === location.origin) return url;
      throw new TypeError(`No script is taken from ${url}.`);
    },
  });
}
