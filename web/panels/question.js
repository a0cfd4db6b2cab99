// The strip at the top: one question, or what to do next with the tool in hand, and the box for typed lengths.
import { all, byId, fill, write } from './dom.js';

export function question(page) {
  const forms = new Map(all('[data-question]').map((form) => [form.dataset.question, form]));
  const hints = all('[data-hint]');
  const options = all('[data-options]');
  const typed = byId('typed');
  let state;
  let asked;
  let follow = false; // whether the focus goes on to the next question

  for (const [ask, form] of forms) {
    const answer = (say, byKey) => {
      const texts = all('[data-text]', form).map((control) => control.value);
      page.ask({ answer: { ask, say, texts } });
      follow = byKey;
    };
    form.addEventListener('click', (event) => {
      const button = event.target.closest('button[type="button"]');
      if (button) answer(button.dataset.say, event.detail === 0);
    });
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      answer('set', event.submitter?.matches(':focus-visible') ?? true);
    });
  }
  byId('area-first').addEventListener('change', (event) => page.ask({ area_first: event.target.checked }));
  byId('opening-kind').addEventListener('change', (event) => page.ask({ opening: event.target.value }));
  byId('draft-back').addEventListener('click', () => page.ask('back'));
  byId('next-question').addEventListener('click', () => page.ask({ tool: 'pick' }));

  byId('typed-form').addEventListener('submit', (event) => {
    event.preventDefault();
    const text = typed.value.trim();
    if (!text) return;
    if (!state.typing) page.ask({ tool: 'outline' });
    page.ask({ typed: text });
    if (page.state().notice) return;
    typed.value = '';
    byId('sheet').focus({ preventScroll: true });
  });
  typed.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    typed.value = '';
    byId('sheet').focus({ preventScroll: true });
  });
  // A digit typed over the plan goes into the box.
  document.addEventListener('keydown', (event) => {
    const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
    if (event.target !== byId('sheet') || !plain || !state?.typing || !/^[0-9.'"]$/.test(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
    typed.value += event.key;
    typed.focus();
  }, { capture: true });

  return (now) => {
    state = now;
    const first = now.question_first || (!now.hint && now.question);
    for (const [ask, form] of forms) form.hidden = !first || ask !== now.question;
    const form = first && forms.get(now.question);
    if (form) {
      for (const line of all('[data-line]', form)) {
        line.textContent = now.question_values[line.dataset.say] ?? '';
        line.hidden = !line.textContent;
      }
      for (const control of all('[data-text]', form)) fill(control, now.question_values[control.dataset.text] ?? '');
    }
    const hint = first ? null : now.hint;
    byId('hints').hidden = !hint;
    for (const one of hints) one.hidden = one.dataset.hint !== hint;
    for (const one of options) one.hidden = !one.dataset.options.split(' ').includes(now.tool);
    byId('area-first').checked = now.area_first;
    byId('opening-kind').value = now.opening;
    byId('draft-back').hidden = !now.drafting;
    byId('next-question').hidden = Boolean(first) || !now.question || now.drafting;
    const lengths = first ? now.question === 'outline' || (now.question === 'walls' && now.typing) : now.typing;
    byId('typed-form').hidden = !lengths;
    typed.placeholder = { outline: "36' x 24'", opening: now.opening_width }[now.typing ? now.tool : 'outline'] ?? "12' 6\"";
    const text = form ? form.querySelector('.ask').textContent : hints.find((one) => !one.hidden)?.textContent ?? '';
    if (text !== asked) write(byId('ask'), text.replace(/\s+/g, ' ').trim());
    asked = text;
    if (!follow || now.notice) return;
    follow = false;
    const next = form && now.tool === 'pick' ? form.querySelector('input, button') : byId('sheet');
    next.focus({ preventScroll: true });
  };
}
