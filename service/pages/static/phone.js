// Shows the newest text, sends with Enter (a new line with Shift), and does not reload the page for it.
"use strict";

const newest = () => {
  const texts = document.getElementById("texts");
  texts.scrollTop = texts.scrollHeight;
};
newest();
document.body.addEventListener("htmx:afterSwap", newest);

const field = document.getElementById("text");
field.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.shiftKey || event.isComposing) return;
  event.preventDefault();
  field.form.requestSubmit();
});
