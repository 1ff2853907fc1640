//! `grammar/limits.md`: every limit of the program and how it is told, made
//! from the table that the program keeps to.

use snell_finding::{Counted, Limit, Told};
use std::fmt::Write;

const HEAD: &str = "\
# Limits

How much `snell` reads, works out and tells. Every limit lies far beyond what a person writes; it is there so that no text
that somebody else wrote can stall the program or fill the machine. This page is made from the table that the program
keeps to: `cargo refresh`.
";

/// The page.
pub fn limits_page() -> String {
    let mut page = HEAD.to_owned();
    for (heading, limits) in Limit::ALL {
        let _ = write!(
            page,
            "\n## {heading}\n\n| of | at most | beyond it |\n|---|---|---|\n"
        );
        for limit in *limits {
            let _ = writeln!(page, "| {} | {} | {} |", limit.what(), most(*limit), told(*limit));
        }
    }
    page
}

fn most(limit: Limit) -> String {
    let most = limit.most();
    match limit.counted() {
        Counted::Bytes if most >= 1 << 20 => format!("{} MiB", most >> 20),
        Counted::Bytes => format!("{} KiB", most >> 10),
        Counted::Seconds => format!("{most} seconds"),
        Counted::Things => parted(most),
    }
}

/// With a comma between thousands, as in running text.
fn parted(number: u64) -> String {
    let digits = number.to_string();
    let first = (digits.len() - 1) % 3 + 1;
    let (head, rest) = digits.split_at(first);
    let rest = rest.as_bytes().chunks(3).map(String::from_utf8_lossy);
    std::iter::once(head.into())
        .chain(rest)
        .collect::<Vec<_>>()
        .join(",")
}

fn told(limit: Limit) -> String {
    match limit.told() {
        Told::Fault(code) => format!("the fault `{code}`"),
        Told::Message(words) => format!("the message “… {words} …”"),
        Told::Instead(what) => what.to_owned(),
    }
}
