/* Shows what stands at an hour of a strip: pointed at, touched, or reached by the arrow keys. */
'use strict';
(() => {
  const PAGE_KEY_HOURS = 6;

  const partsOf = (node) => {
    const section = node instanceof Element ? node.closest('.hours') : null;
    const reading = section?.querySelector('.reading') ?? null;
    return reading === null ? null : { section, reading };
  };

  const rowsOf = (reading) => reading.dataset.rows.split('\n').map((line) => line.split('\t'));

  /** Links of one strip, in the order of the rows. */
  const linksOf = (strip) => [...strip.querySelectorAll('a')];

  const setHref = (link, href) => {
    const gone = href === null ? ['href'] : ['role', 'aria-disabled'];
    for (const name of gone) link.removeAttribute(name);
    if (href !== null) link.setAttribute('href', href);
    else {
      // A link that leads nowhere is said to be one.
      link.setAttribute('role', 'link');
      link.setAttribute('aria-disabled', 'true');
    }
  };

  const show = ({ section, reading }, wanted) => {
    const rows = rowsOf(reading);
    const index = Math.min(rows.length - 1, Math.max(0, wanted));
    const [utc, ...values] = rows[index];
    const shown = [...reading.querySelectorAll('[data-value]')];
    for (const [i, node] of shown.entries()) node.textContent = values[i] ?? '';
    reading.dataset.shown = String(index);
    for (const strip of section.querySelectorAll('.strip-hours')) {
      strip.querySelector('.is-read')?.classList.remove('is-read');
      linksOf(strip)[index]?.classList.add('is-read');
    }
    const [strip] = section.querySelectorAll('.strip-hours');
    const links = strip === undefined ? [] : linksOf(strip);
    for (const link of reading.querySelectorAll('[data-move]')) {
      setHref(link, links[index + Number(link.dataset.move)]?.getAttribute('href') ?? null);
    }
    reading.querySelector('.reading-more')?.setAttribute('href', `${reading.dataset.more}${utc}`);
    const terms = [...reading.querySelectorAll('dt')].map((term) => term.textContent);
    const told = [values[0], values[1], ...terms.map((term, i) => `${term} ${values[i + 2]}`)].join(', ');
    for (const slider of section.querySelectorAll('.hour-slider')) {
      slider.setAttribute('aria-valuenow', String(index));
      slider.setAttribute('aria-valuetext', told);
    }
  };

  /** The strip whose values are held in sight. */
  let pointed = null;

  const hold = (parts) => {
    parts.reading.classList.add('is-pointed');
    pointed = parts;
  };

  /** The hour that is shown when nothing is pointed at. */
  const keep = (parts, index) => {
    show(parts, index);
    hold(parts);
    parts.reading.dataset.kept = parts.reading.dataset.shown;
  };

  const keptOf = ({ reading }) => Number(reading.dataset.kept ?? reading.dataset.shown);

  const hourOf = (node) => {
    const link = node instanceof Element ? node.closest('.strip-hours a') : null;
    const parts = link === null ? null : partsOf(link);
    return parts === null ? null : { parts, index: linksOf(link.parentNode).indexOf(link) };
  };

  const release = () => {
    if (pointed === null) return;
    pointed.reading.classList.remove('is-pointed');
    show(pointed, keptOf(pointed));
    pointed = null;
  };

  document.addEventListener('pointerover', (event) => {
    const hour = hourOf(event.target);
    if (hour === null) {
      // The values may lie over the strip: reading them is not leaving it.
      if (!pointed?.reading.contains(event.target)) release();
      return;
    }
    if (event.pointerType === 'touch') return;
    if (pointed?.reading !== hour.parts.reading) release();
    hour.parts.reading.dataset.kept ??= hour.parts.reading.dataset.shown;
    hold(hour.parts);
    show(hour.parts, hour.index);
  });

  document.addEventListener('pointerout', (event) => {
    if (event.relatedTarget === null && event.pointerType !== 'touch') release();
  });

  document.addEventListener('click', (event) => {
    const isPlain = event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey && !event.altKey;
    if (!isPlain || event.defaultPrevented || !(event.target instanceof Element)) return;
    const hour = hourOf(event.target);
    if (hour !== null) {
      // A finger cannot point first: its first touch reads.
      const isRead = hour.parts.reading.dataset.pressed === 'read' || event.pointerType === 'touch';
      if (isRead) event.preventDefault();
      return isRead ? keep(hour.parts, hour.index) : undefined;
    }
    const move = event.target.closest('.reading [data-move]');
    const parts = move === null ? null : partsOf(move);
    if (parts === null) return;
    event.preventDefault();
    keep(parts, keptOf(parts) + Number(move.dataset.move));
  });

  const steps = {
    ArrowLeft: -1,
    ArrowUp: -1,
    ArrowRight: 1,
    ArrowDown: 1,
    PageUp: -PAGE_KEY_HOURS,
    PageDown: PAGE_KEY_HOURS,
    Home: -Infinity,
    End: Infinity,
  };

  document.addEventListener('keydown', (event) => {
    const slider = event.target instanceof Element ? event.target.closest('.hour-slider') : null;
    const parts = slider === null ? null : partsOf(slider);
    if (parts === null || event.ctrlKey || event.metaKey || event.altKey) return;
    const step = steps[event.key];
    if (step !== undefined) {
      event.preventDefault();
      keep(parts, keptOf(parts) + step);
    }
    if (event.key === 'Enter') parts.reading.querySelector('.reading-more')?.click();
  });

  /** Strips that came with the page, or with a part of it that was swapped in. */
  const makeReady = () => {
    for (const slider of document.querySelectorAll('.hour-slider[hidden]')) {
      const parts = partsOf(slider);
      if (parts === null) continue;
      slider.hidden = false;
      slider.tabIndex = 0;
      slider.setAttribute('role', 'slider');
      slider.setAttribute('aria-label', 'Hour to read');
      slider.setAttribute('aria-valuemin', '0');
      slider.setAttribute('aria-valuemax', String(rowsOf(parts.reading).length - 1));
      parts.reading.classList.add('is-live');
      show(parts, keptOf(parts));
    }
  };
  makeReady();
  new MutationObserver(makeReady).observe(document.documentElement, { childList: true, subtree: true });
})();
