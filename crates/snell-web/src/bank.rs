//! What is worked out only where somebody asks for it: what the program tells in
//! full, the rig in its water, its card, and its fit to another water. An
//! element on a page asks none of it, and its module leaves it out.

use crate::page::{Page, Told, told};
use snell_picture::{Medium, write};
use snell_view::drift::Instead;
use snell_view::fit::ToWater;
use snell_view::{Asked, Drawn, Places, Report, ShownRigs, Units};

/// What tells one picture from others on its page.
const PICTURE_ID: &str = "rig";

impl Page {
    /// Everything that is wrong, with all ways out: what `snell check --form json` tells.
    ///
    /// # Errors
    /// There is no such file.
    pub fn check(&mut self, file: &str) -> Told {
        let notebook = self.notebook(file)?;
        let findings = snell_article::check(&notebook);
        told(&Report::of(&findings, None, &Places::new(&notebook, &findings)))
    }

    /// Every rig of a file with its measures: what `snell show --form json` tells.
    ///
    /// # Errors
    /// There is no such file.
    pub fn show(&mut self, file: &str) -> Told {
        let notebook = self.notebook(file)?;
        let rigs = snell_view::show(&notebook, Units::Author, |_, own| own == file);
        told(&ShownRigs::from(&*rigs))
    }

    /// A rig's picture as SVG, to scale or in its water.
    ///
    /// # Errors
    /// There is no such file or rig, or nothing to draw.
    pub fn draw(&mut self, file: &str, rig: &str, in_water: bool) -> Told {
        let notebook = self.notebook(file)?;
        let draw = if in_water {
            snell_view::draw_in_water
        } else {
            snell_view::draw
        };
        let wanted = |name: &str, own: &str| name == rig && own == file;
        let drawn = draw(&notebook, Units::Author, Medium::Page, &wanted);
        let Drawn { scene, .. } = drawn.into_iter().next().ok_or_else(|| no_rig(rig))?;
        Ok(write::svg(&scene?, PICTURE_ID))
    }

    /// How a rig drifts and sinks: what `snell drift --form json` tells.
    ///
    /// # Errors
    /// There is no such file.
    pub fn drift(&mut self, file: &str, rig: &str) -> Told {
        let notebook = self.notebook(file)?;
        let wanted = |name: &str, own: &str| name == rig && own == file;
        let drifts = snell_view::drift::drifts(&notebook, Units::Author, &Instead::default(), wanted)?;
        told(&ShownRigs::from(&*drifts))
    }

    /// A rig's card for the pocket as SVG.
    ///
    /// # Errors
    /// There is no such file or rig, or nothing to say on a card.
    pub fn card(&mut self, file: &str, rig: &str) -> Told {
        let notebook = self.notebook(file)?;
        let wanted = |name: &str, own: &str| name == rig && own == file;
        let cards = snell_view::cards(&notebook, Units::Author, &Asked::default(), &|_, _| {}, wanted)?;
        let card = cards.first().ok_or_else(|| no_rig(rig))?;
        let scene = card
            .scene()
            .ok_or_else(|| format!("no card without {}", card.needs.join(", ")))?;
        Ok(write::svg(&scene, PICTURE_ID))
    }

    /// The fewest changes that make a rig right for the water in front of one: what `snell fit --form json` tells. Depth and
    /// speed are quantities as people write them, or empty.
    ///
    /// # Errors
    /// There is no such file, or what is written is no such quantity.
    pub fn fit(&mut self, file: &str, rig: &str, depth: &str, speed: &str) -> Told {
        let notebook = self.notebook(file)?;
        let wanted = |name: &str, own: &str| name == rig && own == file;
        let said = |written: &str| Some(written.trim().to_owned()).filter(|written| !written.is_empty());
        let to = ToWater {
            depth: said(depth),
            speed: said(speed),
            ..ToWater::default()
        };
        let fits = snell_view::fit::fit(&notebook, Units::Author, &to, None, wanted, &mut |_, _| {})?;
        told(&ShownRigs::from(&*fits))
    }
}

fn no_rig(rig: &str) -> String {
    format!("there is no rig `{rig}` here")
}
