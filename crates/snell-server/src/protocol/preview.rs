//! What the preview beside a text asks: words of our own beside the protocol's.
//!
//! `snell/preview` tells the rig at a position with its picture and sliders,
//! `snell/verdict` the verdict on the same rig, which takes longer, and
//! `snell/slide` the edit that moves a slider's quantity.

use super::answers::Asked;
use super::server::Server;
use serde::{Deserialize, Serialize};
use snell_ide::{Slider, Which};
use tower_lsp_server::jsonrpc::Result;
use tower_lsp_server::ls_types::{Position, Range, TextDocumentIdentifier, TextEdit};

/// Which rig is asked about: the one that a position lies in, or else the first.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct AtRig {
    text_document: TextDocumentIdentifier,
    position: Position,
}

/// Which quantity is moved, and to what value in its own unit.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Slide {
    text_document: TextDocumentIdentifier,
    range: Range,
    value: f64,
}

/// A rig as the preview shows it at once.
#[derive(Serialize)]
pub struct Preview {
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<String>,
    range: Range,
    /// To scale, as SVG.
    #[serde(skip_serializing_if = "Option::is_none")]
    picture: Option<String>,
    /// Why there is no picture.
    #[serde(skip_serializing_if = "Option::is_none")]
    undrawn: Option<String>,
    sliders: Vec<Slider<Ranged>>,
}

/// A place as the protocol counts it.
#[derive(Serialize)]
struct Ranged {
    range: Range,
}

impl Server {
    pub async fn preview(&self, of: AtRig) -> Result<Option<Preview>> {
        self.ask(&of.text_document.uri, move |asked| asked.preview(of.position))
            .await
    }

    pub async fn verdict(&self, of: AtRig) -> Result<Option<Vec<String>>> {
        self.ask(&of.text_document.uri, move |asked| asked.verdict(of.position))
            .await
    }

    pub async fn slide(&self, slide: Slide) -> Result<Option<TextEdit>> {
        let (range, value) = (slide.range, slide.value);
        self.ask(&slide.text_document.uri, move |asked| asked.slid(range, value))
            .await
    }
}

impl Asked<'_> {
    fn around(&self, position: Position) -> Which<'static> {
        Which::Around(self.manner.offset(self.open, position))
    }

    fn preview(&self, position: Position) -> Option<Preview> {
        let own = |span| self.manner.own(self.open, span);
        let rig = snell_ide::chosen(self.notebook(), self.around(position))?;
        let live = snell_ide::live(self.notebook(), rig);
        let (picture, undrawn) = match live.picture {
            Ok(picture) => (Some(picture), None),
            Err(why) => (None, Some(why)),
        };
        let ranged = |span| Ranged { range: own(span) };
        let sliders = live.sliders.into_iter().map(|slider| slider.counted(ranged));
        Some(Preview {
            name: live.name,
            title: live.title,
            range: own(live.place),
            picture,
            undrawn,
            sliders: sliders.collect(),
        })
    }

    fn verdict(&self, position: Position) -> Option<Vec<String>> {
        let rig = snell_ide::chosen(self.notebook(), self.around(position))?;
        Some(snell_ide::verdict(self.notebook(), rig))
    }

    fn slid(&self, range: Range, value: f64) -> Option<TextEdit> {
        let place = self.manner.span(self.open, range);
        let edit = snell_ide::slid(self.notebook(), place, value)?;
        Some(TextEdit::new(
            self.manner.own(self.open, edit.place.span),
            edit.new,
        ))
    }
}
