// What lies wrong on the page as it stands: too wide, cut off, or one text over another. Returns sentences.
const CUTS = new Set(["hidden", "clip"]);
const said = (e) => (e.textContent || "").trim().replace(/\s+/g, " ").slice(0, 60);
const seen = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
const wrong = [];

const across = document.documentElement.scrollWidth;
if (across > innerWidth) {
  const past = [...document.querySelectorAll("#page *, header *, nav *")]
    .filter((e) => seen(e) && e.getBoundingClientRect().right > innerWidth + 1)
    .slice(-3).map((e) => `<${e.localName} class="${e.getAttribute("class") || ""}"> ${said(e)}`);
  wrong.push(`the page is ${across} px wide in a window of ${innerWidth} px: ${past.join("; ")}`);
}

// Every piece of text with the boxes of its lines; labels of drawings are outlines, in groups of their own.
const texts = [];
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walk.nextNode(); node; node = walk.nextNode()) {
  const owner = node.parentElement;
  if (!node.data.trim() || !owner || owner.closest("script, style, title, desc, defs, .skip, [data-layer]") || !seen(owner)) continue;
  const range = document.createRange();
  range.selectNodeContents(node);
  const boxes = [...range.getClientRects()].filter((r) => r.width > 1 && r.height > 1);
  if (boxes.length) texts.push({ owner, boxes });
}
for (const group of document.querySelectorAll(".drawing svg g[id*='text_']")) {
  const box = group.getBoundingClientRect();
  if (seen(group) && box.width > 1 && box.height > 1) texts.push({ owner: group, boxes: [box], drawn: true });
}

const name = (t) => (t.drawn ? `label ${t.owner.id}` : `"${said(t.owner)}"`);
for (const text of texts) {
  let scrolls = false;
  for (let e = text.owner; e && e !== document.documentElement && !scrolls; e = e.parentElement) {
    const style = getComputedStyle(e);
    if (style.position === "fixed") scrolls = true;
    if (e.localName === "svg" && style.overflow === "visible") continue;
    const box = e.getBoundingClientRect();
    const rows = text.boxes.filter((r) => r.right > box.left && r.left < box.right + 1e4);
    const cutX = CUTS.has(style.overflowX) && rows.some((r) => r.right > box.right + 1.5 || r.left < box.left - 1.5);
    const cutY = CUTS.has(style.overflowY) && rows.some((r) => r.bottom > box.bottom + 4 || r.top < box.top - 4);
    if (cutX || cutY) {
      wrong.push(`${name(text)} is cut off by <${e.localName} class="${e.getAttribute("class") || ""}">`);
      break;
    }
    scrolls ||= /auto|scroll/.test(style.overflowX);
  }
  if (!scrolls && text.boxes.some((r) => r.right > innerWidth + 1.5 || r.left < -1.5)) wrong.push(`${name(text)} leaves the window`);
}
for (const e of document.querySelectorAll("#page *, header *, nav *")) {
  const cut = CUTS.has(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0;
  if (cut && seen(e) && !e.closest("svg, canvas") && said(e)) wrong.push(`<${e.localName} class="${e.getAttribute("class") || ""}"> cuts off "${said(e)}"`);
}

// Boxes of letters, without the air above and below them.
const flat = texts.flatMap((t) => t.boxes.map((r) => {
  const air = t.drawn ? 0 : 0.18 * r.height;
  return { t, left: r.left, right: r.right, top: r.top + air, bottom: r.bottom - air };
})).sort((a, b) => a.left - b.left);
const told = new Set();
for (let i = 0; i < flat.length; i += 1) {
  for (let k = i + 1; k < flat.length && flat[k].left < flat[i].right - 2; k += 1) {
    const [a, b] = [flat[i], flat[k]];
    if (a.t === b.t || Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) < 2) continue;
    if (a.t.owner.contains(b.t.owner) && a.t.drawn !== b.t.drawn) continue;
    const pair = `${name(a.t)} and ${name(b.t)} lie over each other`;
    if (!told.has(pair)) wrong.push(pair);
    told.add(pair);
  }
}
return wrong;
