import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import express, { Router } from 'express';

const ownFiles = resolve(import.meta.dirname, '../../views/static');
const { resolve: fileOf } = createRequire(import.meta.url);

/** Font files served, by name: Latin subsets, SIL Open Font Licence 1.1. */
const fonts = {
  'b612-latin-400-normal.woff2': '@fontsource/b612/files/b612-latin-400-normal.woff2',
  'b612-latin-700-normal.woff2': '@fontsource/b612/files/b612-latin-700-normal.woff2',
  'b612-mono-latin-400-normal.woff2': '@fontsource/b612-mono/files/b612-mono-latin-400-normal.woff2',
} as const;

const files: Readonly<Record<string, string>> = {
  '/static/htmx.min.js': fileOf('htmx.org/dist/htmx.min.js'),
  '/favicon.ico': join(ownFiles, 'icon.svg'),
  ...Object.fromEntries(Object.entries(fonts).map(([name, request]) => [`/fonts/${name}`, fileOf(request)])),
};

/** Styles, script and fonts, all from this machine; browsers ask again each time and get a 304. */
export function staticRoutes(): Router {
  const router = Router();
  for (const [path, file] of Object.entries(files)) {
    router.get(path, (_request, response, next) => {
      response.set('Cache-Control', 'no-cache').sendFile(file, { dotfiles: 'allow' }, (error?: Error) => {
        if (error !== undefined && !response.headersSent) next(error);
      });
    });
  }
  return router.use('/static', express.static(ownFiles, { index: false, cacheControl: false }));
}
