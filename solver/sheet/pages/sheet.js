
"use strict";
// Ticks are kept under the key of the plan, so that another plan starts empty. Without storage, the page still ticks.
(() => {
  const boxes = Array.from(document.querySelectorAll("main input[type=checkbox]"));
  const key = "hardpan:" + document.documentElement.dataset.plan;
  const [panel, done, bar, next, clear, memory] = ["progress", "done", "bar", "next", "clear", "memory"].map(
    (id) => document.getElementById(id),
  );

  function recalled() {
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      return Array.isArray(kept) ? kept : [];
    } catch {
      return [];
    }
  }

  function keep() {
    const ticked = boxes.filter((box) => box.checked).map((box) => box.id);
    try {
      localStorage.setItem(key, JSON.stringify(ticked));
    } catch {
      memory.hidden = false;
    }
  }

  function tell() {
    const ticked = boxes.filter((box) => box.checked).length;
    const open = boxes.find((box) => !box.checked);
    done.textContent = open ? `${ticked} of ${boxes.length} done` : `All ${boxes.length} done`;
    bar.value = ticked;
    clear.hidden = ticked === 0;
    next.hidden = !open;
    if (open) next.hash = open.id;
  }

  function recall() {
    const ticked = new Set(recalled());
    for (const box of boxes) box.checked = ticked.has(box.id);
    tell();
  }

  for (const box of boxes) {
    box.addEventListener("change", () => {
      keep();
      tell();
    });
  }
  next.addEventListener("click", (event) => {
    event.preventDefault();
    const open = boxes.find((box) => !box.checked);
    open.closest("li").scrollIntoView({ block: "center" });
    open.focus({ preventScroll: true });
  });
  clear.addEventListener("click", () => {
    if (!window.confirm("Untick all steps?")) return;
    for (const box of boxes) box.checked = false;
    keep();
    tell();
    boxes[0].focus();
  });
  window.addEventListener("storage", (event) => {
    if (event.key === key) recall();
  });
  panel.hidden = false;
  recall();
})();
