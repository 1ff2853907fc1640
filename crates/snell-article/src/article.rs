//! An article: a page with its notebook, and what stands between its markers.

use crate::content::Content;
use crate::lay::Lay;
use snell_finding::{Code, Finding};
use snell_picture::Scene;
use snell_text::{Place, Span, TextId};

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
    /// The marker that opens it.
    pub open: Span,
    /// What stands between the markers.
    pub inside: Span,
    /// That with both markers.
    pub around: Span,
    /// How it lies in the page.
    pub lay: Lay,
    /// What belongs there.
    pub content: Content,
}

/// Two markers that would draw different pictures into one file: the second is not filled.
pub(super) fn one_picture_a_file(article: &mut Article, text: TextId) {
    let mut drawn: Vec<(String, Span, Scene)> = Vec::new();
    let findings = &mut article.findings;
    article.places.retain(|place| {
        let Content::Picture(picture) = &place.content else {
            return true;
        };
        let key = picture.file.to_lowercase();
        match drawn.iter().find(|(file, _, _)| *file == key) {
            Some((_, first, scene)) if *scene != picture.scene => {
                let message = format!("another picture is drawn into `{}` already", picture.file);
                findings.push(
                    Finding::fault(Code::MarkerFile, Place::new(text, place.open), message)
                        .label(Place::new(text, *first), "by this marker")
                        .help("give one of them a file of its own: `draw RIG into other.svg`"),
                );
                false
            }
            Some(_) => true,
            None => {
                drawn.push((key, place.open, picture.scene.clone()));
                true
            }
        }
    });
}
