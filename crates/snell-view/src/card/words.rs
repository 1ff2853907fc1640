//! What a card says below its cells, in words: how to read it, how far to trust
//! it, what it rests on. Every form says the same.

use crate::card::cell::Wading;
use crate::card::shown::{ShownAnswer, ShownCard, ShownFly, Why};
use crate::need::ShownAssumed;
use crate::written::Written;

/// One remark.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// What it is about.
    pub about: About,
    /// The remark.
    pub text: String,
}

/// What a remark is about: the word or sign before it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// A word.
    Word(&'static str),
    /// A mark of the cells.
    Mark(Wading),
}

/// What stands in a cell that nothing fishes.
pub const NOTHING: &str = "—";

impl ShownCard {
    /// Its remarks, in the order in which they are read.
    pub fn remarks(&self) -> Vec<Remark> {
        let day = self.day.clone().map(|day| said("day", day));
        let mut all: Vec<Remark> = day.into_iter().collect();
        all.extend([said("cell", self.reading()), said("fishes", self.asking())]);
        all.extend(self.nothing());
        all.extend(self.wading());
        all.push(said("estimates", self.estimates()));
        all.extend(self.water());
        all.push(said("flies", self.lightest_first()));
        all.extend(self.left_out.clone().map(|names| said("not tried", names)));
        let assumed = together(&self.assumed);
        if !assumed.is_empty() {
            all.push(said("assumed", assumed));
        }
        all
    }

    fn answers(&self) -> impl Iterator<Item = &ShownAnswer> {
        self.cells.iter().flatten().map(|cell| &cell.answer)
    }

    fn reading(&self) -> String {
        let which = if self.beads {
            "the lightest bead on the rig's point fly that fishes there"
        } else {
            "the lightest fly at hand that fishes there"
        };
        format!("{which}, the tippet that goes under water, and the seconds until it is down")
    }

    fn asking(&self) -> String {
        let figure = |rule: &str| self.limits.get(rule).map(|limit| limit.text.as_str());
        let run = self.inputs.get("run").map(|run| run.text.as_str());
        let late = figure("sink-late").zip(run).map_or_else(
            || "the point is down in time".to_owned(),
            |(late, run)| format!("the point is down within {late} of a run of {run}"),
        );
        let drags = figure("fly-drags").map_or_else(
            || "no fly is dragged".to_owned(),
            |most| format!("no fly goes over {most} faster or slower than the water beside it"),
        );
        format!("{late} (the rule sink-late), and {drags} (fly-drags)")
    }

    fn nothing(&self) -> Option<Remark> {
        let mut whys: Vec<Why> = self
            .answers()
            .filter_map(|answer| match answer {
                ShownAnswer::Unfished(why) => Some(why.clone()),
                ShownAnswer::Fished(_) => None,
            })
            .collect();
        whys.sort_unstable();
        whys.dedup();
        let told: Vec<String> = whys
            .iter()
            .map(|why| format!("{}: {}", why.word, why.means.trim_end_matches('.')))
            .collect();
        (!told.is_empty()).then(|| said(NOTHING, told.join("; ")))
    }

    /// What the marks mean, and the caution that no figure lifts.
    fn wading(&self) -> Vec<Remark> {
        let figure = |rule: &str| {
            let limit = self.limits.get(rule);
            limit.map_or("what is safe", |limit| limit.text.as_str())
        };
        let marks = [
            (
                Wading::Hard,
                format!("over {}: hard water to stand in", figure("wading")),
            ),
            (
                Wading::KeepOut,
                format!(
                    "{} or more: keep out, and fish it from the bank",
                    figure("wading-danger")
                ),
            ),
        ];
        let cells = || self.cells.iter().flatten();
        let marked = marks
            .into_iter()
            .filter(|(wading, _)| cells().any(|cell| cell.wading == *wading));
        let mut all: Vec<Remark> = marked
            .map(|(wading, means)| Remark {
                about: About::Mark(wading),
                text: format!("depth times surface speed comes to {means}"),
            })
            .collect();
        let caution = "no figure here is a word on where to stand: look at the river, its bed and what lies below, \
                       and go with somebody. Local law, notices and guides come before this card";
        all.push(said("wading", caution.to_owned()));
        all
    }

