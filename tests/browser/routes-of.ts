/** The routes an app answers to GET with, as it has them. */
import { createApp } from '../../server/app.ts';
import type { Deps } from '../../server/deps.ts';
import { FORM_PAGES } from '../../server/routes/form-addresses.ts';

interface Layer {
  readonly route?: { readonly path: string; readonly methods: Readonly<Record<string, boolean>> };
  readonly handle?: { readonly stack?: readonly Layer[] };
}

/** Paths of every page and part: what answers GET, parameters with their names, without files of the layout. */
export const getRoutes = (): readonly string[] =>
  routesOf('get').filter((path) => !/^\/(?:static|fonts|favicon)/.test(path) && !Object.hasOwn(FORM_PAGES, path));

/** Paths of every route that a form is sent to. */
export const postRoutes = (): readonly string[] => routesOf('post');

function routesOf(method: 'get' | 'post'): readonly string[] {
  // Routes are made without asking anything of what they are given.
  const nothing = new Proxy({}, { get: () => () => [] });
  const app = createApp(nothing as Deps) as unknown as { router: { stack: readonly Layer[] } };
  const pathsIn = (stack: readonly Layer[]): readonly string[] =>
    stack.flatMap(({ route, handle }) => {
      if (route === undefined) return pathsIn(handle?.stack ?? []);
      return route.methods[method] === true ? [route.path] : [];
    });
  return pathsIn(app.router.stack);
}
