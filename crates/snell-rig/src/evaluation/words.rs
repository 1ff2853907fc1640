//! The words for what is missing and what was assumed: the one place where they are made.

use super::core::Evaluation;
use crate::assumed::{Assumed, Eyes, Taken, Usual, UsualKnot};
use crate::missing::{Missing, Of, Unsaid};
use crate::thing::Thing;
use crate::value::Value;
use snell_units::{Dimension, Quantity, System};
use snell_water::fly::DRAG_KNOWN_TO;
use std::borrow::Cow;
use std::fmt;

/// What is missing, in words: `the length of the line`.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct MissingWords {
    /// What, without its article where that is `the`.
    pub what: String,
    /// Whether it takes `the`.
    definite: bool,
    /// The part of the rig that it is of, by name.
    pub part: Option<String>,
    /// Whether that part goes by its role, and so takes `the`.
    by_role: bool,
    /// What is to be said behind.
    behind: &'static str,
}

impl MissingWords {
    /// Words that stand for themselves.
    pub fn plain(what: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            definite: false,
            part: None,
            by_role: false,
            behind: "",
        }
    }

    fn the(what: impl Into<String>) -> Self {
        Self {
            definite: true,
            ..Self::plain(what)
        }
    }

    /// Of something that has no name among the parts.
    fn of_the(mut self, whole: &str) -> Self {
        self.what.push_str(" of the ");
        self.what.push_str(whole);
        self
    }

    fn behind(self, behind: &'static str) -> Self {
        Self { behind, ..self }
    }
}

impl fmt::Display for MissingWords {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let the = |is: bool| if is { "the " } else { "" };
        write!(out, "{}{}", the(self.definite), self.what)?;
        if let Some(part) = &self.part {
            write!(out, " of {}{part}", the(self.by_role))?;
        }
        out.write_str(self.behind)
    }
}

/// What was assumed, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AssumedWords {
    /// What it is about: `the knot butt to taper`.
    pub what: String,
    /// Of a knot, which: `butt to taper`, `of slate`.
    pub knot: Option<String>,
    /// What was taken.
    pub value: String,
    /// Why.
    pub why: Cow<'static, str>,
}

impl Evaluation<'_, '_> {
    /// All that is missing, in words; what reads alike is said once.
    pub fn words_of_all(&self, missing: &[Missing]) -> Vec<MissingWords> {
        once(missing.iter().map(|one| self.words_of(one)))
    }

    /// All that was assumed so far, in words; what reads alike is said once.
    pub fn all_assumed(&self) -> Vec<AssumedWords> {
        once(self.assumed().iter().map(|one| self.assumed_words(one)))
    }

    /// By what else than its parts the drag of a fly was told so far, in words.
    pub fn drag_assumed(&self, thing: Thing) -> Option<AssumedWords> {
        let is_drag = |one: &&Assumed| {
            one.of == Of::Thing(thing) && matches!(one.what, Usual::Drag | Usual::DragOfDressing { .. })
        };
        let assumed = self.assumed();
        assumed.iter().find(is_drag).map(|one| self.assumed_words(one))
    }

    /// What is missing, in words.
    pub fn words_of(&self, missing: &Missing) -> MissingWords {
        let words = self.what(missing);
        if let (Unsaid::DriftOfLighter, Of::Thing(thing)) = (missing.what, missing.of) {
            let name = self.rig.name_of(thing);
            return MissingWords::plain(format!("{words}: {name} is lighter than water"));
        }
        match missing.of {
            Of::Rig | Of::Thing(Thing::Rig) => words,
            Of::Thing(thing) => match self.part_named(thing) {
                Some(part) => MissingWords {
                    part: Some(part),
                    by_role: !matches!(thing, Thing::Fly(_)),
                    ..words
                },
                None => words.of_the(thing.kind().word()),
            },
            Of::Float => words.of_the("float"),
            Of::Block(id) => {
                let head = self.world.project.block(id).head();
                let kind = head.map_or("", |head| head.kind.word());
                words.of_the(&format!("{kind} `{}`", self.world.name(id)))
            }
        }
    }

