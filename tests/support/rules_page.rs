//! `grammar/rules.md`: every rule that ships, by rulebook, made from the rules
//! themselves.

use snell_rig::World;
use snell_rig::faults::Faults;
use snell_rules::{Page, Rule};
use snell_syntax::BlockKind;
use std::fmt::Write;

const HEAD: &str = "\
# The rules that ship

Each rule is written in the language; `snell why RULE` prints its page, with the reason for it. A rig is held against the
rulebook of its method, or against those that it names with `rules`; and always against `safety`. A rulebook of your own
takes rules in, leaves some out, and sets their limits; a block of your own with a rule's name, made `from` it, stands in
its place.

Figures of common practice are where to start, not where to end. This page is made from the rules; refresh it with
`cargo refresh`.
";

/// The page as it is today.
pub fn rules_page() -> String {
    let project = snell_rules::project();
    let world = World::new(&project);
    let mut made = HEAD.to_owned();
    let mut folder = "";
    for page in snell_rules::pages() {
        if page.folder != folder {
            folder = page.folder;
            let _ = write!(
                made,
                "\n## {folder}\n\n| rule | level | what it asks | limits | source |\n|---|---|---|---|---|\n"
            );
        }
        for row in rows(&world, page) {
            made.push_str(&row);
        }
    }
    made
}

/// One row for each rule of a page.
fn rows(world: &World<'_>, page: Page) -> Vec<String> {
    let project = world.project;
    let on_page = |block: &snell_rig::project::BlockRef<'_>| {
        let name = snell_rules::page(block.name_place().text).map(|(name, _)| name);
        name == Some(page.name) && block.head().is_some_and(|head| head.kind == BlockKind::Rule)
    };
    let blocks = project
        .files()
        .flat_map(|file| project.blocks(file))
        .filter(on_page);
    let rules = blocks.filter_map(|block| Rule::read(world, block, &Faults::default()));
    rules.map(|rule| row(&rule)).collect()
}

fn row(rule: &Rule<'_>) -> String {
    let limit = |(line, bind): &(snell_rig::project::LineRef<'_>, &snell_syntax::Bind)| {
        format!("{} {}", bind.name.folded, line.written(bind.value.span))
    };
    let limits: Vec<String> = rule.limits.iter().map(limit).collect();
    format!(
        "| `{}` | {} | {} | {} | {} |\n",
        rule.name,
        rule.level.word(),
        rule.about.unwrap_or_default(),
        limits.join(", "),
        rule.source.unwrap_or_default()
    )
}
