//! The waters of a card: what a command line asks for, read as the language
//! reads it, with the same words for what is wrong.

use crate::drift::instead;
use crate::need::ShownAssumed;
use snell_analysis::Notebook;
use snell_finding::{Finding, Limit};
use snell_rig::World;
use snell_rig::blocks::Water;
use snell_rig::keywords::{Cast, SpeedOf};
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure;
use snell_rig::missing::{Missing, Unsaid};
use snell_rig::project::{FileId, Project};
use snell_rig::value::Value;
use snell_text::TextId;
use snell_units::{Dimension, System, in_order};

/// What a card is to be of, each as the language writes it.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// Depths, or spreads of them; the usual ones where there are none.
    pub depths: Vec<String>,
    /// Speeds of the surface, or spreads of them; the usual ones where there are none.
    pub speeds: Vec<String>,
    /// Another bed than the rig's.
    pub bed: Option<String>,
    /// Another temperature.
    pub temperature: Option<String>,
    /// Another length of the run.
    pub run: Option<String>,
    /// Another way to lay the flies on the water.
    pub cast: Option<Cast>,
    /// Only these flies, by name; all in sight where there are none.
    pub flies: Vec<String>,
    /// Whether to put the trade's bead sizes on the rig's point fly, instead of the flies of the box.
    pub beads: bool,
}

/// More lines of either than these are no card for the pocket.
pub const MOST_LINES: usize = Limit::CardLines.count();

/// The usual depths or speeds, and the step in which a spread of them is walked.
struct Usual {
    low: f64,
    high: f64,
    step: f64,
    unit: &'static str,
    /// The unit in SI.
    si: f64,
}

impl Usual {
    /// The spread as the language writes it.
    fn written(&self) -> String {
        format!("{0} {2} to {1} {2}", self.low, self.high, self.unit)
    }

    fn step_si(&self) -> f64 {
        self.step * self.si
    }

    fn values(&self, dimension: Dimension, system: System) -> Vec<Value> {
        let steps = ((self.high - self.low) / self.step).round() as usize;
        let value = |step: usize| {
            let mut value = Value::plain((self.low + step as f64 * self.step) * self.si, dimension);
            value.system = Some(system);
            value.unit = snell_units::known(self.unit).and_then(|unit| unit.unit);
            value
        };
        (0..=steps).map(value).collect()
    }
}

/// The usual depths and speeds of one system of units.
struct UsualWater {
    depths: Usual,
    speeds: Usual,
}

const METRIC: UsualWater = UsualWater {
    depths: Usual {
        low: 0.3,
        high: 1.8,
        step: 0.3,
        unit: "m",
        si: 1.0,
    },
    speeds: Usual {
        low: 0.2,
        high: 1.2,
        step: 0.2,
        unit: "m/s",
        si: 1.0,
    },
};
const IMPERIAL: UsualWater = UsualWater {
    depths: Usual {
        low: 1.0,
        high: 6.0,
        step: 1.0,
        unit: "ft",
        si: 0.3048,
    },
    speeds: Usual {
        low: 0.5,
        high: 4.0,
        step: 0.5,
        unit: "ft/s",
        si: 0.3048,
    },
};

/// The usual depths and speeds in a system of units.
pub(super) fn usual_grid(system: System) -> Grid {
    let usual = usual(system);
    Grid {
        depths: usual.depths.values(Dimension::LENGTH, system),
        speeds: usual.speeds.values(Dimension::SPEED, system),
    }
}

fn usual(system: System) -> &'static UsualWater {
    match system {
        System::Metric => &METRIC,
        System::Imperial => &IMPERIAL,
    }
}

/// The depths and speeds of a card, the least first.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    pub depths: Vec<Value>,
    pub speeds: Vec<Value>,
}

/// A project beside which stand waters that say what was asked for.
pub(super) struct Beside {
    pub project: Project,
    pub text: TextId,
    depths: usize,
    speeds: usize,
}

/// A line of its own for each depth and speed, so that one fault is told at one place. The first block is for
/// what all of them share; then those asked for, or the usual ones of both systems.
pub(super) fn beside(notebook: &Notebook, asked: &Asked) -> Beside {
    let mut lines = String::from("water asked-for\n");
    let shared = [
        ("bed", &asked.bed),
        ("temperature", &asked.temperature),
        ("run", &asked.run),
    ];
    for (key, said) in shared {
        if let Some(said) = said {
            lines.push_str(&line(key, said));
        }
    }
    let mut each = |key: &str, asked: &[String], usual: [&Usual; 2]| {
        let usual = usual.map(Usual::written);
        let words = if asked.is_empty() { &usual[..] } else { asked };
        for (index, word) in words.iter().enumerate() {
            lines.push_str(&format!("water {key}-{index}\n{}", line(key, word)));
        }
        words.len()
    };
    let depths = each("depth", &asked.depths, [&METRIC.depths, &IMPERIAL.depths]);
    let speeds = each("surface", &asked.speeds, [&METRIC.speeds, &IMPERIAL.speeds]);
    let (project, text) = instead::with_lines(notebook, lines);
    Beside {
        project,
        text,
        depths,
        speeds,
    }
}

