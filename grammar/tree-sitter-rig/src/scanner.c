// What a space stands before, which the grammar cannot see: the end of a line, a unit, or `to`. It keeps nothing from one
// call to the next.

#include "tree_sitter/parser.h"
#include <string.h>

enum Token { TRAILING, BEFORE_UNIT, BEFORE_TO, RECOVERING };

enum { LONGEST_KEPT = 7 };

static const char *const KEPT[] = {"of",    "off",     "to",   "with", "as", "on", "at", "over",    "under",
                                   "after", "because", "from", "and",  "or", "is", "x",  "between", "times"};

static bool is_space(int32_t c) {
  return c == ' ' || c == '\t' || c == 0xA0 || c == 0x2009 || c == 0x202F || c == 0x200B || c == 0xFEFF || c == 0x3000;
}

static bool is_latin(int32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

static bool is_digit(int32_t c) { return c >= '0' && c <= '9'; }

// Signs beyond Latin are told from letters by the ranges in which they stand.
static bool is_in_word(int32_t c) {
  if (c < 0x80) return is_latin(c) || is_digit(c) || c == '-';
  if (c < 0xC0) return c == 0xAA || c == 0xB5 || c == 0xBA;
  if (c == 0xD7 || c == 0xF7) return false;
  return c == 0x2011 || !((c >= 0x2000 && c <= 0x2BFF) || (c >= 0x3000 && c <= 0x303F) || c >= 0x1F000);
}

static bool is_power(int32_t c) { return c == '2' || c == '3' || c == 0xB2 || c == 0xB3; }

static void skip_spaces(TSLexer *lexer) {
  while (is_space(lexer->lookahead)) lexer->advance(lexer, false);
}

static bool at_line_end(TSLexer *lexer) {
  return lexer->lookahead == '\n' || lexer->lookahead == '\r' || lexer->eof(lexer);
}

// Whether the line ends here, or a comment begins.
static bool at_end(TSLexer *lexer) {
  if (at_line_end(lexer)) return true;
  if (lexer->lookahead != '/') return false;
  lexer->advance(lexer, false);
  return lexer->lookahead == '/';
}

static bool is_one_of(const char *word, const char *const *words, size_t count) {
  for (size_t at = 0; at < count; at++) {
    if (strcmp(word, words[at]) == 0) return true;
  }
  return false;
}

// Whether a unit goes on behind its letters and ends as a word does.
static bool ends_as_unit(TSLexer *lexer) {
  if (is_power(lexer->lookahead)) lexer->advance(lexer, false);
  if (lexer->lookahead == '/') {
    lexer->advance(lexer, false);
    while (is_latin(lexer->lookahead)) lexer->advance(lexer, false);
    if (is_power(lexer->lookahead)) lexer->advance(lexer, false);
  }
  return !is_in_word(lexer->lookahead);
}

static bool skip_letters(TSLexer *lexer, const char *letters) {
  for (; *letters; letters++) {
    if ((lexer->lookahead | 0x20) != *letters) return false;
    lexer->advance(lexer, false);
  }
  return true;
}

// Whether a number of inches stands here: behind `ft` without a space, only that makes feet of it.
static bool at_inches(TSLexer *lexer) {
  while (is_digit(lexer->lookahead) || lexer->lookahead == '.' || lexer->lookahead == ',' || lexer->lookahead == '/') {
    lexer->advance(lexer, false);
  }
  skip_spaces(lexer);
  if (lexer->lookahead == '"' || lexer->lookahead == 0x201D || lexer->lookahead == 0x2033) return true;
  if (!skip_letters(lexer, "in")) return false;
  if (lexer->lookahead == 'c' || lexer->lookahead == 'C') skip_letters(lexer, "ch");
  if (lexer->lookahead == 'e' || lexer->lookahead == 'E') skip_letters(lexer, "es");
  return !is_in_word(lexer->lookahead);
}

static bool emit(TSLexer *lexer, const bool *wanted, enum Token token) {
  lexer->result_symbol = token;
  return wanted[token];
}

static bool before_word(TSLexer *lexer, const bool *wanted) {
  static const char *const FEET[] = {"ft", "feet", "foot"};
  char word[LONGEST_KEPT + 1] = {0};
  for (size_t count = 0; is_latin(lexer->lookahead); count++) {
    if (count < LONGEST_KEPT) word[count] = (char)(lexer->lookahead | 0x20);
    else word[0] = '\0';
    lexer->advance(lexer, false);
  }
  if (!is_in_word(lexer->lookahead) && is_one_of(word, KEPT, sizeof KEPT / sizeof *KEPT)) {
    return strcmp(word, "to") == 0 && emit(lexer, wanted, BEFORE_TO);
  }
  if (is_digit(lexer->lookahead) && !is_power(lexer->lookahead) && is_one_of(word, FEET, 3)) {
    return at_inches(lexer) && emit(lexer, wanted, BEFORE_UNIT);
  }
  return wanted[BEFORE_UNIT] && ends_as_unit(lexer) && emit(lexer, wanted, BEFORE_UNIT);
}

bool tree_sitter_rig_external_scanner_scan(void *payload, TSLexer *lexer, const bool *wanted) {
  (void)payload;
  if (wanted[RECOVERING]) return false;
  bool spaced = is_space(lexer->lookahead);
  if (!spaced && lexer->lookahead != '.') return false;
  skip_spaces(lexer);
  lexer->mark_end(lexer);
  int32_t next = lexer->lookahead;
  if (next == '.') {
    lexer->advance(lexer, false);
    skip_spaces(lexer);
    lexer->mark_end(lexer);
    return at_end(lexer) && emit(lexer, wanted, TRAILING);
  }
  if (next == '/' || at_line_end(lexer)) return at_end(lexer) && emit(lexer, wanted, TRAILING);
  if (next == '%' || next == 0xB0 || next == 0xBA) return emit(lexer, wanted, BEFORE_UNIT);
  return is_latin(next) && before_word(lexer, wanted);
}

void *tree_sitter_rig_external_scanner_create(void) { return NULL; }

void tree_sitter_rig_external_scanner_destroy(void *payload) { (void)payload; }

unsigned tree_sitter_rig_external_scanner_serialize(void *payload, char *buffer) {
  (void)payload;
  (void)buffer;
  return 0;
}

void tree_sitter_rig_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  (void)payload;
  (void)buffer;
  (void)length;
}