    /// What a part is called where something of it is missing, where it has a name.
    fn part_named(&self, thing: Thing) -> Option<String> {
        let chain = &self.rig.chain;
        match thing {
            Thing::Section(id) => Some(chain.section_name(id)),
            Thing::Join(id) => Some(chain.join_name(id)),
            Thing::Dropper(id) => Some(chain.dropper_name(id)),
            Thing::Gap(id) => Some(chain.gap_name(id)),
            Thing::Fly(id) => Some(chain.fly(id).tied.name.clone()),
            Thing::Rig | Thing::Shot(_) | Thing::Rod | Thing::Water => None,
        }
    }

    fn what(&self, missing: &Missing) -> MissingWords {
        let the = |what: &str| MissingWords::the(what);
        let plain = |what: &str| MissingWords::plain(what);
        match (missing.what, missing.what.words()) {
            (Unsaid::HookMass, _) => the(&format!(
                "mass of a hook #{}, and so that",
                self.hook_of(missing.of)
            )),
            (Unsaid::SinkOfLighter, _) => plain("a sink").behind(", which is lighter than water"),
            (Unsaid::Ride, _) => plain("a ride").behind(", which is not under water"),
            (_, Some((true, words))) => the(words),
            (_, Some((false, words))) => plain(words),
            (Unsaid::Line(row), None) => the(&format!("`{}`", row.key)),
            (Unsaid::Words(measure), None) => the(measure),
            (Unsaid::Which(noun), None) => plain(&format!("which {} is meant", noun.word())),
            (Unsaid::None(noun), None) => plain(&format!("a {}", noun.word())),
            (Unsaid::LessLine(least), None) => {
                let least = self.written(&Value::plain(least.si, least.dimension));
                plain(&format!(
                    "less line under water: from {least} on the point lies on the bed"
                ))
            }
            (Unsaid::Tackle(none), None) => plain(&none.to_string()),
            // All others have words.
            (_, None) => plain("something"),
        }
    }

    fn hook_of(&self, of: Of) -> &str {
        let Of::Thing(Thing::Fly(id)) = of else { return "" };
        let hook = self.rig.chain.fly(id).tied.fly.hook.as_ref();
        hook.map_or("", |hook| &hook.written)
    }

    /// What was assumed, in words.
    fn assumed_words(&self, assumed: &Assumed) -> AssumedWords {
        let name = match assumed.of {
            Of::Thing(thing) => self.part_named(thing).unwrap_or_default(),
            Of::Block(id) => self.world.name(id).to_owned(),
            Of::Rig | Of::Float => String::new(),
        };
        let knot = match assumed.what {
            Usual::Knot(_) => Some(name.clone()),
            Usual::EyeKnots(Eyes::Ring) => Some(format!("of the ring, {name}")),
            Usual::EyeKnots(Eyes::Swivel) => Some(format!("of the swivel, {name}")),
            Usual::FlyKnot(_) => Some(format!("of {name}")),
            Usual::Bends
            | Usual::Fish
            | Usual::Hook
            | Usual::Dressing
            | Usual::Label
            | Usual::Cast
            | Usual::Temperature
            | Usual::Grain
            | Usual::Afloat
            | Usual::Material
            | Usual::Tip
            | Usual::Stands
            | Usual::LineDensity
            | Usual::Sag
            | Usual::Drag
            | Usual::DragOfDressing { .. }
            | Usual::OffBed
            | Usual::Run
            | Usual::Strength => None,
        };
        AssumedWords {
            what: about(assumed.what, &name, knot.as_deref()),
            knot,
            value: self.taken(&assumed.value),
            why: why(assumed.what),
        }
    }

    /// A figure that was taken; a length in the units of the rig, to half an inch where those are inches.
    fn figure(&self, quantity: Quantity) -> String {
        const HALF_INCH: f64 = 0.0127;
        // What is shorter is a stone, which people of both units measure in centimetres.
        const SHORT: f64 = 0.05;
        let is_length = quantity.dimension == Dimension::LENGTH && quantity.si > SHORT;
        match self.system() {
            System::Imperial if is_length => {
                let si = (quantity.si / HALF_INCH).round() * HALF_INCH;
                snell_units::write(Quantity { si, ..quantity }, System::Imperial)
            }
            System::Imperial | System::Metric => snell_units::write(quantity, System::Metric),
        }
    }