fn line(key: &str, said: &str) -> String {
    format!("  {key} {}\n", said.replace(['\n', '\r'], " "))
}

impl Beside {
    /// What is wrong with what was asked for; that a block of it lacks a line is not.
    pub fn wrong(&self, world: &World<'_>) -> Option<String> {
        let mut faults = instead::faults_of(world, self.text).into_iter();
        let wrong = faults.find(|finding| !self.stands_in_a_head(finding))?;
        Some(instead::told(&wrong))
    }

    /// Whether it stands on the line that opens a block, and not on one that was asked for.
    fn stands_in_a_head(&self, finding: &Finding) -> bool {
        let text = self.file().map_or("", |file| &*self.project.source(file).text);
        let before = &text[..(finding.place().span.start as usize).min(text.len())];
        let line = before.rfind('\n').map_or(0, |end| end + 1);
        text[line..].starts_with("water ")
    }

    fn file(&self) -> Option<FileId> {
        let mut files = self.project.files();
        files.find(|file| self.project.source(*file).file.text == self.text)
    }

    fn waters<'w>(&self, world: &'w World<'_>) -> Vec<&'w Water> {
        let blocks = self
            .file()
            .into_iter()
            .flat_map(|file| world.project.blocks(file));
        blocks.filter_map(|block| world.read(block.id).water()).collect()
    }

    /// What was asked for besides depths and speeds.
    pub fn shared<'w>(&self, world: &'w World<'_>) -> Option<&'w Water> {
        self.waters(world).first().copied()
    }

    /// The depths and speeds, for a rig that is shown in a system of units.
    ///
    /// # Errors
    /// There are too many, or one is nothing.
    pub fn grid(&self, world: &World<'_>, asked: &Asked, system: System) -> Result<Grid, String> {
        let waters = self.waters(world);
        let (depths, speeds) = waters.get(1..).unwrap_or_default().split_at(self.depths);
        let steps = usual(system);
        let pick = |asked: &[String], all: Vec<&Outcome>| -> Vec<Value> {
            let own = |value: &&Value| !asked.is_empty() || value.system == Some(system);
            let values = all.into_iter().filter_map(|outcome| outcome.as_ref().ok());
            values.filter(own).cloned().collect()
        };
        let depths = pick(&asked.depths, depths.iter().map(|water| &water.depth).collect());
        let speeds = speeds.iter().take(self.speeds).map(|water| &water.speed.0);
        let speeds = pick(&asked.speeds, speeds.collect());
        Ok(Grid {
            depths: walked("depth", depths, steps.depths.step_si())?,
            speeds: walked("speed", speeds, steps.speeds.step_si())?,
        })
    }
}

/// Every value, a spread step by step; sorted, each once.
fn walked(what: &str, values: Vec<Value>, step: f64) -> Result<Vec<Value>, String> {
    let too_many = || format!("a card has room for {MOST_LINES} {what}s: ask for fewer");
    let mut all = Vec::new();
    for value in values {
        let (low, high) = (value.low().min(value.high()), value.low().max(value.high()));
        if low.is_nan() || low <= 0.0 {
            return Err(format!("a {what} has to be more than nothing"));
        }
        let steps = ((high - low) / step + 1e-6).floor();
        if steps >= MOST_LINES as f64 {
            return Err(too_many());
        }
        all.extend((0..=steps as usize).map(|index| value.clone().at(low + index as f64 * step)));
    }
    in_order(&mut all, |one, other| one.si().total_cmp(&other.si()));
    all.dedup_by(|one, other| (one.si() - other.si()).abs() < 1e-9);
    if all.len() > MOST_LINES {
        return Err(too_many());
    }
    Ok(all)
}

/// All that is known of the water but depth and speed: the rig's own, what was asked for before it, and the
/// usual run where neither says one.
pub(super) fn water(
    own: Option<&Water>,
    asked: Option<&Water>,
    system: System,
) -> (Water, Option<ShownAssumed>) {
    let unsaid = || Err(Missing::new(Unsaid::Water).into());
    let mut water = own.or(asked).cloned().unwrap_or(Water {
        depth: unsaid(),
        speed: (unsaid(), SpeedOf::Surface),
        bed: None,
        grain: None,
        temperature: unsaid(),
        run: unsaid(),
    });
    if let Some(asked) = asked {
        if asked.bed.is_some() || asked.grain.is_some() {
            (water.bed, water.grain) = (asked.bed, asked.grain.clone());
        }
        for (own, asked) in [
            (&mut water.temperature, &asked.temperature),
            (&mut water.run, &asked.run),
        ] {
            if asked.is_ok() {
                own.clone_from(asked);
            }
        }
    }
    let assumed = matches!(water.run, Err(Lack::Unknown(_))).then(|| {
        let mut run = Value::plain(measure::usual_run(system), Dimension::LENGTH);
        run.system = Some(system);
        let value = run.written();
        water.run = Ok(run);
        ShownAssumed {
            what: "how long the run is".to_owned(),
            value,
            why: "our own choice, a short one; the water's `run` says another".to_owned(),
            knot: None,
        }
    });
    (water, assumed)
}
