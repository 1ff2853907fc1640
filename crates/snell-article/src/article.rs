//! An article: a page with its notebook, and what belongs between its markers.

use crate::checksum::Author;
use crate::content::Content;
use crate::figure::is_figure;
use crate::slot::Slot;
use snell_finding::{Code, Finding};
use snell_picture::Scene;
use snell_text::{Place, Span, TextId};
use std::collections::HashMap;

/// A page with what its markers ask for.
#[derive(Debug, Default)]
pub struct Article {
    /// What can be filled, in the order of the page.
    pub places: Vec<Filling>,
    /// What is wrong with its markers.
    pub findings: Vec<Finding>,
}

/// A place between two markers, with what belongs there.
#[derive(Debug)]
pub struct Filling {
    /// The words of the marker.
    pub asked: String,
    /// Where it is.
    pub slot: Slot,
    /// What belongs there.
    pub content: Content,
}

impl Filling {
    /// Whether what stands here may be replaced by another text: nothing does, or snell wrote it. A figure that was
    /// filled before there were checksums is snell's too, where it is nothing but a figure, and so is a picture under its title.
    pub fn may_be_replaced(&self, page: &str) -> bool {
        match self.slot.author {
            Author::Nobody | Author::Snell => true,
            Author::Somebody => false,
            Author::Unknown => match &self.content {
                Content::Figure(_) => is_figure(self.slot.inside.of(page)),
                Content::Picture(picture) => picture.was_filled_so(self.slot.inside.of(page)),
                Content::Rig(..) | Content::Cuts(_) | Content::Card(_) | Content::Changes(_) => false,
            },
        }
    }
}

/// Two markers that would draw different pictures into one file: the second is not filled.
pub(super) fn one_picture_a_file(article: &mut Article, text: TextId) {
    let mut drawn: HashMap<String, (Span, Scene)> = HashMap::new();
    let findings = &mut article.findings;
    article.places.retain(|place| {
        let Content::Picture(picture) = &place.content else {
            return true;
        };
        let key = picture.file.to_lowercase();
        match drawn.get(&key) {
            Some((first, scene)) if *scene != picture.scene => {
                let message = format!("another picture is drawn into `{}` already", picture.file);
                findings.push(
                    Finding::fault(Code::MarkerFile, Place::new(text, place.slot.open), message)
                        .label(Place::new(text, *first), "by this marker")
                        .help("give one of them a file of its own: `draw RIG into other.svg`"),
                );
                false
            }
            Some(_) => true,
            None => {
                drawn.insert(key, (place.slot.open, picture.scene.clone()));
                true
            }
        }
    });
}
