//! What a card on a page and the preview beside a text show of one rig while
//! somebody changes it.
//!
//! The picture and the sliders come at once. The verdict asks how the line lies
//! in the water, which takes longer, and so it is asked for by itself.

use super::sliders::{Slider, sliders};
use super::told::{self, with_rig};
use super::walk::extent;
use snell_analysis::Notebook;
use snell_picture::{Medium, write};
use snell_rig::World;
use snell_rig::project::BlockRef;
use snell_text::Span;
use snell_view::Units;

/// What tells one picture from others on its page.
const PICTURE_ID: &str = "rig";

/// Which rig of the asked text is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Which<'n> {
    /// The one of a name.
    Named(&'n str),
    /// The first whose name stands in a stretch of the text.
    Within(Span),
    /// The one that a byte lies in; of several rigs the last before it, or else the first.
    Around(u32),
}

/// All that is shown of a rig at once.
#[derive(Clone, Debug, PartialEq)]
pub struct Live {
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// From its first word to its last.
    pub place: Span,
    /// To scale, as SVG; or why there is none.
    pub picture: Result<String, String>,
    pub sliders: Vec<Slider>,
}

/// The rig that is meant; nothing where the text has none.
pub fn chosen<'n>(notebook: &'n Notebook, which: Which<'_>) -> Option<BlockRef<'n>> {
    let mut rigs = told::rigs(notebook.project());
    match which {
        Which::Named(name) => rigs.find(|rig| snell_rig::rig::name(*rig) == name),
        Which::Within(stretch) => {
            let start = |rig: &BlockRef<'_>| rig.name_place().span.start;
            rigs.find(|rig| (stretch.start..stretch.end).contains(&start(rig)))
        }
        Which::Around(at) => {
            let first = rigs.next()?;
            Some(
                rigs.take_while(|rig| extent(*rig).start <= at)
                    .last()
                    .unwrap_or(first),
            )
        }
    }
}

/// A rig with its picture and sliders.
pub fn live(notebook: &Notebook, rig: BlockRef<'_>) -> Live {
    let world = World::new(notebook.project());
    let picture = with_rig(&world, world.project.block(rig.id), |evaluation| {
        let scene = snell_view::drawn_of(evaluation, Units::Author, Medium::Page)?;
        Ok(write::svg(&scene, PICTURE_ID))
    });
    Live {
        name: snell_rig::rig::name(rig),
        title: rig.title().map(str::to_owned),
        place: extent(rig),
        picture,
        sliders: sliders(notebook, rig),
    }
}

/// The verdict on a rig, at most three lines.
pub fn verdict(notebook: &Notebook, rig: BlockRef<'_>) -> Vec<String> {
    let world = World::new(notebook.project());
    snell_view::answer_of(&world, rig, Units::Author)
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    const TEXT: &str = "water tail\n  depth 2 ft\n  surface 2.2 ft/s\n\nrig low \"Low and clear\"\n  water tail\n  \
                        tippet 32 in of 6X fluoro\n  point #14 2.8 mm tungsten\n\nrig bare\n  water tail\n";

    fn notebook() -> Notebook {
        Notebook::of_text(Path::new("a.rig"), Kind::Rig, TEXT.to_owned(), &LocalDisk)
    }

    fn name(which: Which<'_>) -> Option<String> {
        chosen(&notebook(), which).map(snell_rig::rig::name)
    }

    #[test]
    fn a_rig_is_chosen_by_its_name_or_its_place() {
        let at = |word: &str| TEXT.find(word).expect("it is there") as u32;
        assert_eq!(name(Which::Named("bare")).as_deref(), Some("bare"));
        assert_eq!(name(Which::Named("none")), None);
        assert_eq!(
            name(Which::Within(Span::new(at("rig low"), at("point")))).as_deref(),
            Some("low")
        );
        assert_eq!(name(Which::Within(Span::new(0, at("rig low")))), None);
        assert_eq!(name(Which::Around(0)).as_deref(), Some("low"));
        assert_eq!(name(Which::Around(at("point"))).as_deref(), Some("low"));
        assert_eq!(name(Which::Around(at("rig bare"))).as_deref(), Some("bare"));
    }

    #[test]
    fn a_rig_shows_what_it_has() {
        let notebook = notebook();
        let shown = |name| {
            live(
                &notebook,
                chosen(&notebook, Which::Named(name)).expect("it is there"),
            )
        };
        let low = shown("low");
        assert_eq!(low.title.as_deref(), Some("Low and clear"));
        assert!(low.picture.expect("it has a line").contains("<svg"));
        assert_eq!(low.sliders.len(), 4, "{:?}", low.sliders);
        assert_eq!(shown("bare").picture, Err("no line to draw".to_owned()));
        let rig = chosen(&notebook, Which::Named("low")).expect("it is there");
        let verdict = verdict(&notebook, rig);
        assert!((1..=3).contains(&verdict.len()), "{verdict:?}");
    }
}
