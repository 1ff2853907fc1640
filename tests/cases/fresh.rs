//! Files that are made say what the code, its tables and its commands say
//! today.

use snell_tests::made::{self, REFRESH};
use snell_tests::top;
use std::fs;

#[test]
fn every_made_file_is_as_it_would_be_made_today() {
    let pages = made::pages().expect("they can be made");
    assert!(pages.len() > 8, "only {} files are made", pages.len());
    for page in pages {
        let there = fs::read_to_string(top().join(&page.path)).unwrap_or_default();
        if let Some(line) = first_difference(&there, &page.text) {
            let (was, now) = (there.lines().nth(line), page.text.lines().nth(line));
            panic!(
                "{}:{} is stale: run `{REFRESH}`\n  there: {was:?}\n  today: {now:?}",
                page.path,
                line + 1
            );
        }
    }
}

/// The line, from nought, in which two texts part.
fn first_difference(there: &str, today: &str) -> Option<usize> {
    if there == today {
        return None;
    }
    let alike = there
        .split('\n')
        .zip(today.split('\n'))
        .take_while(|(there, today)| there == today);
    Some(alike.count())
}

/// People are told one command, and it is there.
#[test]
fn the_command_that_makes_them_is_an_alias() {
    let name = REFRESH.strip_prefix("cargo ").expect("a command of cargo");
    let aliases = fs::read_to_string(top().join(".cargo/config.toml")).expect("cargo's settings");
    assert!(aliases.contains(&format!("\n{name} = ")), "{aliases}");
}
