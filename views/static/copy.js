/* Copies the texts a button names. Where there is no clipboard, as on a page without TLS, they are selected and copied. */
'use strict';
(() => {
  const textsOf = (button) =>
    button.dataset.copy
      .split(' ')
      .map((id) => document.getElementById(id))
      .filter((field) => field !== null);

  const select = (field) => {
    field.focus();
    field.select();
  };

  /** Copies what is selected; browsers without a clipboard have nothing else. */
  const copySelected = () => {
    try {
      return document.execCommand('copy');
    } catch {
      return false;
    }
  };

  /** A text that stands in no field is put into one for as long as it takes. */
  const copyThrough = (text) => {
    const field = document.createElement('textarea');
    field.value = text;
    field.readOnly = true;
    field.className = 'message-passing';
    document.body.append(field);
    select(field);
    const isCopied = copySelected();
    field.remove();
    return isCopied;
  };

  const copied = async (button) => {
    const fields = textsOf(button);
    const text = fields.map((field) => field.value).join('\n');
    try {
      await navigator.clipboard.writeText(text);
      return 'Copied.';
    } catch {
      const [only] = fields;
      if (fields.length !== 1) {
        const isCopied = copyThrough(text);
        button.focus();
        return isCopied ? 'Copied.' : 'The browser does not let it be copied: copy each part by itself.';
      }
      select(only);
      return copySelected() ? 'Copied.' : 'It is selected: copy it by hand.';
    }
  };

  document.addEventListener('click', async ({ target }) => {
    const button = target instanceof Element ? target.closest('button[data-copy]') : null;
    if (button === null) return;
    const told = document.getElementById(button.dataset.told);
    for (const other of document.querySelectorAll('.message-copy [role=status]')) other.textContent = '';
    const words = await copied(button);
    if (told !== null) told.textContent = words;
  });

  for (const button of document.querySelectorAll('button[data-copy]')) button.hidden = false;
})();
