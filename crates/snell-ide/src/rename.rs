//! Another name for a block or label, wherever it stands.

use super::names::{self, Named, Occurrence};
use snell_analysis::Notebook;
use snell_finding::Edit;
use snell_rig::World;
use snell_syntax::Form;
use snell_text::{Place, TextId};
use snell_units::in_order;

/// Why a name was not changed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unnamed {
    /// There is no name that could be changed.
    #[error("only the names of blocks, labels and lets can be changed")]
    NoName,
    /// The name ships with the language.
    #[error("this name ships with snell; write a block of your own with `from` it")]
    Ships,
    /// The new name is none.
    #[error("`{0}` is no name: a letter first, then letters, digits and hyphens, and no joining word")]
    NoSuchName(String),
    /// Something else in sight has the name already.
    #[error("`{0}` is the name of something else already")]
    Taken(String),
}

/// The name at a byte of a text, if it can be changed.
///
/// # Errors
/// Why it cannot.
pub fn changeable(notebook: &Notebook, text: TextId, at: u32) -> Result<Place, Unnamed> {
    let world = World::new(notebook.project());
    own_name(&world, text, at).map(|one| one.place)
}

fn own_name(world: &World<'_>, text: TextId, at: u32) -> Result<Occurrence, Unnamed> {
    let one = names::at(world, text, at).ok_or(Unnamed::NoName)?;
    match one.of {
        Named::Block(id) if world.project.ships(id.file) => Err(Unnamed::Ships),
        Named::Block(_) | Named::Local(..) => Ok(one),
    }
}

/// The places of a name in all texts of the notebook, also that which gives it.
pub fn places(notebook: &Notebook, text: TextId, at: u32) -> Vec<Occurrence> {
    let world = World::new(notebook.project());
    let Some(asked) = names::at(&world, text, at) else {
        return Vec::new();
    };
    let all = names::occurrences(&world).into_iter();
    all.filter(|one| one.of == asked.of).collect()
}

/// The place that gives the name at a byte of a text.
pub fn definition(notebook: &Notebook, text: TextId, at: u32) -> Option<Place> {
    let world = World::new(notebook.project());
    names::definition(&world, &names::at(&world, text, at)?.of)
}

/// The edits that give the name at a byte of a text another one, in all texts of the notebook.
///
/// # Errors
/// Why it cannot be.
pub fn renamed(notebook: &Notebook, text: TextId, at: u32, new: &str) -> Result<Vec<Edit>, Unnamed> {
    let world = World::new(notebook.project());
    let one = own_name(&world, text, at)?;
    let folded = name(new).ok_or_else(|| Unnamed::NoSuchName(new.to_owned()))?;
    let all = names::occurrences(&world);
    let clash = all
        .iter()
        .filter(|other| other.defines && other.of != one.of)
        .any(|other| match (&one.of, &other.of) {
            (Named::Block(own), Named::Block(id)) => {
                let (own, head) = (world.project.block(*own), world.project.block(*id).head());
                let same_kind = own.head().map(|head| head.kind) == head.map(|head| head.kind);
                own.id.file == id.file && same_kind && world.name(*id) == folded
            }
            (Named::Local(own, _), Named::Local(id, name)) => own == id && **name == *folded,
            _ => false,
        });
    if clash {
        return Err(Unnamed::Taken(new.to_owned()));
    }
    let mut edits: Vec<Edit> = all
        .into_iter()
        .filter(|other| other.of == one.of)
        .map(|other| Edit {
            place: other.place,
            new: new.to_owned(),
        })
        .collect();
    in_order(&mut edits, Ord::cmp);
    edits.dedup();
    Ok(edits)
}

/// A word as a name is compared, if it is one.
fn name(word: &str) -> Option<String> {
    let text = format!("rig {word}\n");
    let file = snell_syntax::read(&text, TextId(0), &snell_syntax::whole(&text));
    let line = file.blocks.first()?.head.as_ref()?;
    let Form::Block(head) = &*line.form else {
        return None;
    };
    let whole = line.reading.is_none() && head.name.span.of(&text) == word && file.findings.is_empty();
    // A label must also be readable within an expression.
    let bare = snell_syntax::expression(word, 0).is_some_and(|expr| expr.word().is_some());
    (whole && bare).then(|| head.name.folded.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    fn new_text(text: &str, word: &str, new: &str) -> Result<String, Unnamed> {
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
        let at = text.find(word).unwrap() as u32;
        let edits = renamed(&book, TextId(0), at, new)?;
        Ok(snell_finding::apply(
            text,
            edits.into_iter().map(|edit| (edit.place.span, edit.new)),
        ))
    }

    const TEXT: &str = "fly slate\n  hook #14\n\nrig a\n  tippet 1 m as upper\n  point slate\n\nrig b from a\n  change upper to 2 m\n";

    #[test]
    fn names_change_everywhere_at_once() {
        assert_eq!(
            new_text(TEXT, "slate", "shale").unwrap(),
            TEXT.replace("slate", "shale")
        );
        assert_eq!(
            new_text(TEXT, "upper", "first").unwrap(),
            TEXT.replace("upper", "first")
        );
    }

    #[test]
    fn what_cannot_be_a_name_is_refused() {
        for new in ["two words", "of", "3x", "", "a\nb", "#14", "a//b"] {
            assert!(new_text(TEXT, "upper", new).is_err(), "{new:?}");
        }
        assert_eq!(new_text(TEXT, "rig a", "x"), Err(Unnamed::NoName));
        assert_eq!(
            new_text("rig a\n  knot blood\n", "blood", "x"),
            Err(Unnamed::Ships)
        );
        assert_eq!(
            new_text("rig a\n  tippet 1 m\n\nrig b\n  tippet 1 m\n", "b\n", "a"),
            Err(Unnamed::Taken("a".to_owned()))
        );
    }
}