    fn taken(&self, taken: &Taken) -> String {
        match taken {
            Taken::Block(id) => self.world.name(*id).to_owned(),
            Taken::Figure(quantity) => self.figure(*quantity),
            Taken::Share(share) => format!("{} %", (share * 100.0).round()),
            Taken::Times(factor) => format!("{factor:.2} times what its parts come to"),
            Taken::Hook(size) => format!("#{size}"),
            Taken::FittedTo(timed) => format!("fitted to {} in still water", timed.written()),
            Taken::Cast(cast) => cast.word().to_owned(),
            Taken::Stands(stands) => stands.word().to_owned(),
            Taken::Afloat => "afloat".to_owned(),
        }
    }
}

fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    all.fold(Vec::new(), |mut kept, one| {
        if !kept.contains(&one) {
            kept.push(one);
        }
        kept
    })
}

fn about(what: Usual, name: &str, knot: Option<&str>) -> String {
    let knot = knot.unwrap_or_default();
    let told = match what {
        Usual::Knot(_) | Usual::FlyKnot(_) => return format!("the knot {knot}"),
        Usual::EyeKnots(Eyes::Ring | Eyes::Swivel) => return format!("the knots {knot}"),
        Usual::Hook => return format!("the hook of {name}"),
        Usual::Dressing => return format!("how {name} is dressed"),
        Usual::Afloat => return format!("how {name} rides"),
        Usual::Material => return format!("what the {name} is made of"),
        Usual::Drag | Usual::DragOfDressing { .. } => return format!("the drag of {name}"),
        Usual::Strength => return format!("what {name} line bears wet where no label says it"),
        Usual::Bends => "the mass that the rod bends under",
        Usual::Fish => "the fish of the sudden run",
        Usual::Label => "what an untested label is worth",
        Usual::Cast => "how the flies are laid on the water",
        Usual::Temperature => "the water's temperature",
        Usual::Grain => "the grain of the bed",
        Usual::Tip => "the height of the rod tip",
        Usual::Stands => "where the rod tip is, seen from the flies",
        Usual::LineDensity => "the density of the line",
        Usual::Sag => "the sag that is let pass",
        Usual::OffBed => "how high off the bed the point is to ride",
        Usual::Run => "how long the run is",
    };
    told.to_owned()
}

fn why(what: Usual) -> Cow<'static, str> {
    let told = match what {
        Usual::DragOfDressing { flies, known_to } => {
            return format!(
                "as {flies} timed flies that are dressed alike have it; known to a factor of {known_to:.2}, and to {DRAG_KNOWN_TO} without them"
            )
            .into();
        }
        Usual::Knot(knot) | Usual::FlyKnot(knot) => match knot {
            UsualKnot::LineToLeader => "usual where a line meets its leader",
            UsualKnot::WithDropper => "usual where a tag is left for a dropper",
            UsualKnot::NearSizes => "usual between pieces of nearly one size",
            UsualKnot::UnlikeSizes => "usual between pieces of unlike size",
            UsualKnot::AtAnEye => AT_AN_EYE,
            UsualKnot::OnAStreamer => "usual on a streamer, which swims better in a loop",
        },
        Usual::EyeKnots(Eyes::Ring | Eyes::Swivel) => AT_AN_EYE,
        Usual::Bends => {
            "usual for a soft nymph rod of its line weight, from memory; a casting rod takes a fifth to two fifths more"
        }
        Usual::Fish => "a round figure to compare rigs by",
        Usual::Hook => "what its bead goes on",
        Usual::Dressing => "usual for a nymph",
        Usual::Label => "common practice; test a spool wet to know",
        Usual::Cast => "flies first and slack above them, as for a nymph that is to sink",
        Usual::Temperature => "usual for a trout stream",
        Usual::Grain => "the bed is not said; gravel is the middle of them",
        Usual::Afloat => "its method has it there, and nothing weights it",
        Usual::Material => "for its weight, which hardly counts in water",
        Usual::Tip => "the rod held level",
        Usual::Stands => {
            "not said; a leader that hangs from upstream leaves the flies higher than one from downstream"
        }
        Usual::LineDensity => "not said; such lines are about as heavy as water",
        Usual::Sag | Usual::OffBed => "common practice",
        Usual::Strength => "usual for its material by its thickness, to within a quarter",
        Usual::Run => "our own choice, a short one; the water's `run` says another",
        Usual::Drag => "it was timed",
    };
    Cow::Borrowed(told)
}

const AT_AN_EYE: &str = "usual at an eye";
