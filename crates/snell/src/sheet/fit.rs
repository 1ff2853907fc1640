//! A fit for people: what stands against the rig in the water, then each way in
//! the words of the bank with what it brings.

use super::plain::Page;
use super::unsaid;
use crate::sheet::entry::{Named, named};
use crate::terminal::Terminal;
use snell_view::fit::{Outcome, ShownFinding, ShownFit, ShownState, ShownWay};

/// Writes a fit.
pub fn write(fit: &ShownFit, terminal: &Terminal) -> String {
    let mut page = Page::new(terminal);
    page.title(&fit.name, fit.title.as_deref());
    page.gap();
    page.named(&[named("for", &fit.water)]);
    page.gap();
    page.named(&as_it_is(fit));
    page.gap();
    page.named(&[named("so", &verdict(fit))]);
    page.gap();
    for (index, way) in fit.ways.iter().enumerate() {
        page.list(&(index + 1).to_string(), &told(way, &fit.as_it_is));
        page.gap();
    }
    page.named(&stays(fit));
    page.gap();
    page.list("assumed", &unsaid::assumed(&fit.assumed));
    page.gap();
    if let Some(addition) = fit.ways.first().and_then(|way| way.addition.as_ref()) {
        let told = match addition.may_be_added() {
            Ok(()) => format!("`--write` adds the first way to {}:", fit.file),
            Err(why) => format!("the first way as a rig, to be pasted; it cannot be added here: {why}"),
        };
        page.list("to keep", &[told]);
        page.gap();
        page.verbatim(&addition.lines);
    }
    page.finish()
}

/// How the rig fares with nothing changed, and what is found of it.
fn as_it_is(fit: &ShownFit) -> Vec<Named> {
    let mut lines: Vec<String> = fit.against.iter().map(found).collect();
    let state = &fit.as_it_is;
    if let (Some((needed, line)), false) = (&state.short, fit.has_method) {
        lines.push(format!(
            "there are {line} of line to go under, and {needed} are needed to let the point down"
        ));
    }
    lines.extend(fares(state));
    list("as it is", lines)
}

fn fares(state: &ShownState) -> Option<String> {
    if !state.needs.is_empty() {
        return Some(format!("no drift without {}", state.needs.join(", ")));
    }
    let off_bed = state.off_bed.as_ref()?;
    let down = match &state.sink_time {
        Some(time) => format!("is down after {}", time.text),
        None => "is not down within a minute".to_owned(),
    };
    Some(format!(
        "by estimate the point rides {} off the bed and {down}",
        off_bed.text
    ))
}

fn verdict(fit: &ShownFit) -> String {
    let changes = match fit.ways.iter().map(|way| way.changes.len()).max() {
        Some(1) => "one change makes it right",
        Some(2) => "two changes make it right",
        _ => "three changes make it right",
    };
    let ways = match fit.ways.len() {
        1 => "",
        _ => "; the best way first",
    };
    match fit.outcome {
        Outcome::Right if fit.stays.is_empty() => {
            "it is right for this water; nothing is to be changed".to_owned()
        }
        Outcome::Right => "nothing stands against it that a change at the bank could remove".to_owned(),
        Outcome::Ways => format!("{changes}{ways}"),
        Outcome::Nearest if fit.ways.is_empty() => {
            "nothing within three changes makes it right, or nearer to it".to_owned()
        }
        Outcome::Nearest => format!("nothing within three changes makes it right; the nearest to it{ways}"),
        Outcome::BrokenOff => {
            let so_far = if fit.ways.is_empty() {
                ""
            } else {
                "; the nearest so far follow"
            };
            format!("there are too many changes to try them all, and the search was broken off{so_far}")
        }
        Outcome::Untold => format!("nothing can be told without {}", fit.needs.join(", ")),
    }
}

/// A way: its changes, then what it brings and what it leaves.
fn told(way: &ShownWay, before: &ShownState) -> Vec<String> {
    let mut lines = way.changes.clone();
    lines.extend(brings(&way.state, before));
    lines.extend(
        way.leaves
            .iter()
            .map(|finding| format!("leaves {}", found(finding))),
    );
    lines.extend(
        way.advice
            .iter()
            .map(|finding| format!("raises {}", found(finding))),
    );
    lines.extend(way.restated.iter().map(|line| sum(line)));
    lines
}

/// What has become better or worse than before.
fn brings(now: &ShownState, before: &ShownState) -> Option<String> {
    if !now.needs.is_empty() {
        return fares(now);
    }
    let off_bed = now.off_bed.as_ref()?;
    let rides = match before
        .off_bed
        .as_ref()
        .filter(|before| before.text != off_bed.text)
    {
        Some(before) => format!(
            "the point rides {} off the bed in place of {}",
            off_bed.text, before.text
        ),
        None => format!("the point rides {} off the bed", off_bed.text),
    };
    let down = match (&now.sink_time, &before.sink_time) {
        (Some(now), Some(before)) if now.text == before.text => {
            format!("is down after {} as before", now.text)
        }
        (Some(now), Some(before)) => format!("is down after {}, before {}", now.text, before.text),
        (Some(now), None) => format!("is down after {}", now.text),
        (None, _) => "is not down within a minute".to_owned(),
    };
    Some(format!("by estimate {rides} and {down}"))
}

fn stays(fit: &ShownFit) -> Vec<Named> {
    let mut lines: Vec<String> = fit.stays.iter().map(found).collect();
    lines.extend(fit.restated.iter().map(|line| sum(line)));
    if !fit.stays.is_empty() {
        lines.push("no change of tippet, fly, tag or cast removes this".to_owned());
    }
    if !fit.has_method {
        let told = "only the rules for every rig were asked, for it says no `method`";
        lines.push(told.to_owned());
    }
    list("stays", lines)
}

fn sum(line: &str) -> String {
    format!("the rig's own sum becomes `{line}`")
}

fn found(finding: &ShownFinding) -> String {
    format!("{}: {} [{}]", finding.level, finding.message, finding.rule)
}

/// A word with lines behind it.
fn list(word: &str, lines: Vec<String>) -> Vec<Named> {
    let word = |index| if index == 0 { word } else { "" };
    let lines = lines.iter().enumerate();
    lines.map(|(index, line)| named(word(index), line)).collect()
}
