//! What is shown between the words: millimetres behind X sizes, the running
//! distance behind parts, where flies ride; and above a rig's head whether it fishes, and its totals.

use super::told::{self, named, things_of, with_rig};
use super::walk::{each_expr, each_within, extent};
use snell_analysis::{Kept, Notebook, in_threads};
use snell_finding::Limit;
use snell_rig::keywords::SectionRole;
use snell_rig::measure::{Kind, Thing, stream};
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::thing::SectionId;
use snell_rig::{Evaluation, World};
use snell_rules::Books;
use snell_syntax::{Expr, ExprKind, Single, SingleKind};
use snell_text::{Place, Span};
use snell_units::{Dimension, Quantity, System, in_order};
use snell_view::{Units, with_usual};

/// Words shown at a byte of the text that are not written there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hint {
    /// Where, in the asked text.
    pub at: u32,
    /// What is shown.
    pub text: String,
    /// What it is, for those who point at it.
    pub about: &'static str,
}

/// Words shown above a rig's head.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The head's name.
    pub place: Span,
    /// What is shown.
    pub text: String,
}

/// The hints within a span of the asked text, in order.
pub fn hints(notebook: &Notebook, within: Span) -> Vec<Hint> {
    let world = World::new(notebook.project());
    let mut hints = Vec::new();
    let shown = |span: Span| span.start <= within.end && within.start <= span.end;
    for block in told::rigs(notebook.project()).filter(|block| shown(extent(*block))) {
        with_rig(&world, block, |evaluation| {
            for line in block.lines().filter(|line| shown(line.whole().span)) {
                sizes(line, &mut hints);
                behind(evaluation, line, &mut hints);
                hints.extend(share_of_surface(evaluation, line));
            }
        });
    }
    in_order(&mut hints, Ord::cmp);
    hints
}

/// Puts a value in words.
type Tell = fn(String) -> String;

/// The measures of a rig that its lens shows, each with how its value is told.
const TOTALS: &[(&str, Tell)] = &[
    ("total", |told| format!("total {told}")),
    ("tippet", |told| format!("tippet {told}")),
    ("flies", |told| match &*told {
        "1" => "1 fly".to_owned(),
        _ => format!("{told} flies"),
    }),
    ("weakest", |told| format!("breaks at {told}")),
    ("tippet-ratio", |told| format!("tippet to depth {told}")),
];

/// The totals of a rig, with whether it fishes or without: kept while nothing that they hang on changes.
#[derive(Clone)]
struct Totals<const JUDGED: bool>(Option<String>);

impl<const JUDGED: bool> Kept for Totals<JUDGED> {
    fn each_place(&mut self, _: &mut dyn FnMut(&mut Place)) {}
}

/// The totals of every rig of the asked text, of the first with whether they fish.
pub fn lenses(notebook: &Notebook) -> Vec<Lens> {
    let rigs: Vec<BlockRef<'_>> = told::rigs(notebook.project()).collect();
    let (judged, others) = rigs.split_at(rigs.len().min(Limit::JudgedRigs.count()));
    let lens = |block: &BlockRef<'_>, text| {
        let place = block.name_place().span;
        Some(Lens { place, text: text? })
    };
    notebook.ask(|query| {
        let mut lenses = in_threads(judged, |block| {
            let told = query.kept(block.id, |world| {
                Totals::<true>(with_verdict(query.books, world, *block))
            });
            lens(block, told.0)
        });
        lenses.extend(in_threads(others, |block| {
            let told = query.kept(block.id, |world| Totals::<false>(with_rig(world, *block, totals)));
            lens(block, told.0)
        }));
        lenses
    })
}

/// Whether a rig fishes in its water, and its totals.
fn with_verdict<'p>(books: &Books<'_, 'p>, world: &World<'p>, block: BlockRef<'p>) -> Option<String> {
    let totals = with_rig(world, block, totals)?;
    let fishes = with_usual(world, block, |evaluation| snell_view::fishes(books, evaluation));
    Some(match fishes {
        Some(true) => format!("fishes here, {totals}"),
        Some(false) => format!("does not fish here, {totals}"),
        None => totals,
    })
}

