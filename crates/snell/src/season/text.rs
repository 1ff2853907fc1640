//! A season in tables for the terminal.

use super::words::{branch, outing, outings_of, remarks, run, sentences, suggestion};
use crate::prose::{WIDEST, counted, pad, printable, width, wrap};
use crate::season::read::Season;
use crate::sheet::words::value;
use crate::terminal::Terminal;
use snell_history::{Event, RigStory, Series, Sum, Told, told};

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
    for told in remarks(season) {
        page.hang("", 0, &told);
        page.text.push('\n');
    }
    let (changed, unchanged): (Vec<_>, Vec<_>) = season.rigs.iter().partition(|rig| season.is_told(rig));
    for story in changed {
        page.story(story);
    }
    page.unchanged(&unchanged);
    page.outings();
    page.suggested();
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
            .and_then(|rig| rig.called.title.as_deref())
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
        self.events(&story.events);
        for side in &story.sides {
            let branch = branch(self.season, story, side);
            self.line(&self.terminal.quiet(&format!("{INDENT}{branch}:")));
            self.events(&side.events);
        }
        for series in &story.series {
            self.series(series);
        }
    }

    fn events(&mut self, events: &[Event]) {
        for one in told(events) {
            let (event, mut sentences) = match &one {
                Told::Event(event) => (*event, sentences(event)),
                Told::Run(of) => (&of.events[0], vec![run(self.season, of)]),
            };
            let commit = &self.season.commits[event.commit];
            let head = format!("{INDENT}{}  {}", commit.day(), pad(event.what.word(), 10));
            if self.who {
                sentences.push(format!("({})", commit.who));
            }
            self.hang(&head, BEHIND, &sentences.join("; "));
        }
    }

    /// Rigs that nothing happened to since they were written down, in one line.
    fn unchanged(&mut self, rigs: &[&RigStory]) {
        if rigs.is_empty() {
            return;
        }
        let names: Vec<&str> = rigs.iter().map(|story| story.name.as_str()).collect();
        let stand = if names.len() == 1 {
            "stands as it was"
        } else {
            "stand as they were"
        };
        self.head(&format!(
            "{} {stand} written down",
            counted(names.len(), "rig", "rigs")
        ));
        self.hang(INDENT, INDENT.len(), &names.join(", "));
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
        self.head(&outings_of(&fished.days.iter().collect::<Vec<_>>()));
        for day in &fished.days {
            let told = outing(self.season, day);
            self.hang(
                &format!("{INDENT}{}", day.outing.day),
                BEHIND - 11,
                &told.join("; "),
            );
        }
        for (what, sums) in fished.sums() {
            self.sums(what, sums);
        }
    }

    fn suggested(&mut self) {
        if self.season.suggested.is_empty() {
            return;
        }
        self.head("What the outings suggest");
        for one in &self.season.suggested {
            self.hang(INDENT, INDENT.len(), &suggestion(one));
        }
    }

    fn sums(&mut self, what: &str, sums: &[Sum]) {
        if sums.is_empty() {
            return;
        }
        let names = sums.iter().map(|sum| width(&printable(&sum.name)));
        let wide = names.max().unwrap_or(0).max(what.len());
        let lost = sums.iter().any(|sum| sum.lost > 0);
        let longest = sums.iter().any(|sum| sum.longest.is_some());
        let row = |name: &str, outings: &str, fish: &str, off: &str, long: &str| {
            let off = if lost {
                format!("  {off:>4}")
            } else {
                String::new()
            };
            let long = if longest {
                format!("  {long}")
            } else {
                String::new()
            };
            format!("{INDENT}{}  {outings:>7}  {fish:>4}{off}{long}", pad(name, wide))
        };
        self.text.push('\n');
        let head = self
            .terminal
            .quiet(row(what, "outings", "fish", "lost", "longest").trim_end());
        self.line(&head);
        for sum in sums {
            let [outings, fish, off] = [sum.outings, sum.fish, sum.lost].map(|count| count.to_string());
            let longest = sum.longest.as_deref().unwrap_or_default();
            let line = row(&printable(&sum.name), &outings, &fish, &off, &printable(longest));
            self.line(&line);
        }
    }
}
