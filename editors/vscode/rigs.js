// Which texts are looked at.

const LANGUAGES = ['rig', 'markdown'];

/** A page of Markdown counts once it has a fence tagged `rig`: most pages have none, and need no reader. */
function holdsRigs(document) {
  if (document.languageId === 'rig') return true;
  return document.languageId === 'markdown' && /^[\s>]*(?:[-*+]\s+|\d+[.)]\s+)?(?:`{3,}|~{3,})\s*rig\b/im.test(document.getText());
}

module.exports = { LANGUAGES, holdsRigs };