/// The totals of a rig in one line, all in the units that its lengths are written in.
pub(super) fn totals(evaluation: &Evaluation<'_, '_>) -> Option<String> {
    let units = match evaluation.system() {
        System::Metric => Units::Metric,
        System::Imperial => Units::Imperial,
    };
    let one =
        |(name, tell): &(&str, Tell)| Some(tell(named(evaluation, Kind::Rig, name, Thing::Rig, units)?));
    let told: Vec<String> = TOTALS.iter().filter_map(one).collect();
    if told.is_empty() && evaluation.rig.broken {
        // A line that comes and goes while one types would move all others.
        return Some("totals when its faults are mended".to_owned());
    }
    (!told.is_empty()).then(|| told.join(", "))
}

/// Millimetres behind each X size of a line.
fn sizes(line: LineRef<'_>, hints: &mut Vec<Hint>) {
    let mut size = |single: &Single| {
        if let SingleKind::X(number) = &single.kind {
            let Some(metres) = snell_units::diameter_of_x(number.value) else {
                return;
            };
            hints.push(Hint {
                at: line.place(single.span).span.end,
                text: snell_units::write(Quantity::new(metres, Dimension::LENGTH), System::Metric),
                about: "the diameter of this size",
            });
        }
    };
    each_expr(&line.line.form, &mut |_, expr| {
        each_within(expr, &mut |inner: &Expr| match &inner.kind {
            ExprKind::Single(single) => size(single),
            ExprKind::Spread(low, high) => {
                size(low);
                size(high);
            }
            ExprKind::Path(_) | ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => {}
        });
    });
}

/// Behind a part's line: how far it ends from the point; behind a fly's, where it rides.
fn behind(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, hints: &mut Vec<Hint>) {
    let at = line.whole().span.end;
    for thing in things_of(evaluation, line) {
        let (text, about) = match thing {
            Thing::Section(index) => (
                to_point(evaluation, index),
                "from the lower end of this piece along the line to the point",
            ),
            Thing::Fly(_) => (
                named(evaluation, Kind::Fly, "rides", thing, Units::Author)
                    .map(|told| format!("rides {told}")),
                "how deep this fly rides in the drift, an estimate",
            ),
            Thing::Rig
            | Thing::Join(_)
            | Thing::Dropper(_)
            | Thing::Gap(_)
            | Thing::Shot(_)
            | Thing::Rod
            | Thing::Water => (None, ""),
        };
        if let Some(text) = text {
            hints.push(Hint { at, text, about });
        }
    }
}

/// Behind a drift at a stated speed: what share of the surface's speed that is. A share goes with the water, so that what is
/// told by it is known better.
fn share_of_surface(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>) -> Option<Hint> {
    let fit = evaluation.rig.settings.drift?;
    let whole = line.whole();
    let own = fit.line.place(fit.expr.span);
    let on_it =
        own.text == whole.text && whole.span.start <= own.span.start && own.span.end <= whole.span.end;
    let speed = evaluation.value(fit).ok().filter(|_| on_it)?;
    if speed.dimension() != Dimension::SPEED {
        return None;
    }
    let surface = stream(evaluation).ok()?.profile.surface().value;
    (surface > 0.0).then(|| Hint {
        at: whole.span.end,
        text: format!("{:.0} % of the surface", 100.0 * speed.si() / surface),
        about: "told as this share, `drift at 69 %`, the depths are known twice as well: how fast the surface runs is most of \
                what a held drift may be off by",
    })
}

