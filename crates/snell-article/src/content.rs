//! What belongs between two markers, as plain data.

use super::checksum::alike;
use super::figure::NoFigure;
use super::spoken::instead;
use super::words::{Block, Said, Shown};
use snell_analysis::Document;
use snell_analysis::Notebook;
use snell_finding::{Code, Finding};
use snell_picture::{Medium, Scene};
use snell_rig::Evaluation;
use snell_rig::project::BlockRef;
use snell_text::{Place, Span};
use snell_view::Estimates;
use snell_view::compare::{self, Comparison};
use snell_view::{Cuts, ShownCard, ShownRig};
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
    /// A card for the pocket, as a table.
    Card(Box<ShownCard>),
    /// What differs between two rigs.
    Changes(Box<Comparison>),
    /// One figure or word.
    Figure(String),
}

/// A picture that stands in a file beside its page.
#[derive(Debug)]
pub struct Picture {
    /// The file, from the page's folder, with forward slashes.
    pub file: String,
    /// What is drawn.
    pub scene: Scene,
    /// What it shows, for those who do not see it.
    pub instead: String,
}

impl Picture {
    /// Whether a text is the picture as it was put in before there were checksums: under its title.
    pub(super) fn was_filled_so(&self, text: &str) -> bool {
        let title = &self.scene.title;
        let forms = [
            format!("![{title}]({})", self.file),
            format!("![{title}](<{}>)", self.file),
        ];
        forms.iter().any(|form| alike(form, text))
    }
}

/// Makes what is asked of one rig.
pub(super) struct Filler<'a, 'w, 'p> {
    pub notebook: &'a Notebook,
    pub document: &'a Document,
    pub block: BlockRef<'p>,
    /// The rig that it is held against.
    pub other: Option<BlockRef<'p>>,
    pub evaluation: &'a Evaluation<'w, 'p>,
}

impl Filler<'_, '_, '_> {
    /// The file that a picture is drawn into; none for what is no picture.
    ///
    /// # Errors
    /// It would lie elsewhere than below the page's folder, or is no picture.
    pub fn file(&self, shown: Shown, into: Option<Said<'_>>) -> Result<String, Box<Finding>> {
        let more = match shown {
            Shown::Picture => "",
            Shown::Drift => "-drift",
            Shown::Card => "-card",
            Shown::Sheet | Shown::Parts | Shown::Measures | Shown::Cuts | Shown::Changes => {
                return Ok(String::new());
            }
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
        let is_picture = path.extension().is_some_and(|ending| {
            ["svg", "png"]
                .iter()
                .any(|known| ending.eq_ignore_ascii_case(known))
        });
        let is_odd = |letter: char| {
            letter.is_control() || matches!(letter, '\\' | ':' | '<' | '>' | '"' | '|' | '?' | '*')
        };
        if below && is_picture && !into.text.contains(is_odd) {
            return Ok(into.text.to_owned());
        }
        let message = format!("`{}` is no place for a picture of this page", into.text);
        let place = Place::new(self.document.id, into.span);
        Err(Box::new(Finding::fault(Code::MarkerFile, place, message).help(
            "name a file in the page's folder or below it, with forward slashes, that ends in `.svg` or `.png`",
        )))
    }

    /// What belongs there.
    ///
    /// # Errors
    /// There is nothing to draw.
    pub fn content(&self, block: &Block<'_>, file: String, words: Span) -> Result<Content, NoFigure> {
        let units = block.units;
        match block.shown {
            Shown::Sheet | Shown::Parts | Shown::Measures => {
                let rig =
                    snell_view::of(self.notebook, self.evaluation, units, Estimates::Between).ok_or(None)?;
                Ok(Content::Rig(block.shown, Box::new(rig)))
            }
            Shown::Cuts => Ok(Content::Cuts(Box::new(snell_view::cuts_of(
                self.notebook,
                &[self.block],
                units,
                self.evaluation.world,
            )))),
            Shown::Picture => {
                let scene = snell_view::scene_of(self.evaluation, units, Medium::Page);
                self.picture(scene, block, file, words, &[])
            }
            Shown::Drift => {
                let drift = snell_view::drift_of(self.notebook, self.evaluation.world, self.block, units);
                self.picture(drift.scene(Medium::Page), block, file, words, &drift.needs)
            }
            Shown::Card => {
                let card = snell_view::card_of(self.notebook, self.block.id, units).ok_or(None)?;
                match (card.cells.is_empty(), block.into) {
                    (false, None) => Ok(Content::Card(Box::new(card))),
                    (true, _) | (false, Some(_)) => {
                        self.picture(card.scene(), block, file, words, &card.needs)
                    }
                }
            }
            Shown::Changes => {
                let world = self.evaluation.world;
                let card =
                    |block| compare::card_of(self.notebook, world, block, Estimates::Between).ok_or(None);
                let (was, now) = (card(self.other.ok_or(None)?)?, card(self.block)?);
                Ok(Content::Changes(Box::new(compare::compare_two(&was, &now))))
            }
        }
    }

    fn picture(
        &self,
        scene: Option<Scene>,
        block: &Block<'_>,
        file: String,
        words: Span,
        needs: &[String],
    ) -> Result<Content, NoFigure> {
        match scene {
            Some(scene) => {
                let better = block.instead.map(|said| said.text.to_owned());
                let instead = better.unwrap_or_else(|| instead(&scene));
                Ok(Content::Picture(Box::new(Picture { file, scene, instead })))
            }
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
