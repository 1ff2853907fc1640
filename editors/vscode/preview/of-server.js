// What the preview shows, asked of `snell serve`.

const { Range } = require('vscode');

class OfServer {
  #client;

  /** `client` gives the one that speaks with the server, started where it was not. */
  constructor(client) {
    this.#client = client;
  }

  async #request(what, document, more) {
    const client = await this.#client();
    // What was typed has to be told to the server first, by those who are told of it after us.
    await new Promise(resolve => setImmediate(resolve));
    const params = { textDocument: { uri: client.code2ProtocolConverter.asUri(document.uri) }, ...more };
    return client.sendRequest(what, params);
  }

  look(document, position) {
    return this.#request('snell/preview', document, { position });
  }

  verdict(document, position) {
    return this.#request('snell/verdict', document, { position });
  }

  async slide(document, { range }, value) {
    const told = await this.#request('snell/slide', document, { range, value });
    if (!told) return undefined;
    const { start, end } = told.range;
    return { range: new Range(start.line, start.character, end.line, end.character), insert: told.newText };
  }
}

module.exports = { OfServer };
