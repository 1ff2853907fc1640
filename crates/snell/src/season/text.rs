//! A season in tables for the terminal.

use crate::prose::{WIDEST, counted, pad, printable, width, wrap};
use crate::season::read::Season;
use crate::sheet::words::value;
use crate::terminal::Terminal;
use snell_history::{Event, Happened, OnDay, RigStory, Series, Sum};
use snell_view::compare::told;

const INDENT: &str = "  ";
/// Where what happened stands: behind a day and a word.
const BEHIND: usize = 25;

/// Writes it.
pub fn write(season: &Season, who: bool, terminal: &Terminal) -> String {
    let mut page = Page {
        text: String::new(),
        season,
        who,
        terminal,
    };
    if let Some(told) = cut_short(season) {
        page.hang("", 0, &told);
        page.text.push('\n');
    }
    for story in &season.rigs {
        page.story(story);
    }
    page.outings();
    page.text
}

struct Page<'s> {
    text: String,
    season: &'s Season,
    who: bool,
    terminal: &'s Terminal,
}

impl Page<'_> {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn head(&mut self, heading: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        let heading = self.terminal.strong(&printable(heading));
        self.line(&heading);
    }

    fn story(&mut self, story: &RigStory) {
        let title = story
            .last()
            .and_then(|card| card.shown.title.as_deref())
            .map_or_else(String::new, |title| format!("  {title}"));
        let gone = if story.alive {
            ""
        } else {
            "  (not in the book any more)"
        };
        self.head(&format!("{}{title}{gone}", story.name));
        let file = self
            .terminal
            .quiet(&format!("{INDENT}{}", printable(&story.file)));
        self.line(&file);
        for event in &story.events {
            self.event(event);
        }
        for side in &story.sides {
            let day = self.season.commits[side.joined].day();
            let branch = branch(side.kept, day);
            self.line(&self.terminal.quiet(&format!("{INDENT}{branch}")));
            for event in &side.events {
                self.event(event);
            }
        }
        for series in &story.series {
            self.series(series);
        }
    }

    fn event(&mut self, event: &Event) {
        let commit = &self.season.commits[event.commit];
        let head = format!("{INDENT}{}  {}", commit.day(), pad(event.what.word(), 10));
        let mut sentences = sentences(event);
        if self.who {
            sentences.push(format!("({})", commit.who));
        }
        self.hang(&head, BEHIND, &sentences.join("; "));
    }

    /// A text behind a head, hanging at a column.
    fn hang(&mut self, head: &str, column: usize, text: &str) {
        let room = self.terminal.width.min(WIDEST).saturating_sub(column).max(20);
        let mut head = pad(head, column);
        for line in wrap(&printable(text), room) {
            self.line(&format!("{head}{line}"));
            head = " ".repeat(column);
        }
    }

    fn series(&mut self, series: &Series) {
        let figure = &series.figure;
        let told: Vec<String> = series
            .felt()
            .map(|(commit, written)| {
                let day = self.season.commits[commit].day();
                format!("{day} {}", value(figure.kind(), figure.measure(), written))
            })
            .collect();
        if !told.is_empty() {
            self.hang(&format!("{INDENT}{}", figure.name()), BEHIND, &told.join(", "));
        }
    }

    fn outings(&mut self) {
        let fished = &self.season.fished;
        if fished.days.is_empty() {
            return;
        }
        let fish: u32 = fished
            .days
            .iter()
            .flat_map(|day| &day.caught)
            .map(|(count, _)| count)
            .sum();
        self.head(&format!(
            "{}, {fish} fish",
            counted(fished.days.len(), "outing", "outings")
        ));
        for day in &fished.days {
            let told = outing(self.season, day);
            self.hang(
                &format!("{INDENT}{}", day.outing.day),
                BEHIND - 11,
                &told.join("; "),
            );
        }
        for (what, sums) in [
            ("rig", &fished.by_rig),
            ("water", &fished.by_water),
            ("fly", &fished.by_fly),
        ] {
            self.sums(what, sums);
        }
    }

    fn sums(&mut self, what: &str, sums: &[Sum]) {
        let wide = sums
            .iter()
            .map(|sum| width(&printable(&sum.name)))
            .max()
            .unwrap_or(0)
            .max(what.len());
        self.text.push('\n');
        let head = format!("{INDENT}{}  outings  fish", pad(what, wide));
        let head = self.terminal.quiet(&head);
        self.line(&head);
        for sum in sums {
            self.line(&format!(
                "{INDENT}{}  {:>7}  {:>4}",
                pad(&printable(&sum.name), wide),
                sum.outings,
                sum.fish
            ));
        }
    }
}

/// What is said of a clone that lacks older commits.
pub fn cut_short(season: &Season) -> Option<String> {
    let first = season.span().map_or("", |(first, _)| first);
    season.cut_short.then(|| {
        format!(
            "This clone begins on {first}: older commits were left out when it was made, and what is told as born then may be older. \
             `git fetch --unshallow` brings them."
        )
    })
}

/// A day at the water, in phrases.
pub fn outing(season: &Season, day: &OnDay) -> Vec<String> {
    let fish: u32 = day.caught.iter().map(|(count, _)| count).sum();
    let name = day.rig.map_or(&day.outing.rig, |rig| &season.rigs[rig].name);
    let catches = day.caught.iter().filter(|(count, _)| *count > 0);
    let flies: Vec<String> = catches
        .filter_map(|(count, fly)| Some(format!("{count} on {}", fly.as_ref()?)))
        .collect();
    let at = day
        .water
        .as_ref()
        .map_or_else(String::new, |water| format!(" at {water}"));
    let mut told = vec![format!("{fish} with {name}{at}")];
    told.extend((!flies.is_empty()).then(|| flies.join(", ")));
    told.extend(day.outing.edited.then(|| "changed at the bank".to_owned()));
    let later = || "the rig was written down later".to_owned();
    told.extend(day.taken.commit().is_none().then(later));
    let misfit = || "what was changed does not fit the rig as it stood then".to_owned();
    told.extend((!day.fits).then(misfit));
    told
}

/// What is said above what happened on a branch.
pub fn branch(kept: bool, joined: &str) -> String {
    let came = if kept { "kept" } else { "not kept" };
    format!("on a branch, joined {joined}, {came}:")
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
            let partly = (!event.card.sound).then(|| "not all of it could be read".to_owned());
            [format!("in {}", event.card.shown.file)]
                .into_iter()
                .chain(partly)
                .collect()
        }
        Happened::Changed {
            renamed,
            changes,
            follows,
            measures,
        } => {
            let mut all: Vec<String> = Vec::new();
            all.extend(renamed.as_ref().map(|was| format!("was {was}")));
            match follows {
                Some(base) => all.push(format!("as {base}")),
                None => all.extend(changes.iter().map(told)),
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
        Happened::Returned => vec![format!("put back, in {}", event.card.shown.file)],
    }
}