/// How far from the point a piece ends; the last piece ends there, and the line begins every rig.
fn to_point(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Option<String> {
    let chain = &evaluation.rig.chain;
    if chain.section(id).role == SectionRole::Line || id.below() == chain.end() {
        return None;
    }
    let told = named(
        evaluation,
        Kind::Section,
        "to-point",
        Thing::Section(id),
        Units::Author,
    );
    told.map(|told| format!("{told} to the point"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind as TextKind, LocalDisk};
    use std::path::Path;

    #[test]
    fn hints_tell_what_is_not_written() {
        let text = "rig a\n  water 3 ft at 2 ft/s over cobble\n  tippet 36 in of 5X fluoro\n  dropper 8 in with #16\n  tippet 22 in of 6X fluoro\n  point #14 2.8 mm tungsten\n";
        let book = Notebook::of_text(Path::new("a.rig"), TextKind::Rig, text.to_owned(), &LocalDisk);
        let shown: Vec<(usize, String)> = hints(&book, Span::new(0, u32::MAX))
            .into_iter()
            .map(|hint| (text[..hint.at as usize].lines().count(), hint.text))
            .collect();
        let on = |line: usize| -> Vec<&str> {
            let of = shown.iter().filter(|(at, _)| *at == line);
            of.map(|(_, told)| told.as_str()).collect()
        };
        assert_eq!(on(3), ["0.152 mm", "22 in to the point"]);
        assert_eq!(on(5), ["0.127 mm"], "the last piece ends at the point");
        for fly in [4, 6] {
            let told = on(fly)[0];
            assert!(told.starts_with("rides about "), "{shown:?}");
            let depth = told.split(" (").next().unwrap_or_default();
            assert!(
                !depth.contains('.'),
                "no finer than what it may be off by: {told}"
            );
        }
    }

    #[test]
    fn a_drift_at_a_speed_tells_its_share_of_the_surface() {
        let rig = |drift: &str| {
            format!(
                "rig held\n  water 1 m at 0.8 m/s over cobble\n  {drift}\n  tippet 1.5 m of 6X fluoro\n  point #14 2.8 mm \
                 tungsten\n"
            )
        };
        let share = |drift: &str| {
            let (hints, _) = told(&rig(drift));
            hints.into_iter().find(|hint| hint.ends_with("of the surface"))
        };
        assert_eq!(share("drift at 0.55 m/s").as_deref(), Some("69 % of the surface"));
        assert_eq!((share("drift at 69 %"), share("drift free")), (None, None));
    }

    #[test]
    fn of_very_many_rigs_the_first_tell_whether_they_fish() {
        let most = Limit::JudgedRigs.count();
        let rig = |number| {
            format!(
                "rig r{number}\n  method tight-line\n  water 3 ft at 2 ft/s over cobble\n  sighter 40 cm of 0.20 mm nylon\n  \
                 ring 2 mm\n  tippet 50 cm of 6X fluoro\n  point #14 2.8 mm tungsten\n"
            )
        };
        let text: String = (0..most + 2).map(rig).collect();
        let book = Notebook::of_text(Path::new("a.rig"), TextKind::Rig, text, &LocalDisk);
        let lenses = lenses(&book);
        let judged = lenses.iter().filter(|lens| lens.text.contains(" here, "));
        assert_eq!((judged.count(), lenses.len()), (most, most + 2));
    }

    fn told(text: &str) -> (Vec<String>, Vec<String>) {
        let book = Notebook::of_text(Path::new("a.rig"), TextKind::Rig, text.to_owned(), &LocalDisk);
        let hints = hints(&book, Span::new(0, u32::MAX));
        let hints = hints.into_iter().map(|hint| hint.text).collect();
        (hints, lenses(&book).into_iter().map(|lens| lens.text).collect())
    }

    #[test]
    fn a_half_typed_line_takes_only_what_may_hang_on_it() {
        let rig = "rig a\n  sighter 15 in of 0.20 mm nylon\n  tippet 36 in of 5X fluoro\n  tippet 22 in of 6X fluoro\n";
        let whole = told(rig);
        assert_eq!(whole.1, ["total 6 ft 1 in, tippet 58 in, 0 flies"]);
        for setting in ["  method tight-li\n", "  water 3 f\n", "  rod\n"] {
            assert_eq!(told(&format!("{rig}{setting}")), whole, "{setting}");
        }
        for part in ["  tippet 20 i\n", "  tippte 20 in\n", "  tippet 20 in of (\n"] {
            let (hints, lenses) = told(&format!("{rig}{part}"));
            assert!(
                !hints.iter().any(|told| told.contains("to the point")),
                "{part}: {hints:?}"
            );
            assert!(hints.contains(&"0.152 mm".to_owned()), "{part}: {hints:?}");
            assert_eq!(lenses, ["totals when its faults are mended"], "{part}");
        }
    }
}
