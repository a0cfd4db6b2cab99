// Speaks up when a part of the page does not come. Stands alone: it needs no other file of the page.
(() => {
  const missing = [];
  const speak = () => {
    const place = document.getElementById('boot');
    if (!place || document.body.dataset.ready !== 'no') return;
    if (missing.length) place.querySelector('b').textContent = `Missing: ${missing.join(', ')}.`;
    place.classList.add('now');
  };
  addEventListener('error', ({ target }) => {
    const address = target?.src ?? target?.href;
    if (!address) return;
    const name = new URL(address, document.baseURI).pathname.split('/').pop();
    if (!missing.includes(name)) missing.push(name);
    if (document.readyState === 'complete') speak();
  }, true);
  addEventListener('load', () => missing.length && speak());
  addEventListener('DOMContentLoaded', () => document.getElementById('boot').querySelector('button').addEventListener('click', () => location.reload()));
  setTimeout(speak, 10_000);
})();
