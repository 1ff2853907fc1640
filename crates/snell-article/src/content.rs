//! What belongs between two markers, as plain data.

use super::figure::NoFigure;
use super::words::{Said, Shown};
use snell_analysis::Document;
use snell_analysis::Notebook;
use snell_finding::{Code, Finding};
use snell_picture::{Medium, Scene};
use snell_rig::Evaluation;
use snell_rig::project::BlockRef;
use snell_text::{Place, Span};
use snell_view::{Cuts, ShownRig, Units};
use std::path::{Component, Path};

/// What belongs between two markers.
#[derive(Debug)]
pub enum Content {
    /// A rig's sheet, or the part of it that is asked for.
    Rig(Shown, Box<ShownRig>),
    /// A picture.
    Picture(Box<Picture>),
    /// What to cut.
    Cuts(Box<Cuts>),
    /// One figure, in words.
    Figure(String),
}

/// A picture that stands in a file beside its page.
#[derive(Debug)]
pub struct Picture {
    /// The file, from the page's folder, with forward slashes.
    pub file: String,
    /// What is drawn.
    pub scene: Scene,
}

/// Makes what is asked of one rig.
pub(super) struct Filler<'a, 'w, 'p> {
    pub notebook: &'a Notebook,
    pub document: &'a Document,
    pub block: BlockRef<'p>,
    pub evaluation: &'a Evaluation<'w, 'p>,
}

impl Filler<'_, '_, '_> {
    /// The file that a picture is drawn into; none for what is no picture.
    ///
    /// # Errors
    /// It would lie elsewhere than below the page's folder, or is no SVG.
    pub fn file(&self, shown: Shown, into: Option<Said<'_>>) -> Result<String, Box<Finding>> {
        let more = match shown {
            Shown::Picture => "",
            Shown::Drift => "-drift",
            Shown::Sheet | Shown::Parts | Shown::Measures | Shown::Cuts => return Ok(String::new()),
        };
        let Some(into) = into else {
            let stem = self.document.path.file_stem().unwrap_or_default();
            let stem = stem.to_string_lossy();
            return Ok(format!("{stem}-{}{more}.svg", self.evaluation.rig.name));
        };
        let path = Path::new(into.text);
        let below = path
            .components()
            .all(|part| matches!(part, Component::Normal(_) | Component::CurDir));
        let is_svg = path
            .extension()
            .is_some_and(|ending| ending.eq_ignore_ascii_case("svg"));
        let is_odd = |letter: char| {
            letter.is_control() || matches!(letter, '\\' | ':' | '<' | '>' | '"' | '|' | '?' | '*')
        };
        if below && is_svg && !into.text.contains(is_odd) {
            return Ok(into.text.to_owned());
        }
        let message = format!("`{}` is no place for a picture of this page", into.text);
        let place = Place::new(self.document.id, into.span);
        Err(Box::new(Finding::fault(Code::MarkerFile, place, message).help(
            "name a file in the page's folder or below it, with forward slashes, that ends in `.svg`",
        )))
    }

    /// What belongs there.
    ///
    /// # Errors
    /// There is nothing to draw.
    pub fn content(
        &self,
        shown: Shown,
        units: Units,
        file: String,
        words: Span,
    ) -> Result<Content, NoFigure> {
        match shown {
            Shown::Sheet | Shown::Parts | Shown::Measures => {
                let rig = snell_view::of(self.notebook, self.evaluation, units).ok_or(None)?;
                Ok(Content::Rig(shown, Box::new(rig)))
            }
            Shown::Cuts => Ok(Content::Cuts(Box::new(snell_view::cuts_of(
                self.notebook,
                &[self.block],
                units,
                self.evaluation.world,
            )))),
            Shown::Picture => {
                let scene = snell_view::scene_of(self.evaluation, units, Medium::Page);
                self.picture(scene, file, words, &[])
            }
            Shown::Drift => {
                let drift = snell_view::drift_of(self.notebook, self.evaluation.world, self.block, units);
                self.picture(drift.scene(Medium::Page), file, words, &drift.needs)
            }
        }
    }

    fn picture(
        &self,
        scene: Option<Scene>,
        file: String,
        words: Span,
        needs: &[String],
    ) -> Result<Content, NoFigure> {
        match scene {
            Some(scene) => Ok(Content::Picture(Box::new(Picture { file, scene }))),
            None => {
                let place = Place::new(self.document.id, words);
                let message = format!("there is nothing to draw of `{}`", self.evaluation.rig.name);
                let finding = Finding::fault(Code::MarkerUnknown, place, message);
                Err(Some(Box::new(if needs.is_empty() {
                    finding
                } else {
                    finding.help(format!("the rig would have to say: {}", needs.join(", ")))
                })))
            }
        }
    }
}
