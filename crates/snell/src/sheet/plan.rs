//! A day over several waters, for people: what to start with, then what to change on the way to each water.

use super::plain::Page;
use crate::terminal::Terminal;
use snell_view::plan::{ShownPlan, ShownStop};

/// Writes it.
pub fn write(plan: &ShownPlan, terminal: &Terminal) -> String {
    let mut page = Page::new(terminal);
    page.title(&plan.name, plan.title.as_deref());
    page.gap();
    page.paragraphs(&plan.answer);
    page.gap();
    for (index, stop) in plan.stops.iter().enumerate() {
        page.list(&(index + 1).to_string(), &told(stop, index == 0));
        page.gap();
    }
    page.finish()
}

fn told(stop: &ShownStop, first: bool) -> Vec<String> {
    let changes = match (stop.changes.is_empty(), first) {
        (true, _) => "nothing to change".to_owned(),
        (false, true) => stop.changes.join(", and "),
        (false, false) => format!("{} ({})", stop.changes.join(", and "), knots(stop.knots)),
    };
    let mut lines = vec![format!("{}: {}", stop.water, stop.about), changes];
    // Where it fishes, the answer of the verdict begins with that; the rest of it is the rig's and not the water's.
    lines.extend(stop.verdict.answer.first().cloned());
    lines.extend(stop.verdict.danger.first().map(|danger| danger.message.clone()));
    lines
}

fn knots(count: usize) -> String {
    match count {
        0 => "no knot".to_owned(),
        1 => "one knot".to_owned(),
        several => format!("{several} knots"),
    }
}
