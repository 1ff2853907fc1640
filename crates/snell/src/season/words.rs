//! A season in words: what happened, what was caught, and what that suggests.

use crate::prose::counted;
use crate::season::read::Season;
use snell_history::{Differs, Event, FishOnDay, Happened, OnDay, RigStory, Run, Side, Suggested, Sure, Way};
use snell_rig::blocks::Came;
use snell_rig::day::Day;
use snell_view::compare::{Piece, told};

/// What has to be known of the history before it is read.
pub fn remarks(season: &Season) -> Vec<String> {
    let first = season.span().map_or("", |(first, _)| first);
    let cut_short = season.cut_short.then(|| {
        format!(
            "This clone begins on {first}: older commits were left out when it was made, and what is told as born then may be older. \
             `git fetch --unshallow` brings them."
        )
    });
    let grafted = "Some commits of this history stand for others (`git replace`, or a file of grafts): it is told as they have it.";
    let grafted = season.grafted.then(|| grafted.to_owned());
    cut_short.into_iter().chain(grafted).collect()
}

/// A day at the water, in phrases.
pub fn outing(season: &Season, day: &OnDay) -> Vec<String> {
    let name = day.rig_name(&season.rigs);
    let at = day
        .water
        .as_ref()
        .map_or_else(String::new, |water| format!(" at {water}"));
    let mut told = vec![format!("{} with {name}{at}", day.caught())];
    let flies: Vec<String> = day.fish.iter().filter_map(fish).collect();
    told.extend((!flies.is_empty()).then(|| flies.join(", ")));
    told.extend((day.lost() > 0).then(|| format!("{} lost", day.lost())));
    told.extend(day.branch.map(|_| "with the rig of a branch".to_owned()));
    told.extend(day.outing.edited.then(|| "changed at the bank".to_owned()));
    let later = || "the rig was written down later".to_owned();
    told.extend(day.taken.commit().is_none().then(later));
    let misfit = || "what was changed does not fit the rig as it stood then".to_owned();
    told.extend((!day.fits).then(misfit));
    told
}

/// `2 on slate spider (grayling, 31 cm, 34 cm)`; nothing of fish that are not told one by one.
fn fish(fish: &FishOnDay) -> Option<String> {
    if fish.count == 0 || fish.came == Came::Off {
        return None;
    }
    let said = &fish.said;
    let species = said.species.map(str::to_owned);
    let lengths = said.lengths.iter().map(|length| length.text.clone());
    let about: Vec<String> = species
        .into_iter()
        .chain(lengths)
        .chain(said.time.clone())
        .collect();
    let on = fish.fly.as_ref().map(|fly| format!(" on {fly}"));
    if on.is_none() && about.is_empty() {
        return None;
    }
    let about = match about.as_slice() {
        [] => String::new(),
        [_, ..] => format!(" ({})", about.join(", ")),
    };
    Some(format!("{}{}{about}", fish.count, on.unwrap_or_default()))
}

/// `4 outings, 10 fish, 1 lost`
pub fn outings_of(days: &[&OnDay]) -> String {
    let caught: u32 = days.iter().map(|day| day.caught()).sum();
    let lost: u32 = days.iter().map(|day| day.lost()).sum();
    let lost = if lost > 0 {
        format!(", {lost} lost")
    } else {
        String::new()
    };
    format!(
        "{}, {caught} fish{lost}",
        counted(days.len(), "outing", "outings")
    )
}

/// What is said above what happened on a branch: when it was joined, whether the rig came out of it, and what it caught.
pub fn branch(season: &Season, story: &RigStory, side: &Side) -> String {
    let came = if side.kept { "kept" } else { "not kept" };
    let joined = season.commits[side.joined].day();
    let of_story = |day: &&OnDay| {
        let rig = day.rig.and_then(|rig| season.rigs.get(rig));
        day.branch == Some(side.joined) && rig.is_some_and(|rig| std::ptr::eq(rig, story))
    };
    let days: Vec<&OnDay> = season.fished.days.iter().filter(of_story).collect();
    let caught = match days.as_slice() {
        [] => String::new(),
        [_, ..] => format!("; {}", outings_of(&days)),
    };
    format!("on a branch, joined {joined}, {came}{caught}")
}

