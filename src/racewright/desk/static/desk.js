// Copying, saving drawings, the light, and keys: what needs no answer from the desk.
(() => {
  const LIGHTS = ["", "light", "dark"];
  const WORDS = { "": "Light: auto", light: "Light: day", dark: "Light: night" };
  const cookie = () => (document.cookie.match(/racewright_light=(\w*)/) || [, ""])[1];

  const flash = (button, word) => {
    const before = button.dataset.word || button.textContent;
    button.dataset.word = before;
    button.textContent = word;
    setTimeout(() => (button.textContent = before), 1200);
  };

  const copy = async (text) => {
    if (navigator.clipboard && window.isSecureContext) return navigator.clipboard.writeText(text);
    const area = document.createElement("textarea");
    area.value = text;
    area.style.position = "fixed";
    area.style.opacity = "0";
    document.body.append(area);
    area.select();
    document.execCommand("copy");
    area.remove();
  };

  const saveDrawing = (button) => {
    const figure = button.closest("figure");
    const drawn = [...figure.querySelectorAll("svg")].find((s) => s.getBoundingClientRect().width > 0);
    if (!drawn) return;
    const svg = drawn.cloneNode(true);
    svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
    const text = svg.outerHTML.replace(/var\(--p\d+,\s*(#[0-9a-f]{6})\)/g, "$1");
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    link.download = button.dataset.save + ".svg";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  };

  const showLight = () => document.querySelectorAll("[data-light]").forEach((b) => (b.textContent = WORDS[cookie()]));

  const turnLight = () => {
    const next = LIGHTS[(LIGHTS.indexOf(cookie()) + 1) % LIGHTS.length];
    document.cookie = `racewright_light=${next};path=/;max-age=31536000;samesite=strict`;
    Quasar.Dark.set(next === "" ? "auto" : next === "dark");
    showLight();
  };

  document.addEventListener("click", async (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if (button.dataset.copy !== undefined) {
      await copy(button.dataset.copy);
      flash(button, "copied");
    } else if (button.dataset.save !== undefined) saveDrawing(button);
    else if (button.dataset.light !== undefined) turnLight();
  });

  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey)) return;
    const typing = event.target.matches("input, textarea");
    const key = event.key.toLowerCase();
    const wanted = key === "s" ? "save" : typing ? "" : key === "z" ? (event.shiftKey ? "redo" : "undo") : key === "y" ? "redo" : "";
    const button = wanted && document.querySelector(`[data-keys=${wanted}]`);
    if (!button) return;
    event.preventDefault();
    if (wanted === "save") document.activeElement.blur();
    setTimeout(() => button.disabled || button.click(), wanted === "save" ? 150 : 0);
  });

  // A chart follows its place, as long as it is on the page.
  const sized = new ResizeObserver(async (entries) => {
    const { Plotly } = await import("nicegui-plotly");
    for (const { target } of entries) {
      if (target.isConnected && target.checkVisibility() && target._fullLayout) Plotly.relayout(target, { autosize: true });
    }
  });

  new MutationObserver(() => {
    document.querySelectorAll(".chart > div:not([data-sized])").forEach((chart) => {
      chart.dataset.sized = "";
      if (!chart.classList.contains("saves")) sized.observe(chart);
    });
    const button = document.querySelector("[data-light]");
    if (button && button.textContent === "Light") showLight();
  }).observe(document.body, { childList: true, subtree: true });
})();
