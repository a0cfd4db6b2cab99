// The tray of tools: one stop for Tab, arrows between tools, the chosen one pressed.
import { all, byId } from './dom.js';

export function tools(page) {
  const tray = byId('tray');
  const buttons = all('button', tray);
  let last = buttons[0];
  const stop = (button) => {
    last = button;
    for (const one of buttons) one.tabIndex = one === last ? 0 : -1;
  };
  stop(last);
  tray.addEventListener('click', (event) => {
    const button = event.target.closest('[data-tool]');
    if (!button) return;
    stop(button);
    page.ask({ tool: button.dataset.tool });
  });
  tray.addEventListener('keydown', (event) => {
    const from = buttons.indexOf(document.activeElement);
    const to = { ArrowLeft: from - 1, ArrowRight: from + 1, Home: 0, End: buttons.length - 1 }[event.key];
    if (from < 0 || to === undefined) return;
    event.preventDefault();
    stop(buttons[(to + buttons.length) % buttons.length]);
    last.focus();
  });
  let shown;
  return ({ tool }) => {
    if (tool === shown) return;
    shown = tool;
    for (const one of buttons) one.setAttribute('aria-pressed', String(one.dataset.tool === tool));
    const pressed = buttons.find((one) => one.dataset.tool === tool);
    if (!pressed) return; // A tool that a form takes up.
    if (!tray.contains(document.activeElement)) stop(pressed);
    tray.scrollTo({ left: pressed.offsetLeft - tray.clientWidth / 2 + pressed.offsetWidth / 2 });
  };
}
