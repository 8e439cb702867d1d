// What the desk's pages do besides: filling in another time chooses it, and whatever is pressed, typed words go along.
"use strict";

for (const part of document.querySelectorAll("[data-chooses]")) {
  const radio = part.closest("form").querySelector(`input[type=radio][value="${part.dataset.chooses}"]`);
  const choose = (event) => { if (event.target.value) radio.checked = true; };
  part.addEventListener("input", choose);
  part.addEventListener("change", choose);
}

// The page's reply and drafts belong to one form. Any other form of the page takes along what was changed of them.
const writing = document.getElementById("writing");
const typed = () => (writing ? [...writing.elements].filter((field) => field.matches("textarea") && field.value !== field.defaultValue) : []);

let sending = false;
document.addEventListener("submit", (event) => {
  const form = event.target;
  sending = true;
  if (form === writing || form.method !== "post" || !writing) return;
  for (const field of typed()) {
    const copy = document.createElement("input");
    copy.type = "hidden";
    copy.name = field.name;
    copy.value = field.value;
    form.append(copy);
  }
});

// Signed out meanwhile: a page with words on it is not left for the sign-in. Sending keeps them, and says so.
document.addEventListener("htmx:beforeOnLoad", (event) => {
  if (!event.detail.xhr.getResponseHeader("HX-Redirect") || !typed().length) return;
  event.preventDefault();
  const note = document.getElementById("signed-out");
  if (note) note.hidden = false;
});

// Left by a link, or the page closed: what is typed and not sent is kept, as it is with every button.
addEventListener("pageshow", () => { sending = false; });
addEventListener("pagehide", () => {
  if (sending || !typed().length) return;
  const kept = new URLSearchParams([["csrf", writing.elements.csrf.value], ...typed().map((field) => [field.name, field.value])]);
  fetch(writing.action.replace(/write$/, "keep"), { method: "POST", body: kept, keepalive: true });
});
