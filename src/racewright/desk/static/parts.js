// On this page: links to its parts, from the headings as they come and go; folded away on a phone.
(() => {
  const FEWEST = 3, PHONE = 640;
  let told = "", due = 0;

  const slug = (text) => text.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "part";

  // Headings that can be seen, each with an id of its own on its section.
  const parts = (page) => {
    const taken = new Set();
    return [...page.querySelectorAll("section.part > h2")].filter((h) => h.checkVisibility()).map((h) => {
      const plain = `part-${slug(h.textContent)}`;
      let id = plain;
      for (let n = 2; taken.has(id); n += 1) id = `${plain}-${n}`;
      taken.add(id);
      if (h.parentElement.id !== id) h.parentElement.id = id;
      h.tabIndex = -1;
      return { id, text: h.textContent };
    });
  };

  const go = (event) => {
    const section = document.getElementById(event.currentTarget.hash.slice(1));
    if (!section) return;
    event.preventDefault();
    const fold = event.currentTarget.closest("details");
    if (innerWidth < PHONE) fold.open = false;
    section.scrollIntoView();
    section.querySelector("h2").focus({ preventScroll: true });
  };

  const build = () => {
    due = 0;
    const page = document.getElementById("page"), nav = page?.querySelector(":scope > nav.parts");
    if (!nav) return;
    const found = parts(page), now = JSON.stringify(found);
    if (now === told && nav.children.length === (found.length < FEWEST ? 0 : 1)) return;
    told = now;
    const open = nav.firstElementChild ? nav.firstElementChild.open : innerWidth >= PHONE;
    if (found.length < FEWEST) return void nav.replaceChildren();
    const fold = document.createElement("details"), title = document.createElement("summary"), list = document.createElement("ul");
    fold.open = open;
    title.textContent = `On this page: ${found.length} parts`;
    for (const { id, text } of found) {
      const item = document.createElement("li"), link = document.createElement("a");
      link.href = `#${id}`;
      link.textContent = text;
      link.addEventListener("click", go);
      item.append(link);
      list.append(item);
    }
    fold.append(title, list);
    const at = nav.contains(document.activeElement) ? document.activeElement.hash : null;
    nav.replaceChildren(fold);
    if (at !== null) (fold.querySelector(`a[href="${at || "#"}"]`) || title).focus({ preventScroll: true });
  };

  const soon = () => (due ||= requestAnimationFrame(build));
  new MutationObserver(soon).observe(document.body, { childList: true, subtree: true, characterData: true });
  document.addEventListener("toggle", soon, true);
  soon();
})();