/// Small changes told as one: `upper crept from 30 in to 40 in, in 4 steps over 5 days`.
pub fn run(season: &Season, run: &Run<'_>) -> String {
    let day = |event: &Event| season.commits[event.commit].day().parse::<Day>().ok();
    let span = run
        .events
        .first()
        .and_then(day)
        .zip(run.events.last().and_then(day));
    let days = span.map_or(0, |(first, last)| last.number().saturating_sub(first.number()));
    let over = match days {
        0 => "on one day".to_owned(),
        1 => "from one day to the next".to_owned(),
        days => format!("over {days} days"),
    };
    let (from, to) = (&run.from.text, &run.to.text);
    let steps = run.events.len();
    let crept = if run.grew() { "crept up" } else { "crept down" };
    format!(
        "{} {crept} from {from} to {to}, in {steps} steps {over}",
        run.part
    )
}

/// What some outings suggest, and how sure that is.
pub fn suggestion(one: &Suggested) -> String {
    let alike = match one.differs {
        Differs::Tippet => "at the same water with the same point",
        Differs::Point => "on the point, at the same water on the same tippet",
        Differs::Fly => "on the same rig at the same time",
    };
    let way = |way: &Way, first: bool| {
        let fish = if first && way.fish > 0 { " fish" } else { "" };
        let outings = match first {
            true => counted(way.outings as usize, "outing", "outings"),
            false => way.outings.to_string(),
        };
        let many = if way.fish == 0 {
            "none".to_owned()
        } else {
            way.fish.to_string()
        };
        format!("{many}{fish} on {} in {outings}", way.name)
    };
    let (more, less) = (way(&one.more, true), way(&one.less, false));
    let sure = match one.sure {
        Sure::TooFew => "too few outings to tell".to_owned(),
        Sure::NoDifference => format!(
            "no difference to be told: chance alone would often do that ({})",
            odds(one.by_chance)
        ),
        Sure::More => format!(
            "{} caught more: chance alone would seldom do that ({})",
            one.more.name,
            odds(one.by_chance)
        ),
    };
    format!("{more}, {less}, {alike}: {sure}")
}

/// `1 in 140`
fn odds(chance: f64) -> String {
    if chance > 0.5 {
        return "more often than not".to_owned();
    }
    let one_in = 1.0 / chance;
    let rounded = if one_in < 20.0 {
        one_in.round()
    } else {
        (one_in / 10.0).round() * 10.0
    };
    format!("1 time in {rounded}")
}

/// What happened, in sentences.
pub fn sentences(event: &Event) -> Vec<String> {
    let mut sentences = happened(event);
    if event.merge {
        sentences.insert(0, "brought by a branch".to_owned());
    }
    sentences
}

fn happened(event: &Event) -> Vec<String> {
    match &event.what {
        Happened::Born => {
            let partly = (!event.rig.sound).then(|| "not all of it could be read".to_owned());
            [format!("in {}", event.rig.called.file)]
                .into_iter()
                .chain(partly)
                .collect()
        }
        Happened::Changed {
            renamed,
            changes,
            follows,
            measures,
            another,
        } => {
            let mut all: Vec<String> = Vec::new();
            all.extend(renamed.as_ref().map(|was| format!("was {was}")));
            match (follows, another) {
                (Some(base), _) => all.push(format!("as {base}")),
                (None, Some(pieces)) => {
                    let parts: Vec<String> = pieces.iter().map(Piece::in_words).collect();
                    all.push(format!("another rig: {}", parts.join(", ")));
                }
                (None, None) => all.extend(changes.iter().map(told)),
            }
            if all.is_empty() {
                all.extend(snell_view::compare::told_moved(measures));
            }
            if all.is_empty() {
                all.push("its title".to_owned());
            }
            all
        }
        Happened::Unreadable => vec!["not all of it could be read".to_owned()],
        Happened::Mended => vec!["it can be read again".to_owned()],
        Happened::Dropped => vec!["taken out".to_owned()],
        Happened::Returned => vec![format!("put back, in {}", event.rig.called.file)],
    }
}