    /// What the figures may be off by, as it is known of a cell in the middle.
    fn estimates(&self) -> String {
        let fished = || {
            self.answers().filter_map(|answer| match answer {
                ShownAnswer::Fished(fished) => Some(fished),
                ShownAnswer::Unfished(_) => None,
            })
        };
        let tippet = shares(fished().map(|fished| &fished.needed));
        let seconds = shares(fished().map(|fished| &fished.sink_time));
        let told: Vec<String> = [("tippet", tippet), ("seconds", seconds)]
            .into_iter()
            .filter_map(|(of, share)| Some(format!("{of} {}", share?)))
            .collect();
        if told.is_empty() {
            return "all of it".to_owned();
        }
        let told = told.join(", ");
        format!("all of it; eight times out of ten {told} of what is told, in the middle of the card")
    }

    fn water(&self) -> Option<Remark> {
        let told: Vec<String> = self
            .inputs
            .iter()
            .map(|(name, written)| format!("{name} {}", written.text))
            .collect();
        (!told.is_empty()).then(|| said("water", told.join(", ")))
    }

    fn lightest_first(&self) -> String {
        let fly = |fly: &ShownFly| format!("{} {}", fly.name, fly.mass.text);
        let flies: Vec<String> = self.flies.iter().map(fly).collect();
        format!("lightest first: {}", flies.join(", "))
    }
}

fn said(word: &'static str, text: String) -> Remark {
    Remark {
        about: About::Word(word),
        text,
    }
}

/// The least and the greatest share of itself that one of some estimates lies between.
fn shares<'w>(of: impl Iterator<Item = &'w Written>) -> Option<String> {
    let share = |written: &Written| {
        let (value, between) = (
            written.value.filter(|value| *value > 0.0)?,
            written.between.as_ref()?,
        );
        Some((between.low / value, between.high / value))
    };
    let (low, high) = of
        .filter_map(share)
        .reduce(|(low, high), (lower, higher)| (low.min(lower), high.max(higher)))?;
    Some(format!("{:.0} to {:.0} %", low * 100.0, high * 100.0))
}

/// What was assumed, each reason once: of several things that share one, and the words that they begin with,
/// only the rest is told.
fn together(assumed: &[ShownAssumed]) -> String {
    let mut reasons: Vec<&str> = assumed.iter().map(|one| one.why.as_str()).collect();
    let mut seen = Vec::new();
    reasons.retain(|why| {
        !seen.contains(why) && {
            seen.push(*why);
            true
        }
    });
    let told = reasons.into_iter().map(|why| {
        let of: Vec<&ShownAssumed> = assumed.iter().filter(|one| one.why == why).collect();
        match of.as_slice() {
            [one] => format!("{}: {} ({why})", one.what, one.value),
            several => format!("{} ({why})", names(several)),
        }
    });
    told.collect::<Vec<_>>().join("; ")
}

fn names(several: &[&ShownAssumed]) -> String {
    let shared = several
        .iter()
        .skip(1)
        .fold(several[0].what.as_str(), |shared, one| {
            let words = shared.split_inclusive(' ').zip(one.what.split_inclusive(' '));
            let same = words.take_while(|(own, other)| own == other && own.ends_with(' '));
            &shared[..same.map(|(word, _)| word.len()).sum()]
        });
    let rest: Vec<&str> = several.iter().map(|one| &one.what[shared.len()..]).collect();
    format!("{shared}{}", rest.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(what: &str, why: &str) -> ShownAssumed {
        ShownAssumed {
            knot: None,
            what: what.to_owned(),
            value: "4 mm".to_owned(),
            why: why.to_owned(),
        }
    }

    #[test]
    fn a_reason_is_told_once() {
        let all = [
            one("the drag of slate", "out of its bead"),
            one("the run", "usual"),
            one("the drag of peat", "out of its bead"),
        ];
        assert_eq!(
            together(&all),
            "the drag of slate, peat (out of its bead); the run: 4 mm (usual)"
        );
    }
}
