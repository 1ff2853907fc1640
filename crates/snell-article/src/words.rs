//! The words of a marker, read: what it asks for, of which rig, in which units.
//!
//! Whether there is such a rig or such a measure is not known here.

use snell_finding::{Code, Finding, Fix};
use snell_text::{Place, Span, TextId};
use snell_view::Units;

/// What stands in a block of its own.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shown {
    /// The whole sheet: parts, measures, what was assumed, what is unknown.
    Sheet,
    /// The table from rod to fly.
    Parts,
    /// The measures.
    Measures,
    /// The rig to scale.
    Picture,
    /// The drift in its water.
    Drift,
    /// The tying list.
    Cuts,
    /// The card for the pocket.
    Card,
    /// What differs from another rig.
    Changes,
}

/// The word that asks for it, whether `of` follows, and what it is.
const BLOCKS: [(&str, bool, Shown); 8] = [
    ("show", false, Shown::Sheet),
    ("parts", true, Shown::Parts),
    ("measures", true, Shown::Measures),
    ("draw", false, Shown::Picture),
    ("drift", false, Shown::Drift),
    ("cut", false, Shown::Cuts),
    ("card", false, Shown::Card),
    ("compare", false, Shown::Changes),
];

pub(super) const END: &str = "end";
pub(super) const USE: &str = "use";

/// All that can be asked for, for those who asked for something else.
pub(super) const CAN_BE_ASKED: &str = "a marker asks for `show RIG`, `parts of RIG`, `measures of RIG`, `cut RIG`, \
    `draw RIG`, `drift RIG`, `card RIG` or `compare RIG with RIG`, or in a sentence for `total of RIG`, \
    `length of PART of RIG`, `stuff of PART of RIG`, `fly on PART of RIG`, `knot below PART of RIG`, `verdict of RIG`";

/// Words with their place in the page.
#[derive(Clone, Copy, Debug)]
pub(super) struct Said<'t> {
    pub text: &'t str,
    pub span: Span,
}

/// What a marker asks for.
#[derive(Clone, Debug)]
pub(super) struct Wish<'t> {
    /// All words of the marker.
    pub words: Span,
    pub rig: Said<'t>,
    pub what: What<'t>,
}

#[derive(Clone, Debug)]
pub(super) enum What<'t> {
    /// Something on lines of its own.
    Block(Block<'t>),
    /// One figure or word, of a part or of the whole rig.
    Figure {
        measure: Said<'t>,
        part: Option<(Side, Said<'t>)>,
        told: Told<'t>,
    },
}

/// Something on lines of its own.
#[derive(Clone, Debug)]
pub(super) struct Block<'t> {
    pub shown: Shown,
    pub units: Units,
    /// The file that a picture is drawn into, where the writer says it.
    pub into: Option<Said<'t>>,
    /// What a picture shows, where the writer says it better.
    pub instead: Option<Said<'t>>,
    /// The rig that another is held against.
    pub with: Option<Said<'t>>,
}

/// Which side of a part is meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Side {
    /// The part itself: `of`, `on`.
    Itself,
    /// Where it meets the one above.
    Above,
    /// Where it meets the one below.
    Below,
}

/// The words between what is asked and the part that it is asked of.
const JOINTS: [(&str, Side); 4] = [
    ("of", Side::Itself),
    ("on", Side::Itself),
    ("above", Side::Above),
    ("below", Side::Below),
];

/// In which units a figure is told.
#[derive(Clone, Copy, Debug)]
pub(super) enum Told<'t> {
    System(Units),
    /// In one unit.
    Unit(Said<'t>),
}

/// The first word of a marker.
pub(super) fn first(words: &str) -> &str {
    words.split_whitespace().next().unwrap_or_default()
}

