// All cards of a page as one article: a rig is in sight of every other on its page,
// as it is for those who check the article itself.

/** Longer than any run of backticks that ends a block early. */
const FENCE = '`'.repeat(24);

/** So much of other files a page takes, in signs. */
const MOST = 1024 * 1024;

/** What a book writes into a page of its rigs: the page's own path, what it says outside of its blocks, and the files that it uses. */
function given() {
  try {
    const { page, uses, files } = JSON.parse(document.querySelector('script[type="application/json"][data-rig-files]').textContent);
    const all = Object.entries(files);
    if (all.reduce((sum, [, text]) => sum + text.length, 0) <= MOST) return { page, uses, files: all };
  } catch {
    // Most pages have none.
  }
  return { page: 'page.md', uses: [], files: [] };
}

export class PageText {
  #cards = [];
  #given;

  #read() {
    this.#given ??= given();
    return this.#given;
  }

  /** The path of the page, from which others are found. */
  get file() {
    return this.#read().page;
  }

  /** The files that it may use, by their paths. */
  get files() {
    return this.#read().files;
  }

  add(card) {
    if (this.#cards.includes(card)) return;
    this.#cards.push(card);
    this.#cards.sort((one, other) =>
      one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1);
  }

  remove(card) {
    this.#cards = this.#cards.filter((other) => other !== card);
  }

  get cards() {
    return this.#cards;
  }

  /** The whole text, and where each card's begins. */
  whole() {
    let text = this.#read().uses.map((use) => `<!-- rig: ${use} -->\n\n`).join('');
    const starts = new Map();
    for (const card of this.#cards) {
      text += `${FENCE}rig\n`;
      starts.set(card, text.length);
      text += `${card.text}\n${FENCE}\n\n`;
    }
    return { text, starts };
  }
}
