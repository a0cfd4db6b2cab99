// Files and links: save, open, drop, copy, share. What is refused says why and leaves the open house as it is.
import { all, byId, caption, clock, write } from './dom.js';

const LONG_LINK = 2000;

export function send(page) {
  let filed = null; // { name, at, text }
  const stemOf = (name) => name.trim().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '').toLowerCase() || 'house';
  const stem = () => stemOf(page.state().house.name);
  const address = () => `${location.origin}${location.pathname}#${page.sheet.link()}`;

  function download(name, text, type) {
    const url = URL.createObjectURL(new Blob([text], { type }));
    const link = Object.assign(document.createElement('a'), { href: url, download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  }
  /** A house file as a text, whether or not this page can open it. */
  page.download = (name, text) => download(`${stemOf(name)}.house.json`, text, 'application/json');
  function saveFile() {
    const text = page.sheet.file_text();
    const name = `${stem()}.house.json`;
    download(name, text, 'application/json');
    filed = { name, at: new Date(), text };
    show();
  }
  async function openFile(file) {
    if (!file) return;
    const text = await file.text().catch(() => null);
    if (text === null) return page.ask({ say: caption('not-opened') });
    page.keep.opening = 'file';
    if (!page.sheet.open_file(text)) page.keep.opening = null;
    else {
      filed = { name: file.name, at: new Date(), text: page.sheet.file_text() };
      page.doors.show(null);
    }
  }
  async function copy() {
    const copied = await navigator.clipboard?.writeText(address()).then(() => true, () => false);
    if (!copied) byId('link').select();
    write(byId('link-note'), caption(copied ? 'copied' : 'not-copied'));
  }
  // By habit browsers share .txt and not .json.
  const asFile = () => new File([page.sheet.file_text()], `${stem()}.house.txt`, { type: 'text/plain' });
  async function share() {
    const data = { title: page.state().house.name, files: [asFile()] };
    await navigator.share(navigator.canShare?.(data) ? data : { title: data.title, url: address() }).catch(() => {});
  }

  for (const button of all('#save-file, [data-save-file]')) button.addEventListener('click', saveFile);
  byId('copy-link').addEventListener('click', copy);
  byId('share').hidden = !navigator.share;
  byId('share').addEventListener('click', share);
  byId('save-drawing').addEventListener('click', () => download(`${stem()}.svg`, page.sheet.svg(), 'image/svg+xml'));
  const picker = byId('file');
  for (const button of all('[data-open-file]')) button.addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => openFile(picker.files[0]).then(() => (picker.value = '')));
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    openFile(event.dataTransfer.files[0]);
  });
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 's') return;
    event.preventDefault();
    saveFile();
  });

  function show() {
    if (byId('send').hidden) return;
    const link = address();
    byId('link').value = link;
    const size = caption(link.length > LONG_LINK ? 'link-long' : 'link-short', link.length.toLocaleString());
    const { photos } = page.state();
    write(byId('link-note'), photos ? `${size} ${caption('photos-stay', photos)}` : size);
    const which = !filed ? 'not-filed' : filed.text === page.sheet.file_text() ? 'filed' : 'filed-old';
    write(byId('filed'), filed ? caption(which, filed.name, clock(filed.at)) : caption(which));
  }
  all('[data-door="send"]').forEach((button) => button.addEventListener('click', show));
  return show;
}