/// Reads the words of a marker.
///
/// # Errors
/// They ask for nothing that there is.
pub(super) fn read<'t>(page: &'t str, words: Span, text: TextId) -> Result<Wish<'t>, Box<Finding>> {
    let place = |span| Place::new(text, span);
    let unread = |span: Span, message: String| {
        Box::new(Finding::fault(Code::MarkerUnread, place(span), message).help(CAN_BE_ASKED))
    };
    let (rest, instead) = behind(page, words, " as ");
    let (rest, into) = behind(page, rest, " into ");
    let mut said = split(page, rest);
    let units = units_of(&mut said);
    let Some(head) = said.first().copied() else {
        return Err(unread(words, "this marker asks for nothing".to_owned()));
    };
    let block = BLOCKS
        .into_iter()
        .find(|(word, _, _)| head.text.eq_ignore_ascii_case(word));
    let Some((word, of, shown)) = block else {
        if let Some(into) = into.or(instead) {
            let message = "a figure is put into the text, not into a file".to_owned();
            return Err(unread(into.span, message));
        }
        let (rig, what) =
            figure(page, &said, units).ok_or_else(|| Box::new(unknown(head, place(head.span))))?;
        return Ok(Wish { words, rig, what });
    };
    let (rig, with) = match (&said[1..], of, shown) {
        ([rig, with, other], false, Shown::Changes) if is_word(with, "with") => (*rig, Some(*other)),
        ([rig], false, _) if shown != Shown::Changes => (*rig, None),
        ([joint, rig], true, _) if is_word(joint, "of") => (*rig, None),
        (rest, _, _) => return Err(unread(words, misled(word, of, shown, rest))),
    };
    let block = Block {
        shown,
        units: units.map_or(Ok(Units::Author), |said| {
            system(said.text).ok_or_else(|| {
                let message = format!(
                    "`{}` is no way to write all units: `in metric`, `in imperial` or `in both`",
                    said.text
                );
                unread(said.span, message)
            })
        })?,
        into,
        instead,
        with,
    };
    let is_picture = matches!(shown, Shown::Picture | Shown::Drift | Shown::Card);
    match into.or(instead).filter(|_| !is_picture) {
        Some(of_picture) => Err(unread(
            of_picture.span,
            "only a picture is drawn into a file".to_owned(),
        )),
        None => Ok(Wish {
            words,
            rig,
            what: What::Block(block),
        }),
    }
}

/// What is told where a word that opens a block is followed by something else than its rig.
fn misled(word: &str, of: bool, shown: Shown, rest: &[Said<'_>]) -> String {
    if shown == Shown::Changes {
        return format!("`{word}` is followed by two rigs: `{word} RIG with RIG`");
    }
    let of = if of { " of" } else { "" };
    match rest {
        [] => format!("`{word}` is not told of which rig: `{word}{of} RIG`"),
        _ => format!("`{word}` is followed by the name of one rig: `{word}{of} RIG`"),
    }
}

/// `MEASURE of RIG`, `MEASURE of PART of RIG` or `MEASURE below PART of RIG`; a part's name may hold an `of`, a rig's may
/// not.
fn figure<'t>(page: &'t str, said: &[Said<'t>], units: Option<Said<'t>>) -> Option<(Said<'t>, What<'t>)> {
    let [measure, joint, rest @ ..] = said else {
        return None;
    };
    let side = JOINTS
        .into_iter()
        .find_map(|(word, side)| is_word(joint, word).then_some(side))?;
    let told = match units {
        None => Told::System(Units::Author),
        Some(said) => system(said.text).map_or(Told::Unit(said), Told::System),
    };
    let (rig, part) = match rest {
        [part @ .., of, rig] if is_word(of, "of") && !part.is_empty() => {
            (*rig, Some((side, joined(page, part))))
        }
        [_, ..] if is_word(joint, "of") => (joined(page, rest), None),
        _ => return None,
    };
    let measure = *measure;
    Some((rig, What::Figure { measure, part, told }))
}

fn unknown(head: Said<'_>, place: Place) -> Finding {
    let message = format!("`{}` is nothing that a marker asks for", head.text);
    let finding = Finding::fault(Code::MarkerUnread, place, message).help(CAN_BE_ASKED);
    let known = BLOCKS.iter().map(|(word, _, _)| *word).chain([END, USE]);
    match snell_units::nearest(head.text, known) {
        Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        None => finding,
    }
}

fn is_word(said: &Said<'_>, word: &str) -> bool {
    said.text.eq_ignore_ascii_case(word)
}

/// The way to write all units that a word names.
fn system(word: &str) -> Option<Units> {
    let known = [
        ("metric", Units::Metric),
        ("imperial", Units::Imperial),
        ("both", Units::Both),
    ];
    known
        .into_iter()
        .find_map(|(name, units)| word.eq_ignore_ascii_case(name).then_some(units))
}

/// Takes `in UNITS` off the end.
fn units_of<'t>(said: &mut Vec<Said<'t>>) -> Option<Said<'t>> {
    let [.., joint, units] = said[..] else { return None };
    (said.len() > 2 && joint.text.eq_ignore_ascii_case("in")).then(|| {
        said.truncate(said.len() - 2);
        units
    })
}

