//! Another water than the rig's: what a command line asks for, read as the
//! language reads it, with the same words for what is wrong.

use snell_analysis::Notebook;
use snell_finding::Finding;
use snell_rig::World;
use snell_rig::blocks::Water;
use snell_rig::content::File;
use snell_rig::keywords::{Cast, SpeedOf};
use snell_rig::project::{Project, Source};
use snell_rig::rig::{Rig, Stated};
use snell_text::TextId;
use std::sync::Arc;

/// What to take instead of what the rig says, each as the language writes it.
#[derive(Clone, Debug, Default)]
pub struct Instead {
    /// Another depth of the water.
    pub depth: Option<String>,
    /// Another speed of its surface.
    pub speed: Option<String>,
    /// Another temperature.
    pub temperature: Option<String>,
    /// Another way to lay the flies on the water.
    pub cast: Option<Cast>,
}

/// Where what was asked for is said to stand.
pub const ASKED_BY: &str = "the command line";

/// The block in which what was asked for is read.
const HEAD: &str = "water asked-for\n";

/// The project with a water beside it that says what the command line says.
pub(super) fn beside(notebook: &Notebook, instead: &Instead) -> (Project, TextId) {
    let said = [
        ("depth", &instead.depth),
        ("surface", &instead.speed),
        ("temperature", &instead.temperature),
    ];
    beside_saying(notebook, &said)
}

/// The same with any lines of a water: their keys, and what stands behind them where it is said.
pub fn beside_saying(notebook: &Notebook, said: &[(&str, &Option<String>)]) -> (Project, TextId) {
    let mut lines = HEAD.to_owned();
    for (key, value) in said {
        if let Some(value) = value {
            lines.push_str(&format!("  {key} {}\n", value.replace(['\n', '\r'], " ")));
        }
    }
    with_lines(notebook, lines)
}

/// The project with some lines of its own language beside it, and the text that they are.
pub fn with_lines(notebook: &Notebook, lines: String) -> (Project, TextId) {
    let mut project = notebook.project().clone();
    let text = TextId(notebook.documents().len() as u32);
    let lines: Arc<str> = lines.into();
    let file = snell_syntax::read(&lines, text, &snell_syntax::whole(&lines));
    let file = File::new(&lines, file);
    project.add(Source::new(ASKED_BY, lines, file));
    (project, text)
}

/// All that is wrong with such lines.
pub fn faults_of(world: &World<'_>, text: TextId) -> Vec<Finding> {
    let project = world.project;
    let own = project
        .own_files()
        .filter(|file| project.source(*file).file.text == text);
    let mut faults = Vec::new();
    for file in own {
        faults.extend(project.source(file).file.findings.iter().cloned());
        for block in project.blocks(file) {
            faults.extend_from_slice(world.findings(block.id));
        }
    }
    faults
}

/// What is wrong with what was asked for.
pub fn wrong(world: &World<'_>, text: TextId) -> Option<String> {
    let mut faults = faults_of(world, text).into_iter();
    let wrong = faults.find(|finding| finding.place().span.start >= HEAD.len() as u32)?;
    Some(told(&wrong))
}

/// A finding in one line, without its place.
pub fn told(finding: &Finding) -> String {
    let help = finding.help.as_deref().map(|help| format!("; {help}"));
    format!("{}{}", finding.message, help.unwrap_or_default())
}

/// The water that was asked for.
pub fn other_water<'w>(world: &'w World<'_>, text: TextId) -> Option<&'w Water> {
    let project = world.project;
    let file = project
        .own_files()
        .find(|file| project.source(*file).file.text == text)?;
    project
        .blocks(file)
        .find_map(|block| world.read(block.id).water())
}

/// Puts what was asked for in the place of what the rig says.
pub fn instead_of(rig: &mut Rig<'_>, other: Option<&Water>, cast: Option<Cast>) {
    let place = rig.place();
    if let Some(cast) = cast {
        rig.settings.cast = Some(Stated {
            value: cast,
            place,
            block: None,
        });
    }
    let Some(other) = other else { return };
    if [&other.depth, &other.speed.0, &other.temperature]
        .iter()
        .all(|said| said.is_err())
    {
        return;
    }
    let own = rig.settings.water.take();
    let (block, value) = match own {
        Some(own) => (own.block, varied(own.value, other)),
        None => (None, other.clone()),
    };
    rig.settings.water = Some(Stated { value, place, block });
}

/// A water with what another says of depth, speed and temperature in its place.
pub fn varied(mut own: Water, other: &Water) -> Water {
    if other.depth.is_ok() {
        own.depth = other.depth.clone();
    }
    if other.speed.0.is_ok() {
        own.speed = (other.speed.0.clone(), SpeedOf::Surface);
    }
    if other.temperature.is_ok() {
        own.temperature = other.temperature.clone();
    }
    own
}
