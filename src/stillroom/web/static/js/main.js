// Small helps for every page. All of them work without this file.

// A message about something wrong is read and seen first.
const wrong = document.querySelector('.wrong[role="alert"]');
if (wrong instanceof HTMLElement) {
  wrong.focus();
}

// A form is sent once: a second tap with wet thumbs does nothing.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!(form instanceof HTMLFormElement)) return;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
});

// Coming back by the browser's own button, forms may be sent again.
addEventListener("pageshow", () => {
  for (const form of document.forms) delete form.dataset.sent;
});
