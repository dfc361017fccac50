/** Forms under `/passage`, sent as a browser without script sends them. */
import type { PassageFile } from '../../lib/passage/index.ts';
import { fieldsOf } from './sent-forms.ts';
import type { TestServer } from './test-server.ts';

export interface EditForms {
  readonly html: (path: string) => Promise<string>;
  /** The fields of the form at a path, as it shows them. */
  readonly shown: (path: string) => Promise<Record<string, string>>;
  /** Sends the form of a path as it is shown but for some fields. */
  readonly send: (path: string, changed: Readonly<Record<string, string>>) => Promise<Response>;
  /** Sends just these fields, against the state of the passage now. */
  readonly post: (path: string, fields: Readonly<Record<string, string>>) => Promise<Response>;
  readonly file: () => Promise<PassageFile>;
  readonly version: () => Promise<string>;
}

export function editForms(server: TestServer): EditForms {
  const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
  const shown = async (path: string): Promise<Record<string, string>> => {
    const page = await html(path);
    return fieldsOf(page.slice(page.indexOf('<main')));
  };
  const sent = (path: string, fields: Readonly<Record<string, string>>): Promise<Response> =>
    fetch(server.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
  const version = async (): Promise<string> => {
    const info = await server.kept.documents.documentInfo();
    return info.ok ? `${info.value.number}.${info.value.version}` : '';
  };
  return {
    html,
    shown,
    version,
    send: async (path, changed) => sent(path, { ...(await shown(path)), ...changed }),
    post: async (path, fields) => sent(path, { version: await version(), ...fields }),
    file: async () => {
      const document = await server.kept.documents.passageDocument();
      if (!document.ok) throw new Error(JSON.stringify(document.problems));
      return document.value.file;
    },
  };
}
