//! The changes of a text as a unified diff, out of the edits that make them: which lines stay needs no search.

use snell_text::Span;
use std::fmt;
use std::ops::Range;

/// Lines shown above and below a change.
const AROUND: usize = 3;

/// What is taken out of a text, and what is put there.
type Edit = (Span, String);

/// Changes that are shown together, with the lines around them.
pub struct Hunk<'t> {
    /// Which lines of the old and of the new text, from 0.
    old: Range<usize>,
    new: Range<usize>,
    pub lines: Vec<Line<'t>>,
}

/// A line with its end, of which the last one of a text may have none.
#[derive(Debug, PartialEq)]
pub enum Line<'t> {
    Kept(&'t str),
    Taken(&'t str),
    Put(String),
}

/// Lines of the old text, and what stands in their place.
struct Change {
    old: Range<usize>,
    new: Vec<String>,
}

/// What the edits of a text change. They lie in order and do not overlap.
pub fn hunks<'t>(text: &'t str, edits: &[Edit]) -> Vec<Hunk<'t>> {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let mut hunks: Vec<Hunk<'_>> = Vec::new();
    // How many more lines the new text has so far.
    let (mut put, mut taken) = (0, 0);
    for change in changes(text, &lines, edits) {
        let apart = hunks
            .last()
            .is_none_or(|hunk| change.old.start > hunk.old.end + 2 * AROUND);
        if apart {
            close(hunks.last_mut(), &lines);
            let start = change.old.start.saturating_sub(AROUND);
            let new = start + put - taken;
            hunks.push(Hunk {
                old: start..start,
                new: new..new,
                lines: Vec::new(),
            });
        }
        let Some(hunk) = hunks.last_mut() else { continue };
        keep(hunk, &lines, change.old.start);
        taken += change.old.len();
        put += change.new.len();
        hunk.old.end += change.old.len();
        hunk.new.end += change.new.len();
        hunk.lines
            .extend(lines[change.old].iter().map(|line| Line::Taken(line)));
        hunk.lines.extend(change.new.into_iter().map(Line::Put));
    }
    close(hunks.last_mut(), &lines);
    hunks
}

/// Goes on with the lines that stay, up to one.
fn keep<'t>(hunk: &mut Hunk<'t>, lines: &[&'t str], to: usize) {
    let kept = &lines[hunk.old.end..to];
    hunk.lines.extend(kept.iter().map(|line| Line::Kept(line)));
    hunk.old.end += kept.len();
    hunk.new.end += kept.len();
}

fn close<'t>(hunk: Option<&mut Hunk<'t>>, lines: &[&'t str]) {
    if let Some(hunk) = hunk {
        let to = (hunk.old.end + AROUND).min(lines.len());
        keep(hunk, lines, to);
    }
}

/// Runs of lines that change, from top to bottom, with lines that stay between any two.
fn changes(text: &str, lines: &[&str], edits: &[Edit]) -> Vec<Change> {
    let mut starts = vec![0];
    for line in lines {
        starts.push(starts[starts.len() - 1] + line.len());
    }
    // Behind the end of the last line an edit puts a line of its own; where it has no end, it goes on.
    let last = lines.len() - usize::from(!text.is_empty() && !text.ends_with('\n'));
    let number = |offset: u32| (starts.partition_point(|start| *start <= offset as usize) - 1).min(last);
    let mut runs: Vec<(Range<usize>, &[Edit])> = Vec::new();
    let mut first = 0;
    for (at, (span, _)) in edits.iter().enumerate() {
        let touched = number(span.start)..(number(span.end) + 1).min(lines.len());
        match runs.last_mut().filter(|(run, _)| touched.start <= run.end) {
            Some((run, within)) => {
                run.end = run.end.max(touched.end);
                *within = &edits[first..=at];
            }
            None => {
                first = at;
                runs.push((touched, &edits[at..=at]));
            }
        }
    }
    let changed = runs.into_iter().map(|(run, within)| {
        let (from, to) = (starts[run.start], starts[run.end]);
        let moved = |offset: u32| offset - from as u32;
        let within = within
            .iter()
            .map(|(span, new)| (Span::new(moved(span.start), moved(span.end)), new.clone()));
        trimmed(lines, run, &snell_finding::apply(&text[from..to], within))
    });
    changed
        .filter(|change| !change.old.is_empty() || !change.new.is_empty())
        .collect()
}

/// Without the lines at both ends that came out as they were.
fn trimmed(lines: &[&str], mut old: Range<usize>, new: &str) -> Change {
    let mut new: &[&str] = &new.split_inclusive('\n').collect::<Vec<_>>();
    while let [first, rest @ ..] = new
        && !old.is_empty()
        && lines[old.start] == *first
    {
        (old.start, new) = (old.start + 1, rest);
    }
    while let [rest @ .., last] = new
        && !old.is_empty()
        && lines[old.end - 1] == *last
    {
        (old.end, new) = (old.end - 1, rest);
    }
    Change {
        old,
        new: new.iter().map(|line| (*line).to_owned()).collect(),
    }
}

