//! A check, a sheet, a fit and a card judge a rig in its water alike, whatever the rig and the water.
//!
//! `PROPTEST_CASES=2000 cargo test -p snell-tests --test agree` tries as many rigs.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use proptest::prelude::*;
use snell_analysis::{Kind, LocalDisk, Notebook, Wanted, examine};
use snell_view::fit::{Outcome, ShownFit, ToWater};
use snell_view::{Asked, ShownAnswer, ShownVerdict, Units};
use std::collections::BTreeSet;
use std::path::Path;

/// The rules that decide whether a rig fishes, as the pages of the book say.
const DECIDING: [&str; 4] = ["tippet-short-for-water", "spread", "fly-drags", "sink-late"];
/// How much less tippet than is needed still lets the point down, as the rule has it.
const DOUBT: f64 = 1.1;
/// No tippet that is shorter than the water is deep, less this, lets the point down, m.
const OFF_BED: f64 = 0.1;

/// A rig in a water, by its figures.
#[derive(Clone, Debug)]
struct Made {
    depth: f64,
    speed: f64,
    run: f64,
    bed: &'static str,
    tippet: u32,
    lower: Option<u32>,
    size: u32,
    bead: f64,
    cast: &'static str,
}

fn made() -> impl Strategy<Value = Made> {
    let water = (
        0.25..2.0_f64,
        0.15..1.6_f64,
        3.0..12.0_f64,
        prop::sample::select(&["gravel", "cobble", "boulder"][..]),
    );
    let line = (30..250_u32, prop::option::of(30..90_u32), 4..8_u32);
    let flies = (
        prop::sample::select(&[2.0, 2.4, 2.8, 3.3, 3.8][..]),
        prop::sample::select(&["tuck", "up", "down"][..]),
    );
    (water, line, flies).prop_map(
        |((depth, speed, run, bed), (tippet, lower, size), (bead, cast))| Made {
            depth,
            speed,
            run,
            bed,
            tippet,
            lower,
            size,
            bead,
            cast,
        },
    )
}

impl Made {
    fn notebook(&self) -> Notebook {
        let Self {
            depth,
            speed,
            run,
            bed,
            tippet,
            size,
            bead,
            cast,
            ..
        } = self;
        let dropper = self.lower.map_or_else(String::new, |lower| {
            format!("  dropper 15 cm with #16 2 mm tungsten\n  tippet {lower} cm of {size}X fluoro\n")
        });
        let text = format!(
            "fly own\n  hook #14\n  bead {bead} mm tungsten\n\nwater here\n  depth {depth:.3} m\n  surface {speed:.3} m/s\n  \
             run {run:.2} m\n  bed {bed}\n\nrig made\n  method tight-line\n  water here\n  cast {cast}\n  \
             butt 4 m of 0.22 mm nylon\n  sighter 40 cm of 0.20 mm nylon, pink\n  ring 2 mm\n  \
             tippet {tippet} cm of {size}X fluoro\n{dropper}  point own\n"
        );
        Notebook::of_text(Path::new("made.rig"), Kind::Rig, text, &LocalDisk)
    }

    fn tippet(&self) -> f64 {
        f64::from(self.tippet + self.lower.unwrap_or_default()) / 100.0
    }
}

fn deciding<'r>(rules: impl Iterator<Item = &'r str>) -> BTreeSet<String> {
    rules
        .filter(|rule| DECIDING.contains(rule))
        .map(str::to_owned)
        .collect()
}

/// What a check finds that decides it.
fn checked(notebook: &Notebook) -> BTreeSet<String> {
    let checked = examine(notebook, Wanted::Bare);
    deciding(checked.findings.iter().map(|finding| &*finding.code))
}

fn verdict(notebook: &Notebook) -> ShownVerdict {
    let shown = snell_view::show(notebook, Units::Author, |_, _| true);
    shown.into_iter().next().unwrap().verdict.unwrap()
}

fn fitted(notebook: &Notebook) -> ShownFit {
    let to = ToWater::default();
    let fits = snell_view::fit::fit(notebook, Units::Author, &to, None, |_, _| true, &mut |_, _| {});
    fits.unwrap().remove(0)
}

fn stays(fit: &ShownFit, rule: &str) -> bool {
    fit.stays.iter().any(|finding| finding.rule == rule)
}

/// Whether the card puts the rig's own fly into the cell of its own water, with no more tippet than there is.
fn carded(notebook: &Notebook, made: &Made) -> bool {
    let asked = Asked {
        depths: vec![format!("{:.3} m", made.depth)],
        speeds: vec![format!("{:.3} m/s", made.speed)],
        flies: vec!["own".to_owned()],
        ..Asked::default()
    };
    let cards = snell_view::cards(notebook, Units::Author, &asked, &|_, _| {}, |_, _| true).unwrap();
    match cards[0].cells.first().map(|row| &row[0].answer) {
        Some(ShownAnswer::Fished(fished)) => {
            let least = (fished.needed.value.unwrap() / DOUBT).max(made.depth - OFF_BED);
            least <= made.tippet()
        }
        Some(ShownAnswer::Unfished(_)) | None => false,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(
        std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(100)
    ) })]

    #[test]
    fn all_of_them_say_the_same(made in made(), chance in 0..20_u8) {
        let notebook = made.notebook();
        let found = checked(&notebook);
        let verdict = verdict(&notebook);
        let fishes = verdict.fishes.as_ref().unwrap();
        let reasons = deciding(fishes.reasons.iter().map(|reason| reason.rule.as_str()));
        prop_assert_eq!(&found, &reasons, "a check and the sheet");
        prop_assert_eq!(fishes.yes, Some(found.is_empty()));
        prop_assert_eq!(carded(&notebook, &made), found.is_empty(), "the card, {:?}", found);
        // Searching for ways takes long, so of those that do not fish only some are fitted.
        if found.is_empty() || chance == 0 {
            let fit = fitted(&notebook);
            let told = deciding(fit.against.iter().chain(&fit.stays).map(|finding| finding.rule.as_str()));
            prop_assert_eq!(&told, &found, "the fit");
            prop_assert!(fit.outcome != Outcome::Right || found.iter().all(|rule| stays(&fit, rule)));
        }
    }
}
