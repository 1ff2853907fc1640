/**
 * The language of rig files for editors. `grammar/snell.pest` is the measure: line by line, what reads there reads here,
 * and `tests/tools/grammar.sh` holds the two against each other.
 *
 * Lines stand in a flat row, for each is read by itself there too; a broken one does not reach into its neighbours. Spaces
 * are written out, because `6X`, `depth-20` and `5/64` are told from `6 x`, `depth - 20` and `5 / 64` by nothing else.
 * What needs looking ahead in the other grammar (the words that no name may be, the quote that ends a text) is put into
 * the tokens. Only what follows a space needs `src/scanner.c`.
 */

// The order of tokens counts: of two that match as much, the earlier wins.

const KINDS = ['rig', 'rod', 'rulebook', 'rule', 'water', 'bed', 'material', 'spool', 'knot', 'dressing', 'fly',
  'outing'];

const JOINTS = ['off', 'of', 'with', 'as', 'to', 'at', 'on', 'over', 'after', 'because'];

/** No name, and no unit in letters. */
const KEPT = [...JOINTS, 'under', 'from', 'and', 'or', 'is', 'between', 'times', 'x'];

const S = '[ \\t\\u00A0\\u2009\\u202F\\u200B\\uFEFF\\u3000]';
const IN_WORD = '\\p{L}\\p{M}\\p{Nd}\\u2011\\-';
const QUOTE = '"“”„«»';
const PRIME = "'’‘′";
const DASH = '[\\-–—−]';
const DAY_DASH = '[\\-\u2011–—−]';
const VULGAR = '[¼½¾⅓⅔⅛⅜⅝⅞]';
const RATIO = '[0-9]+[/⁄][0-9]+';

const pattern = (...parts) => new RegExp(parts.join(''));
const anyCase = word => [...word].map(c => `[${c}${c.toUpperCase()}]`).join('');
const word = text => pattern(anyCase(text));
const anyOf = words => words.map(anyCase).join('|');

/** Every word but the kept ones: `first` and `next` say of which characters. It follows the tree of their letters. */
function unkept(first, next) {
  const onFrom = (begun, here) => {
    const longer = KEPT.filter(kept => kept.length > begun.length && kept.startsWith(begun));
    const letters = [...new Set(longer.map(kept => kept[begun.length]))];
    const both = letters.map(c => c + c.toUpperCase()).join('');
    const aside = both ? `[[${here}]--[${both}]]` : `[${here}]`;
    const ways = [`${aside}[${next}]*`, ...letters.map(c => anyCase(c) + onFrom(begun + c, next))];
    const mayEnd = begun !== '' && !KEPT.includes(begun);
    return `(?:${ways.join('|')})${mayEnd ? '?' : ''}`;
  };
  return onFrom('', first);
}

/** A number; what goes on behind it with points, commas and slashes makes it malformed. */
const NUMBER =
  `(?:[0-9]+(?:[.,/⁄][0-9]+|(?:${S}+(?:${VULGAR}|${RATIO})|-${RATIO}|${VULGAR}))?|\\.[0-9]+|${VULGAR})`;

/** Digits behind a fraction of one sign, or a second point, comma or slash. */
const TOO_MUCH =
  `(?:[0-9]+[.,/⁄][0-9]+(?:[.,/][0-9]+)+|\\.[0-9]+(?:[.,/][0-9]+)+` +
  `|(?:[0-9]+${S}+|[0-9]+-)${RATIO}(?:[.,/][0-9]+)+` +
  `|(?:[0-9]+${S}*)?${VULGAR}(?:[0-9]|[.,/][0-9])+(?:[.,/][0-9]+)*)`;

/** What may stand between a quote and a comment that makes it the last one. */
const PAUSE = `${S}*(?:\\.${S}*)?`;

/** A text goes on over a quote unless nothing but a comment follows it; the last quote of the line ends it anyway. */
const TEXT = (() => {
  const plain = `[^${QUOTE}\\r\\n]`;
  const spaces = ' \\t\\u00A0\\u2009\\u202F\\u200B\\uFEFF\\u3000';
  const goesOn = `(?:[^${QUOTE}\\r\\n./${spaces}]${plain}*|/(?:[^${QUOTE}\\r\\n/]${plain}*)?)`;
  const second = `${S}*\\.${S}*\\.${plain}*`;
  const behind = `(?:${PAUSE}(?:${goesOn})?|${second})`;
  return `[${QUOTE}]${plain}*(?:[${QUOTE}]${behind})*[${QUOTE}]`;
})();

const glued = (...parts) => token.immediate(pattern(...parts));

