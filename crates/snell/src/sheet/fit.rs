//! A fit for people: what stands against the rig in the water, then each way in
//! the words of the bank with what it brings.

use super::plain::Page;
use super::unsaid;
use crate::sheet::entry::{Named, named};
use crate::terminal::Terminal;
use snell_view::fit::{Addition, Outcome, ShownFinding, ShownFit, ShownState, ShownWay};

/// Writes a fit: the answer first; every way and what was assumed only where all is wanted.
pub fn write(fit: &ShownFit, terminal: &Terminal, all: bool) -> String {
    let mut page = Page::new(terminal);
    page.title(&fit.name, fit.title.as_deref());
    page.gap();
    page.paragraphs(&fit.answer);
    page.gap();
    page.named(&[named("for", &fit.water)]);
    page.gap();
    page.named(&as_it_is(fit, all));
    page.gap();
    if all {
        everything(fit, &mut page);
    } else {
        page.named(&brought(fit));
        page.gap();
        page.paragraphs(behind_all(fit).as_ref());
    }
    page.finish()
}

/// Every way, what no change removes, what was assumed, and the rig to be kept.
fn everything(fit: &ShownFit, page: &mut Page<'_>) {
    for (index, way) in fit.ways.iter().enumerate() {
        page.list(&(index + 1).to_string(), &told(way, &fit.as_it_is));
        page.gap();
    }
    page.named(&stays(fit, &fit.stays));
    page.gap();
    page.list("assumed", &unsaid::assumed(&fit.assumed));
    page.gap();
    if let Some(addition) = kept(fit) {
        let told = match addition.may_be_added() {
            Ok(()) => format!("`--write` adds this to {}:", fit.file),
            Err(why) => format!("a rig to be pasted; it cannot be added here: {why}"),
        };
        page.list("to keep", &[told]);
        page.gap();
        page.verbatim(&addition.lines);
    }
}

/// The rig that is kept: with the first way, or as it is where it is right in another water than its own.
fn kept(fit: &ShownFit) -> Option<&Addition> {
    match fit.ways.first() {
        Some(way) => way.addition.as_ref(),
        None => fit.addition.as_ref(),
    }
}

/// What the first way brings beside the answer, and what no change removes.
fn brought(fit: &ShownFit) -> Vec<Named> {
    let is_told = |finding: &&ShownFinding| {
        let mut dangers = fit.verdict.danger.iter();
        dangers.any(|danger| danger.rule == finding.rule)
    };
    let untold: Vec<ShownFinding> = fit.stays.iter().filter(|one| !is_told(one)).cloned().collect();
    let mut lines = stays(fit, &untold);
    if let Some(way) = fit.ways.first() {
        let leaves = way.leaves.iter().map(|finding| named("leaves", &found(finding)));
        let raises = way.advice.iter().map(|finding| named("raises", &found(finding)));
        lines.extend(leaves.chain(raises));
        lines.extend(way.restated.iter().map(|line| named("", &sum(line))));
    }
    lines
}

/// How much stands behind `--all`, and how the rig is kept, in a line.
fn behind_all(fit: &ShownFit) -> Option<String> {
    let counted = |count: usize, one: &str, several: &str| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        count => Some(format!("{count} {several}")),
    };
    let others = fit.ways.len().saturating_sub(1);
    let counts = [
        counted(others, "other way", "other ways"),
        counted(fit.assumed.len(), "assumed", "assumed"),
    ];
    let counts: Vec<String> = counts.into_iter().flatten().collect();
    let listed = (!counts.is_empty()).then(|| format!("{}: `--all` lists them", counts.join(", ")));
    let written = kept(fit).filter(|addition| addition.may_be_added().is_ok());
    let written = written.map(|_| format!("`--write` keeps it in {}", fit.file));
    let told: Vec<String> = [listed, written].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join("; "))
}

/// How the rig fares with nothing changed, and what is found of it.
fn as_it_is(fit: &ShownFit, all: bool) -> Vec<Named> {
    let mut lines: Vec<String> = fit.against.iter().map(found).collect();
    let state = &fit.as_it_is;
    if let (Some((needed, line)), false) = (&state.short, fit.has_method) {
        lines.push(format!(
            "there are {line} of line to go under, and {needed} are needed to let the point down"
        ));
    }
    // Where nothing is to be changed, the answer has told it.
    if all || fit.outcome != Outcome::Right {
        lines.extend(fares(state));
    }
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

fn stays(fit: &ShownFit, findings: &[ShownFinding]) -> Vec<Named> {
    let mut lines: Vec<String> = findings.iter().map(found).collect();
    lines.extend(fit.restated.iter().map(|line| sum(line)));
    if !findings.is_empty() {
        lines.push("no change of butt, tippet, fly, tag or cast removes this".to_owned());
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
