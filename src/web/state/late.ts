/** Parts of the page that most visits do not need: a script of their own, put in when they are wanted. */

import { InputError } from "../../core/errors.ts";

interface Late {
  readonly files: typeof import("../late/files.ts");
  readonly papers: typeof import("../late/papers.ts");
}

const wanted = new Map<keyof Late, Promise<unknown>>();

/** @throws InputError if the script cannot be loaded; it is tried anew next time */
export function late<Name extends keyof Late>(name: Name): Promise<Late[Name]> {
  const known = wanted.get(name) as Promise<Late[Name]> | undefined;
  if (known) return known;
  const loading = new Promise<Late[Name]>((settle, fail) => {
    const script = document.createElement("script");
    script.src = `./${name}.js`;
    script.onload = () => settle((globalThis as unknown as Record<string, Late[Name]>)[`fettle_${name}`] as Late[Name]);
    script.onerror = () => {
      wanted.delete(name);
      fail(
        new InputError(
          `${name}.js`,
          "was not loaded",
          "Open the page once where its files can be reached, then try again",
        ),
      );
    };
    document.head.append(script);
  });
  wanted.set(name, loading);
  return loading;
}
