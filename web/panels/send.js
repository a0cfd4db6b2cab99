// Keeping and sending: a house file, a link, mail, the system's share sheet. Nothing goes anywhere by itself.
import { all, byId, caption, clock, write } from './dom.js';
import { whole } from './photos.js';

const LONG_LINK = 2000;

export function send(page) {
  let filed = null; // { name, at, text, opened }
  const stemOf = (name) => name.trim().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '').toLowerCase() || 'house';
  const stem = () => stemOf(page.state().house.name);
  const address = () => `${location.origin}${location.pathname}#${page.sheet.link()}`;
  const file = () => whole(page.sheet.file_text());

  function download(name, text, type) {
    const url = URL.createObjectURL(new Blob([text], { type }));
    const link = Object.assign(document.createElement('a'), { href: url, download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  }
  /** A house file as a text, whether or not this page can open it. */
  page.download = (name, text) => download(`${stemOf(name)}.house.json`, text, 'application/json');
  /** The open house came from a file of this name, or went into one. */
  page.filed = (name) => {
    filed = { name, at: new Date(), text: page.sheet.file_text(), opened: page.state().opened };
    page.keep.filed();
  };
  page.saveFile = () => {
    if (page.stopped) {
      const { name, text } = page.keep.latest();
      return text && page.download(name, text);
    }
    const name = `${stem()}.house.json`;
    download(name, file(), 'application/json');
    page.filed(name);
    return show(page.state());
  };
  async function copy() {
    const copied = await navigator.clipboard?.writeText(address()).then(() => true, () => false);
    if (!copied) byId('link').select();
    write(byId('link-note'), caption(copied ? 'copied' : 'not-copied'));
  }
  /** By habit browsers share .txt and not .json. What the person gives up is no news; what the system refuses is. */
  async function share() {
    const { name } = page.state().house;
    const data = { title: name, files: [new File([file()], `${stem()}.house.txt`, { type: 'text/plain' })] };
    try {
      await navigator.share(navigator.canShare?.(data) ? data : { title: name, url: address() });
    } catch (error) {
      if (error?.name !== 'AbortError') write(byId('link-note'), caption('not-shared'));
    }
  }
  /** The house in a few plain lines, for a mail that is read without opening anything. */
  function summary({ house: { name }, summary: { findings } }) {
    const open = findings.slice(0, 6).map(({ text }) => `- ${text}`);
    const more = findings.length > open.length ? [caption('mail-more', findings.length - open.length)] : [];
    return [name, '', ...(open.length ? [caption('mail-open'), ...open, ...more] : [caption('paths')])].join('\n');
  }

  for (const button of all('#save-file, [data-save-file]')) button.addEventListener('click', () => page.saveFile());
  byId('copy-link').addEventListener('click', copy);
  byId('share').hidden = !navigator.share;
  byId('share').addEventListener('click', share);
  /** The link as a code, or one sentence on why there is none. */
  function code() {
    const [side, dark] = page.sheet.qr(address());
    const picture = byId('qr').querySelector('svg');
    picture.toggleAttribute('hidden', !side);
    // Four free modules around it, as readers want them.
    if (side) picture.setAttribute('viewBox', `-4 -4 ${Number(side) + 8} ${Number(side) + 8}`);
    picture.querySelector('path').setAttribute('d', dark ?? '');
    write(byId('qr').querySelector('figcaption'), caption(side ? 'qr-scan' : 'qr-long'));
  }
  byId('show-qr').addEventListener('click', () => {
    const open = byId('qr').toggleAttribute('hidden') === false;
    byId('show-qr').setAttribute('aria-expanded', String(open));
    if (open) {
      code();
      byId('qr').scrollIntoView({ block: 'nearest' });
    }
  });
  byId('save-drawing').addEventListener('click', () => download(`${stem()}.svg`, page.sheet.svg(), 'image/svg+xml'));
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 's') return;
    event.preventDefault();
    page.saveFile();
  });

  function show(state) {
    if (byId('send').hidden) return;
    const link = address();
    byId('link').value = link;
    if (!byId('qr').hidden) code();
    const long = link.length > LONG_LINK;
    const size = caption(long ? 'link-long' : 'link-short', link.length.toLocaleString());
    const { photos } = state;
    write(byId('link-note'), photos ? `${size} ${caption('photos-stay', photos)}` : size);
    const body = long ? `${summary(state)}\n\n${caption('mail-file')}` : `${summary(state)}\n\n${caption('mail-link')}\n${link}`;
    byId('mail').href = `mailto:?subject=${encodeURIComponent(state.house.name)}&body=${encodeURIComponent(body)}`;
    const mine = filed?.opened === state.opened ? filed : null;
    const which = !mine ? 'not-filed' : mine.text === page.sheet.file_text() ? 'filed' : 'filed-old';
    write(byId('filed'), mine ? caption(which, mine.name, clock(mine.at)) : caption(which));
  }
  all('[data-door="send"]').forEach((button) => button.addEventListener('click', () => page.sheet && show(page.state())));
  return show;
}