/// Takes a clause off the end, `into FILE` or `as "WORDS"`, quotes left out.
fn behind<'t>(page: &'t str, words: Span, joint: &str) -> (Span, Option<Said<'t>>) {
    let written = words.of(page);
    let Some(at) = written.to_ascii_lowercase().find(joint) else {
        return (words, None);
    };
    let clause = &written[at + joint.len()..];
    let is_around = |letter: char| letter.is_whitespace() || matches!(letter, '"' | '\'' | '“' | '”');
    let text = clause.trim_matches(is_around);
    let start = at + joint.len() + (clause.len() - clause.trim_start_matches(is_around).len());
    let span = Span::from(start..start + text.len()).shifted(words.start);
    let rest = Span::from(0..at).shifted(words.start);
    (rest, Some(Said { text, span }))
}

fn split(page: &str, words: Span) -> Vec<Said<'_>> {
    let mut said = Vec::new();
    let mut at = words.start;
    for word in words.of(page).split_inclusive(char::is_whitespace) {
        let text = word.trim_end();
        if !text.is_empty() {
            let span = Span::new(at, at + text.len() as u32);
            said.push(Said { text, span });
        }
        at += word.len() as u32;
    }
    said
}

fn joined<'t>(page: &'t str, all: &[Said<'t>]) -> Said<'t> {
    let spans = all.iter().map(|said| said.span);
    let span = spans.reduce(Span::to).unwrap_or_default();
    Said {
        text: span.of(page),
        span,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(words: &str) -> String {
        let span = Span::from(0..words.len());
        match read(words, span, TextId(0)) {
            Err(finding) => format!("{} @ {}", finding.message, finding.place().span.of(words)),
            Ok(Wish { rig, what, .. }) => match what {
                What::Block(block) => {
                    let clauses = [block.with, block.into, block.instead].into_iter().flatten();
                    let clauses: Vec<&str> = clauses.map(|said| said.text).collect();
                    format!(
                        "{:?} {} {:?} {}",
                        block.shown,
                        rig.text,
                        block.units,
                        clauses.join(" + ")
                    )
                }
                What::Figure { measure, part, told } => format!(
                    "{} / {} / {} {}",
                    measure.text,
                    part.map_or("-".to_owned(), |(side, part)| match side {
                        Side::Itself => part.text.to_owned(),
                        Side::Above | Side::Below => format!("{side:?} {}", part.text),
                    }),
                    rig.text,
                    match told {
                        Told::System(units) => format!("{units:?}"),
                        Told::Unit(said) => said.text.to_owned(),
                    }
                ),
            },
        }
    }

    #[test]
    fn what_is_asked_for() {
        assert_eq!(told("show low"), "Sheet low Author ");
        assert_eq!(told("Parts of low in metric"), "Parts low Metric ");
        assert_eq!(
            told("draw low into \"pictures/low.svg\""),
            "Picture low Author pictures/low.svg"
        );
        assert_eq!(told("total of low"), "total / - / low Author");
        assert_eq!(told("total of low in cm"), "total / - / low cm");
        assert_eq!(told("total of low in in"), "total / - / low in");
        assert_eq!(told("length of taper 1 of low"), "length / taper 1 / low Author");
        assert_eq!(
            told("draw low into a.png as \"The low rig, and as I fish it\""),
            "Picture low Author a.png + The low rig, and as I fish it"
        );
        assert_eq!(told("compare low with high"), "Changes low Author high");
        assert_eq!(told("fly on point of low"), "fly / point / low Author");
        assert_eq!(told("knot below upper of low"), "knot / Below upper / low Author");
        assert_eq!(
            told("ratio of end of a of low in both"),
            "ratio / end of a / low Both"
        );
    }

    #[test]
    fn what_is_not_understood_is_told_at_its_word() {
        for (words, expected) in [
            ("", "this marker asks for nothing @ "),
            (
                "compare low",
                "`compare` is followed by two rigs: `compare RIG with RIG` @ compare low",
            ),
            (
                "knot below low",
                "`knot` is nothing that a marker asks for @ knot",
            ),
            ("shew low", "`shew` is nothing that a marker asks for @ shew"),
            ("show", "`show` is not told of which rig: `show RIG` @ show"),
            (
                "show low high",
                "`show` is followed by the name of one rig: `show RIG` @ show low high",
            ),
            (
                "show low in cm",
                "`cm` is no way to write all units: `in metric`, `in imperial` or `in both` @ cm",
            ),
            (
                "cut low into a.svg",
                "only a picture is drawn into a file @ a.svg",
            ),
            (
                "total of low into a.svg",
                "a figure is put into the text, not into a file @ a.svg",
            ),
        ] {
            assert_eq!(told(words), expected);
        }
    }
}
