/* Day or night at one press, where the reader stands: what is typed and not yet sent stays. Without it a new page comes. */
'use strict';
(() => {
  const WORDS = { day: 'Day', night: 'Night' };

  const show = (style, button) => {
    document.documentElement.className = style;
    document.querySelector('meta[name=color-scheme]').content = style === 'night' ? 'dark' : 'light';
    const other = style === 'night' ? 'day' : 'night';
    button.value = other;
    button.firstChild.textContent = WORDS[other];
  };

  document.addEventListener('submit', (event) => {
    const form = event.target;
    const button = form.querySelector('button[name=style]');
    if (!form.matches('form.style') || button === null) return;
    event.preventDefault();
    const style = button.value;
    // Eyes first: the display changes where the program cannot be reached, too; the next page has it if it was told.
    show(style, button);
    fetch(form.action, {
      method: 'POST',
      body: new URLSearchParams({ style }),
      redirect: 'manual',
      keepalive: true,
    }).catch(() => undefined);
  });
})();
