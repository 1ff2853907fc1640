//! Which block a name means.

mod support;

use snell_rig::{Found, Names, Project};
use snell_syntax::BlockKind;
use std::sync::Arc;
use support::{source, told};

const FLY: &str = "fly mote\n  hook #18\n";

#[test]
fn own_blocks_come_first_then_used_then_shipped() {
    let mut project = Project::default();
    let used = project.add(source(FLY, 1, Vec::new()));
    let mine = project.add(source(
        &format!("{FLY}\nfly slate\n  hook #16\n"),
        2,
        vec![(used, 0)],
    ));
    let other = project.add(source("use \"x.rig\"\n", 3, vec![(used, 0)]));
    let names = Names::new(&project);
    let file_of = |file, kind, name: &str| match names.find(file, kind, &Arc::from(name)) {
        Found::Block(id) => Some(id.file),
        Found::Missing | Found::Ambiguous(..) => None,
    };
    assert_eq!(file_of(mine, BlockKind::Fly, "mote"), Some(mine));
    assert_eq!(file_of(other, BlockKind::Fly, "mote"), Some(used));
    assert_eq!(file_of(other, BlockKind::Fly, "slate"), None);
    let fluoro = file_of(other, BlockKind::Material, "fluoro").expect("it ships");
    assert!(project.ships(fluoro));
    // What a used file uses is not seen.
    let far = project.next();
    assert_eq!(far.0, other.0 + 1);
}

#[test]
fn a_shipped_block_is_adjusted_from_the_next_one_out() {
    let text = "material fluoro from fluoro\n  density 1.7 g/cm3\n\nrig a\n  tippet 40 in of 6X fluoro\n  point #14 0.2 g\n";
    assert_eq!(told(text), Vec::<String>::new());
    assert_eq!(
        told(&text.replace(" from fluoro", "")),
        ["1: shipped-replaced: this material `fluoro` takes the place of the one that ships with snell"]
    );
}

#[test]
fn two_of_one_name_are_told_at_the_second() {
    assert_eq!(
        told(&format!("{FLY}\n{FLY}")),
        ["4: name-twice: this file has two of the fly `mote`"]
    );
}

#[test]
fn a_name_out_of_sight_is_told_where_it_is_wanted() {
    let text = "rig a\n  water 3 ft at 2 ft/s over cobbel\n  tippet 40 in of 6X fluoro\n  point #14 0.2 g\n";
    assert_eq!(told(text), ["2: name-unknown: nothing here is called `cobbel`"]);
}
