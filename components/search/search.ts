import { siteUrl } from "../shell/root.ts";

interface Fragment {
  readonly url: string;
  readonly excerpt: string;
  readonly meta: Readonly<Record<string, string | undefined>>;
  readonly sub_results: readonly {
    readonly title: string;
    readonly url: string;
    readonly excerpt: string;
  }[];
}
interface Found {
  readonly results: readonly { readonly id: string; data(): Promise<Fragment> }[];
}
interface Index {
  options(options: {
    readonly baseUrl: string;
    readonly excerptLength: number;
    readonly noWorker: boolean;
  }): Promise<void>;
  init(): Promise<void>;
  search(text: string): Promise<Found>;
}

const PAGES_SHOWN = 8;
const HEADINGS_SHOWN = 3;
const PAUSE_MS = 30;

async function openIndex(pagefind: Promise<unknown>): Promise<Index> {
  const index = (await pagefind) as Index;
  await index.options({
    baseUrl: siteUrl("./").pathname,
    excerptLength: 24,
    // A search here takes a few milliseconds; starting a worker for it takes more.
    noWorker: true,
  });
  await index.init();
  return index;
}

/** The words of an excerpt with what was found in `<mark>`, and nothing else that might be in it. */
function excerptNodes(html: string): (Node | string)[] {
  const body = new DOMParser().parseFromString(html, "text/html").body;
  return [...body.childNodes].map((node) => {
    if (node.nodeName !== "MARK") return node.textContent ?? "";
    const mark = document.createElement("mark");
    mark.textContent = node.textContent;
    return mark;
  });
}

interface Entry {
  readonly title: string;
  readonly where: string;
  readonly url: string;
  readonly excerpt: string;
  readonly within: boolean;
}

/** One page and the headings in it where the words stand, first those that are the very words. */
function entriesOf(fragment: Fragment, words: string): Entry[] {
  const title = fragment.meta["title"] ?? fragment.url;
  const named = (heading: { readonly title: string }): number =>
    heading.title.toLowerCase() === words.trim().toLowerCase() ? 0 : 1;
  const headings = fragment.sub_results
    .filter((heading) => heading.url !== fragment.url)
    .toSorted((a, b) => named(a) - named(b));
  const own = fragment.sub_results.find((heading) => heading.url === fragment.url);
  return [
    {
      title,
      where: fragment.meta["section"] ?? "",
      url: fragment.url,
      excerpt: own?.excerpt ?? (headings.length > 0 ? "" : fragment.excerpt),
      within: false,
    },
    ...headings.slice(0, HEADINGS_SHOWN).map((heading) => ({
      title: heading.title,
      where: title,
      url: heading.url,
      excerpt: heading.excerpt,
      within: true,
    })),
  ];
}

function optionOf(entry: Entry, id: string): HTMLAnchorElement {
  const option = document.createElement("a");
  option.id = id;
  option.href = entry.url;
  option.tabIndex = -1;
  option.setAttribute("role", "option");
  option.setAttribute("aria-selected", "false");
  if (entry.within) option.className = "within";
  const name = document.createElement("span");
  name.className = "name";
  name.textContent = entry.title;
  option.append(name);
  if (entry.where) {
    const where = document.createElement("span");
    where.className = entry.within ? "where visually-hidden" : "where";
    where.textContent = entry.within ? `, in ${entry.where}` : ` · ${entry.where}`;
    option.append(where);
  }
  if (entry.excerpt) {
    const excerpt = document.createElement("span");
    excerpt.className = "excerpt";
    excerpt.append(...excerptNodes(entry.excerpt));
    option.append(" ", excerpt);
  }
  return option;
}

/**
 * Makes the dialog search: the field is a combobox, the results its list.
 *
 * @param pagefind - the search library's module, being loaded
 */
export function startSearch(host: HTMLElement, pagefind: Promise<unknown>): void {
  const dialog = host.querySelector("dialog");
  const text = host.querySelector<HTMLInputElement>("[data-text]");
  const list = host.querySelector<HTMLElement>("[data-results]");
  const count = host.querySelector<HTMLElement>("[data-count]");
  const nothing = host.querySelector<HTMLElement>("[data-nothing]");
  if (!dialog || !text || !list || !count || !nothing) return;

  const index = openIndex(pagefind);
  let asked = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let last = -Infinity;
  let selected = -1;

  const options = (): HTMLAnchorElement[] => [...list.querySelectorAll("a")];

  function select(at: number): void {
    const all = options();
    all[selected]?.setAttribute("aria-selected", "false");
    selected = all.length === 0 ? -1 : (at + all.length) % all.length;
    const option = all[selected];
    if (option) {
      option.setAttribute("aria-selected", "true");
      option.scrollIntoView({ block: "nearest" });
      text?.setAttribute("aria-activedescendant", option.id);
    } else {
      text?.removeAttribute("aria-activedescendant");
    }
  }

  function show(entries: readonly Entry[], sentence: string, suggest: boolean): void {
    list?.replaceChildren(...entries.map((entry, at) => optionOf(entry, `search-option-${at}`)));
    if (list) {
      list.hidden = entries.length === 0;
      list.scrollTop = 0;
    }
    text?.setAttribute("aria-expanded", String(entries.length > 0));
    if (count) count.textContent = sentence;
    if (nothing) nothing.hidden = !suggest;
    selected = -1;
    select(0);
  }

  async function search(): Promise<void> {
    const words = text?.value.trim() ?? "";
    const mine = ++asked;
    if (words === "") {
      show([], "", false);
      return;
    }
    let found: Found;
    let fragments: Fragment[];
    try {
      found = await (await index).search(words);
      const best = found.results[0];
      // The first time, when all of it has yet to be loaded, the best is painted before the others are asked for.
      if (best && list?.hidden) {
        const fragment = await best.data();
        if (mine === asked) show(entriesOf(fragment, words), "", false);
        await new Promise((resolve) => setTimeout(resolve));
      }
      fragments = await Promise.all(found.results.slice(0, PAGES_SHOWN).map((page) => page.data()));
    } catch {
      if (mine === asked) {
        show([], "The search index is not here: it comes with the built site.", true);
      }
      return;
    }
    // A slower answer to an older question must not replace a newer one.
    if (mine !== asked) return;
    const pages = found.results.length;
    if (pages === 0) {
      show([], `Nothing found for “${words}”.`, true);
      return;
    }
    const rest = pages > PAGES_SHOWN ? `; the first ${PAGES_SHOWN} are shown` : "";
    const sentence = pages === 1 ? "1 page found." : `${pages} pages found${rest}.`;
    show(
      fragments.flatMap((fragment) => entriesOf(fragment, words)),
      sentence,
      false,
    );
  }

  text.addEventListener("input", ({ timeStamp }) => {
    clearTimeout(timer);
    // What comes alone is searched for at once; a rush of letters, such as a held key, once it has ended.
    if (timeStamp - last > PAUSE_MS) void search();
    else timer = setTimeout(() => void search(), PAUSE_MS);
    last = timeStamp;
  });
  text.addEventListener("keydown", (event) => {
    if (event.isComposing) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      select(selected + (event.key === "ArrowDown" ? 1 : -1));
    } else if (event.key === "Enter") {
      event.preventDefault();
      options()[selected]?.click();
    }
  });
  // A result on this very page moves the page under the dialog.
  list.addEventListener("click", (event) => {
    if (!(event.ctrlKey || event.metaKey || event.shiftKey)) dialog.close();
  });
  // Words typed while this was loading.
  void search();
}