/// The head of a hunk: where it stands in both texts, and how many lines it has there.
impl fmt::Display for Hunk<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "@@ -{} +{} @@", Stretch(&self.old), Stretch(&self.new))
    }
}

/// Lines as unified diffs count them: from 1, one line without its count, and none by the line before it.
struct Stretch<'r>(&'r Range<usize>);

impl fmt::Display for Stretch<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.len() {
            0 => write!(out, "{},0", self.0.start),
            1 => write!(out, "{}", self.0.start + 1),
            many => write!(out, "{},{many}", self.0.start + 1),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::io::Write;
    use std::process::Command;

    fn written(text: &str, edits: &[(Span, String)]) -> String {
        let mut out = String::new();
        for hunk in hunks(text, edits) {
            out.push_str(&format!("{hunk}\n"));
            for line in &hunk.lines {
                let (sign, line) = match line {
                    Line::Kept(line) => (' ', *line),
                    Line::Taken(line) => ('-', *line),
                    Line::Put(line) => ('+', line.as_str()),
                };
                out.push(sign);
                out.push_str(line);
                if !line.ends_with('\n') {
                    out.push_str("\n\\ No newline at end of file\n");
                }
            }
        }
        out
    }

    fn edit(text: &str, old: &str, new: &str) -> (Span, String) {
        let start = text.find(old).unwrap() as u32;
        (Span::new(start, start + old.len() as u32), new.to_owned())
    }

    #[test]
    fn a_changed_line_stands_with_three_around_it() {
        let text = "a\nb\nc\nd\ne\nf\ng\nh\n";
        let changed = written(text, &[edit(text, "e", "E")]);
        assert_eq!(changed, "@@ -2,7 +2,7 @@\n b\n c\n d\n-e\n+E\n f\n g\n h\n");
    }

    #[test]
    fn far_changes_are_two_hunks_and_near_ones_are_one() {
        let text = "a\n1\n2\n3\n4\n5\n6\nb\nc\n";
        let near = written(text, &[edit(text, "a", "A"), edit(text, "b", "B")]);
        assert_eq!(near.matches("@@ -").count(), 1, "{near}");
        let far = written(text, &[edit(text, "a\n", ""), edit(text, "c", "C")]);
        assert_eq!(
            far,
            "@@ -1,4 +1,3 @@\n-a\n 1\n 2\n 3\n@@ -6,4 +5,4 @@\n 5\n 6\n b\n-c\n+C\n"
        );
    }

    #[test]
    fn neighbours_are_taken_and_then_put() {
        let text = "a\nb\n";
        let both = written(text, &[edit(text, "a", "A"), edit(text, "b", "B")]);
        assert_eq!(both, "@@ -1,2 +1,2 @@\n-a\n-b\n+A\n+B\n");
    }

    #[test]
    fn a_last_line_without_an_end_is_told() {
        assert_eq!(
            written("a", &[(Span::new(1, 1), "\n".to_owned())]),
            "@@ -1 +1 @@\n-a\n\\ No newline at end of file\n+a\n"
        );
    }

    #[test]
    fn what_changes_nothing_is_no_change() {
        let text = "a\nb\n";
        assert_eq!(written(text, &[edit(text, "a", "a")]), "");
    }

    fn any_edits() -> impl Strategy<Value = (String, Vec<(Span, String)>)> {
        let text = "([ab]?\n){0,30}[ab]?";
        let cuts = proptest::collection::vec((0..60u32, 0..4u32, "[ab\n]{0,3}"), 0..6);
        (text, cuts).prop_map(|(text, cuts)| {
            let mut edits: Vec<(Span, String)> = Vec::new();
            let (mut at, length) = (0, text.len() as u32);
            for (gap, taken, new) in cuts {
                let start = at + gap % 12;
                if start + taken > length {
                    break;
                }
                at = start + taken + 1;
                edits.push((Span::new(start, start + taken), new));
            }
            (text, edits)
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// The tool that reads such diffs makes the new text of the old one.
        #[test]
        fn patch_makes_the_new_text((text, edits) in any_edits()) {
            let wanted = snell_finding::apply(&text, edits.iter().cloned());
            let diff = written(&text, &edits);
            prop_assert_eq!(diff.is_empty(), wanted == text);
            let folder = tempfile::tempdir().unwrap();
            let file = folder.path().join("a");
            std::fs::write(&file, &text).unwrap();
            if !diff.is_empty() {
                let mut patch = Command::new("git")
                    .args(["apply", "--unsafe-paths", "--whitespace=nowarn", "-"])
                    .current_dir(folder.path())
                    .stdin(std::process::Stdio::piped())
                    .spawn()
                    .unwrap();
                let whole = format!("--- a/a\n+++ b/a\n{diff}");
                patch.stdin.take().unwrap().write_all(whole.as_bytes()).unwrap();
                prop_assert!(patch.wait().unwrap().success(), "{}", diff);
            }
            prop_assert_eq!(std::fs::read_to_string(&file).unwrap(), wanted);
        }
    }
}
