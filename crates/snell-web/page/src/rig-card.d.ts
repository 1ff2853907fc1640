import type { Answers } from './answers.js';

export type Look = Answers['look'];

/** A live rig. Wrap the block of a rig in it; the first rig of the block is shown, or the one that `rig` names. */
export declare class RigCard extends HTMLElement {
  /** The rig's text. To set it asks anew. */
  text: string;
  /** What was told last. */
  readonly look: Look | undefined;
  /** The verdict on the rig as it is shown; `undefined` until it is worked out. */
  readonly verdict: string[] | undefined;
}

/** How the module is found, where it does not lie beside `rig-card.js`. */
export declare const source: { worker: () => Worker; module: () => Promise<WebAssembly.Module> };

declare global {
  interface HTMLElementTagNameMap {
    'rig-card': RigCard;
  }
  interface HTMLElementEventMap {
    'rig-look': CustomEvent<Look>;
    'rig-verdict': CustomEvent<string[]>;
    'rig-change': CustomEvent<{ text: string }>;
    'rig-trouble': CustomEvent<Error>;
  }
}
