//! The water that a rig is fitted to: its own, one of the notebook's, or either
//! with some figures in the place of its own.

use crate::drift::instead::{self, varied};
use crate::names::file_of;
use snell_analysis::Notebook;
use snell_rig::blocks::Water;
use snell_rig::keywords::SpeedOf;
use snell_rig::project::Project;
use snell_rig::rig::{Rig, Stated};
use snell_rig::{BlockId, World};
use snell_syntax::BlockKind;
use snell_text::TextId;
use std::sync::Arc;

/// What a person asks a rig to be fitted to, each as the language writes it.
#[derive(Clone, Debug, Default)]
pub struct ToWater {
    /// A water of the notebook, by name.
    pub name: Option<String>,
    /// Another depth.
    pub depth: Option<String>,
    /// Another speed of the surface.
    pub speed: Option<String>,
    /// Another temperature.
    pub temperature: Option<String>,
    /// Another bed: a name, or the size of its grain.
    pub bed: Option<String>,
}

/// A water that was found, with how a rig would name it.
pub(crate) struct Asked {
    pub(crate) water: Option<Stated<Water>>,
    /// The water's block, or that of the one which it was varied from.
    pub(super) named: Option<BlockId>,
    pub(super) written: WrittenWater,
}

/// How a rig of its own would say what water it is for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum WrittenWater {
    /// Not at all: it is that of the rig.
    Own,
    /// By name.
    Named(String),
    /// By the name of a water that the rig's file does not see; and where it stands.
    OutOfSight(String, String),
    /// As a block of its own: the water that it is made from, and its lines.
    Varied(Option<String>, Vec<(&'static str, String)>),
}

impl ToWater {
    fn is_varied(&self) -> bool {
        let said = [&self.depth, &self.speed, &self.temperature, &self.bed];
        said.into_iter().any(Option::is_some)
    }

    /// The bed, where it is told by the size of its grain.
    fn grain(&self) -> Option<String> {
        let starts_number = |bed: &&String| {
            bed.trim_start()
                .starts_with(|letter: char| !letter.is_alphabetic())
        };
        self.bed.as_ref().filter(starts_number).cloned()
    }

    /// The project, with a water beside it that says what is asked for.
    pub(crate) fn beside(&self, notebook: &Notebook) -> (Project, TextId) {
        let said = [
            ("depth", &self.depth),
            ("surface", &self.speed),
            ("temperature", &self.temperature),
            ("bed", &self.grain()),
        ];
        instead::beside_saying(notebook, &said)
    }

    /// The water of a rig that is to be fitted.
    ///
    /// # Errors
    /// A water or a bed of that name is not there.
    pub(crate) fn of_rig(
        &self,
        notebook: &Notebook,
        world: &World<'_>,
        rig: &Rig<'_>,
        text: TextId,
    ) -> Result<Asked, String> {
        let (water, written) = match &self.name {
            Some(name) => named(notebook, world, rig, name)?,
            None => (rig.settings.water.clone(), WrittenWater::Own),
        };
        let named = water.as_ref().and_then(|water| water.block);
        let asked = Asked {
            water,
            named,
            written,
        };
        if self.is_varied() {
            self.varied(world, rig, asked, text)
        } else {
            Ok(asked)
        }
    }

    /// A water with what is asked for in the place of its own figures.
    fn varied(&self, world: &World<'_>, rig: &Rig<'_>, own: Asked, text: TextId) -> Result<Asked, String> {
        let from = own.named.map(|id| world.name(id).to_owned());
        let written = WrittenWater::Varied(from, self.lines(world, &own.water));
        let other = instead::other_water(world, text).ok_or("what is asked for cannot be read")?;
        let mut value = own
            .water
            .map_or_else(|| other.clone(), |own| varied(own.value, other));
        if let Some(grain) = &other.grain {
            (value.bed, value.grain) = (None, Some(grain.clone()));
        } else if let Some(name) = &self.bed {
            (value.bed, value.grain) = (Some(bed(world, rig, name)?), None);
        }
        let (place, block) = (rig.place(), None);
        Ok(Asked {
            water: Some(Stated { value, place, block }),
            named: own.named,
            written,
        })
    }

    /// The lines of a water block that says what is asked for; without a water to be made from, also those that
    /// the rig itself says.
    fn lines(&self, world: &World<'_>, own: &Option<Stated<Water>>) -> Vec<(&'static str, String)> {
        let own = own
            .as_ref()
            .filter(|own| own.block.is_none())
            .map(|own| &own.value);
        let figure = |asked: &Option<String>, own: Option<&snell_rig::lack::Outcome>| {
            let own = || own?.as_ref().ok().map(snell_rig::value::Value::written);
            asked.clone().or_else(own)
        };
        let bed = || {
            let own = own?;
            let grain = own.grain.as_ref().and_then(|grain| grain.as_ref().ok());
            let name = own.bed.map(|id| world.name(id).to_owned());
            name.or_else(|| grain.map(snell_rig::value::Value::written))
        };
        let surface = own.filter(|own| self.speed.is_some() || own.speed.1 == SpeedOf::Surface);
        let mean = own.filter(|own| self.speed.is_none() && own.speed.1 == SpeedOf::Mean);
        let lines = [
            ("depth", figure(&self.depth, own.map(|own| &own.depth))),
            ("surface", figure(&self.speed, surface.map(|own| &own.speed.0))),
            ("mean", mean.and_then(|own| figure(&None, Some(&own.speed.0)))),
            ("bed", self.bed.clone().or_else(bed)),
            (
                "temperature",
                figure(&self.temperature, own.map(|own| &own.temperature)),
            ),
        ];
        let said = lines.into_iter();
        said.filter_map(|(key, value)| Some((key, value?))).collect()
    }
}

/// A water by its name: as the rig's file sees it, or the only one of the notebook that is called so.
fn named(
    notebook: &Notebook,
    world: &World<'_>,
    rig: &Rig<'_>,
    name: &str,
) -> Result<(Option<Stated<Water>>, WrittenWater), String> {
    let folded = folded(name);
    let place = rig.place();
    let stated = |id: BlockId| {
        Some(Stated {
            value: world.read(id).water()?.clone(),
            place,
            block: Some(id),
        })
    };
    if let Some(id) = world.find(rig.block.id.file, BlockKind::Water, &folded).block() {
        return Ok((stated(id), WrittenWater::Named(world.name(id).to_owned())));
    }
    let waters = waters(world);
    let mut same = waters.iter().filter(|id| *world.name(**id) == *folded);
    match (same.next(), same.next()) {
        (Some(id), None) => {
            let file = file_of(notebook, world.project.block(*id));
            Ok((
                stated(*id),
                WrittenWater::OutOfSight(world.name(*id).to_owned(), file),
            ))
        }
        (Some(_), Some(_)) => Err(format!(
            "several waters are called `{name}`, and `{}` sees none of them: put a `use` line for one into it",
            file_of(notebook, rig.block)
        )),
        (None, _) => {
            let known = waters.iter().map(|id| world.name(*id));
            Err(unknown("water", name, known))
        }
    }
}

/// Every water of the notebook's files.
fn waters(world: &World<'_>) -> Vec<BlockId> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks = own.flat_map(|file| project.blocks(file));
    let named = blocks.filter(|block| {
        let documented = block.source.name != instead::ASKED_BY;
        documented && block.head().is_some_and(|head| head.kind == BlockKind::Water)
    });
    named.map(|block| block.id).collect()
}

/// A bed by its name, as the rig's file sees it.
fn bed(world: &World<'_>, rig: &Rig<'_>, name: &str) -> Result<BlockId, String> {
    let file = rig.block.id.file;
    let bed = world.find(file, BlockKind::Bed, &folded(name)).block();
    bed.ok_or_else(|| {
        let known = world.visible(file, BlockKind::Bed);
        unknown("bed", name, known.iter().map(|name| &**name))
    })
}

fn folded(name: &str) -> Arc<str> {
    Arc::from(name.trim().to_lowercase())
}

fn unknown<'n>(what: &str, name: &str, known: impl Iterator<Item = &'n str>) -> String {
    match snell_units::nearest(&folded(name), known) {
        Some(near) => format!("there is no {what} `{name}` in sight; did you mean `{near}`?"),
        None => format!("there is no {what} `{name}` in sight"),
    }
}