module.exports = grammar({
  name: 'rig',

  extras: _ => [],

  externals: $ => [
    $._trailing, // spaces and a full stop, with nothing but a comment behind them
    $._before_unit, // spaces between a number and its unit
    $._before_to, // spaces before `to`
    $._recovering, // never asked for, but while an error is passed over
  ],

  inline: $ => [$._gap, $._amount],

  // Where a line can be read in two ways, both are tried: a block line and a line of a block; a line with a form of its
  // own and a plain one; feet with inches and feet alone; a spread and a joining word.
  conflicts: $ => [
    [$.kind, $.key],
    [$.use, $.key],
    [$.change, $.key],
    [$.bind_key, $.key],
    [$.claim_key, $.key],
    [$.feet, $.unit],
    [$.pounds, $.unit],
    [$.spread, $._factor],
    [$._is_word],
    [$.feet, $._mark_of_unit],
  ],

  rules: {
    source_file: $ => seq(repeat(seq(optional($._line), $._newline)), optional($._line)),

    _newline: _ => /\r\n|\n|\r/,

    _line: $ => choice(
      seq(optional($._mark), $._margin, optional($._end)),
      seq($._space, $._body, optional($._end)),
      $._end,
    ),
    _end: $ => choice($._trailing, seq(optional($._trailing), $.comment)),
    _margin: $ => choice($.use, $.block, $._body),

    _mark: _ => /[\u200B\uFEFF]+/,
    _space: _ => pattern(S, '+'),
    comment: _ => /\/\/[^\r\n]*/,

    // ---- lines with a form of their own

    use: $ => prec.dynamic(20, seq(alias($._use_word, 'use'), optional($._space), $.text)),

    block: $ => prec.dynamic(20, seq(
      $.kind, $._space, field('name', $.name),
      optional(seq($._space, alias($._from, 'from'), $._space, field('base', $.name))),
      optional(seq(optional($._space), field('title', $.text))),
    )),
    kind: $ => $._kind_word,

    _body: $ => choice($.change, $.bind, $.claim, $.plain),

    change: $ => prec.dynamic(20, seq(
      alias($._change_word, 'change'), $._space, field('target', $.target), $._before_to, alias($._to, $.joint),
      repeat(seq($._gap, $._item)),
      optional(seq(
        $._gap, $.joint, repeat(seq($._gap, choice($._item, $.joint))), optional(seq(optional($._space), $.text)),
      )),
      optional($._excess),
    )),
    target: $ => seq($.name, optional(seq($._space, $.count))),

    bind: $ => prec.dynamic(20, seq(
      $.bind_key, $._space, field('name', $.name), choice(alias($._equals, '='), $._space), $._item, optional($._excess),
    )),
    bind_key: $ => $._bind_word,

    claim: $ => prec.dynamic(20, seq($.claim_key, $._space, $._item, $._space, $._compare, optional($._excess))),
    claim_key: $ => $._claim_word,

    _compare: $ => choice(
      seq(optional(seq(alias($._is, $.condition), $._space)), choice($._between_both, $._bounded)),
      $._is_word,
    ),
    _between_both: $ => seq(
      alias($._between, $.condition), $._space, $._item, $._space, alias($._and, $.condition), $._space, $._item,
    ),
    _bounded: $ => seq(alias($._bound, $.condition), $._space, $._item),
    _is_word: $ => seq(
      alias($._is, $.condition), optional(seq($._space, alias($._not, $.condition))), $._space, $._item,
      repeat($._alternative),
    ),
    _alternative: $ => prec.dynamic(1, seq($._space, alias($._or, $.condition), $._space, $._item)),

    // A line that has begun in a form of its own and goes on as none is broken, and not read as a plain one.
    _excess: $ => seq(optional($._space), alias($._rest, $.malformed)),
    _rest: $ => seq($._anything, optional($._all_else)),
    _anything: _ => token(prec(-1, /[^ \t\r\n]/)),
    _all_else: _ => token(prec(-1, /[^\r\n]+/)),

    // ---- plain lines

    plain: $ => seq(
      $.key, repeat(seq($._gap, choice($._item, $.joint))), optional(seq(optional($._space), $.text)),
    ),
    key: $ => choice(
      $._use_word, $._kind_word, $._change_word, $._bind_word, $._claim_word, $._any_word,
    ),
    _gap: $ => choice($._space, $._before_to, seq(optional($._space), $._comma)),
    _comma: _ => pattern(',', S, '*'),
    joint: $ => choice($._joint, $._to),

    // ---- expressions

    _item: $ => choice($._factor, $.expression),
    expression: $ => seq($._factor, repeat1(seq($.operator, $._factor))),
    operator: _ => token(choice(
      pattern(S, '+(?:[+/÷]|', DASH, '|', anyOf(['times', 'x']), ')', S, '+'),
      pattern(S, '*[*×]', S, '*'),
    )),

    _factor: $ => choice($.quantity, $.spread, $.day, $.path, $.call, $.group),

    path: $ => seq($.name, repeat($.part)),
    part: _ => glued('\\.', unkept('\\p{L}', IN_WORD)),
    call: $ => seq(
      field('function', $.name), alias(token.immediate('('), '('), optional($._space), $._item,
      repeat(seq(optional($._space), $._comma, $._item)), optional($._space), ')',
    ),
    group: $ => seq('(', optional($._space), $._item, optional($._space), ')'),

    // ---- quantities

    spread: $ => prec.dynamic(1, choice(
      seq($.quantity, $._before_to, alias($._to, $.joint), $._space, $.quantity),
      seq(alias($._short, $.quantity), alias($._dash, '-'), $.quantity),
    )),
    _short: $ => choice($._amount, $.xsize, $.size),

    quantity: $ => choice(
      seq($._amount, optional(choice(seq(optional($._before_unit), $.unit), alias($._mark_of_unit, $.unit)))),
      $.xsize,
      $.size,
      $.feet,
      $.pounds,
    ),
    feet: $ => prec.dynamic(2, seq(
      $._amount,
      choice(seq(optional($._before_unit), alias($._foot, $.unit)), alias($._foot_mark, $.unit)),
      optional($._space),
      $._amount,
      choice(seq(optional($._before_unit), alias($._inch, $.unit)), alias($._inch_mark, $.unit)),
    )),
    pounds: $ => prec.dynamic(2, seq(
      $._amount, optional($._before_unit), alias($._pound, $.unit), optional($._space),
      $._amount, optional($._before_unit), alias($._ounce, $.unit),
    )),
    _amount: $ => choice($.number, alias($._malformed_number, $.malformed)),
    xsize: $ => seq($._amount, alias($._ex, $.unit)),
    unit: $ => choice($._foot, $._inch, $._pound, $._ounce, $._compact, $._unit_word),
    _mark_of_unit: $ => choice($._foot_mark, $._inch_mark),

    // ---- tokens: of two that match as much, the earlier wins

    count: _ => /[0-9]{1,3}/,
    // Longer than any number that begins like it.
    day: _ => pattern('[0-9]{4}', DAY_DASH, '[0-9]{2}', DAY_DASH, '[0-9]{2}'),
    _malformed_number: _ => pattern(TOO_MUCH),
    number: _ => pattern(NUMBER),
    size: _ => /#[0-9]+(?:[\/.][0-9]+)?/,

    _inch_mark: _ => token.immediate(prec(2, pattern(`["“”″]|[${PRIME}][${PRIME}]`))),
    _foot_mark: _ => token.immediate(prec(2, pattern(`[${PRIME}]`))),
    _dash: _ => glued(DASH),
    _ex: _ => token.immediate(/[xX]/),
    _foot: _ => pattern(anyOf(['ft', 'feet', 'foot'])),
    _inch: _ => pattern(anyOf(['in', 'inch', 'inches'])),
    _pound: _ => word('lb'),
    _ounce: _ => word('oz'),
    // `3ft2in`, which else would be square feet
    _compact: _ => pattern(`(?:${anyOf(['ft', 'feet', 'foot'])})${NUMBER}${S}*(?:${anyOf(['in', 'inch', 'inches'])})`),
    _unit_word: _ => pattern(
      `${unkept('a-zA-Z', 'a-zA-Z')}(?:[23²³]?(?:/[a-zA-Z]+[23²³]?)?)`,
      `|[a-zA-Z]+[23²³](?:/[a-zA-Z]+[23²³]?)?`,
      `|%|[°º](?:${S}*[cCfF])?`,
    ),

    text: _ => pattern(TEXT),

    _equals: _ => pattern(S, '*=', S, '*'),
    _from: _ => word('from'),
    _use_word: _ => word('use'),
    _kind_word: _ => pattern(anyOf(KINDS)),
    _change_word: _ => word('change'),
    _bind_word: _ => pattern(anyOf(['let', 'limit'])),
    _claim_word: _ => pattern(anyOf(['expect', 'keep', 'when', 'unless'])),
    _bound: _ => pattern(`${anyCase('at')}${S}+(?:${anyOf(['least', 'most'])})|${anyOf(['about', 'over', 'under'])}`),
    _between: _ => word('between'),
    _and: _ => word('and'),
    _is: _ => word('is'),
    _not: _ => word('not'),
    _or: _ => word('or'),
    _to: _ => word('to'),
    _joint: _ => pattern(anyOf(JOINTS.filter(joint => joint !== 'to'))),
    name: _ => pattern(unkept('\\p{L}', IN_WORD)),
    _any_word: _ => pattern('\\p{L}[', IN_WORD, ']*'),
  },
});
