// All cards of a page as one article: a rig is in sight of every other on its page,
// as it is for those who check the article itself.

/** Longer than any run of backticks that ends a block early. */
const FENCE = '`'.repeat(24);

export const FILE = 'page.md';

export class PageText {
  #cards = [];

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
    let text = '';
    const starts = new Map();
    for (const card of this.#cards) {
      text += `${FENCE}rig\n`;
      starts.set(card, text.length);
      text += `${card.text}\n${FENCE}\n\n`;
    }
    return { text, starts };
  }
}
