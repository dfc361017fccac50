/** The routes an app answers to GET with, as it has them. */
import { createApp } from '../../server/app.ts';
import type { Deps } from '../../server/deps.ts';

interface Layer {
  readonly route?: { readonly path: string; readonly methods: Readonly<Record<string, boolean>> };
  readonly handle?: { readonly stack?: readonly Layer[] };
}

/** Paths of every route that answers GET, parameters with their names, files of the layout left out. */
export function getRoutes(): readonly string[] {
  // Routes are made without asking anything of what they are given.
  const nothing = new Proxy({}, { get: () => () => [] });
  const app = createApp(nothing as Deps) as unknown as { router: { stack: readonly Layer[] } };
  const pathsIn = (stack: readonly Layer[]): readonly string[] =>
    stack.flatMap(({ route, handle }) => {
      if (route === undefined) return pathsIn(handle?.stack ?? []);
      return route.methods['get'] === true ? [route.path] : [];
    });
  return pathsIn(app.router.stack).filter((path) => !/^\/(?:static|fonts|favicon)/.test(path));
}
