//! Rigs in their water as pictures: the figures of each drift, put in the
//! picture's terms. A rig whose drift is not found is told as such over the
//! water that it was to drift in.

mod over;

use crate::drawn::{Drawn, each};
use crate::drift::shown::ShownRide;
use crate::drift::teller::Teller;
use crate::need::told_needs;
use crate::written::{Units, Written};
use snell_analysis::Notebook;
use snell_picture::drifting::{self, Bed, BedEnd, Drifted, Over, Ride, Riding, Rigged, Unridden, Water};
use snell_picture::{Medium, Scene};
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Drifting, Kind, Thing};
use snell_units::Dimension;

/// The bed that is no stone.
const WEED: &str = "weed";
/// Grain below this is told as it is, in metres; above it, as coarsely as it is known.
const FINE: f64 = 0.02;
/// Heights at which the water's speed is drawn.
const PROFILE: usize = 40;

/// The picture in its water of every rig of a notebook that `wanted` picks by its name and file, in order.
pub fn draw_in_water(
    notebook: &Notebook,
    units: Units,
    medium: Medium,
    wanted: &dyn Fn(&str, &str) -> bool,
) -> Vec<Drawn> {
    each(notebook, wanted, |evaluation| {
        let teller = Teller { evaluation, units };
        match teller.in_water() {
            Ok((drifted, left_out)) => (drawn_from(&drifted, medium), left_out),
            Err(lack) => {
                let why = format!(
                    "no picture in the water without {}",
                    told_needs(evaluation, &lack).join(", ")
                );
                (Err(why), None)
            }
        }
    })
}

fn drawn_from(drifted: &Drifted, medium: Medium) -> Result<Scene, String> {
    drifting::scene(drifted, medium).ok_or_else(|| "no picture in water without a depth".to_owned())
}

impl Teller<'_, '_, '_> {
    /// What is drawn, and what is left out of it.
    fn in_water(&self) -> Result<(Drifted, Option<String>), Lack> {
        let evaluation = self.evaluation;
        let water = self.water()?;
        let mut told = vec![self.water_told(water.depth)];
        let (rig, left_out) = match measure::drifting(evaluation) {
            Ok(state) => {
                let riding = self.riding(&state);
                told.extend(self.drift_told(&state, &riding));
                (Rigged::Rides(Box::new(riding)), None)
            }
            Err(lack) => {
                let why = told_needs(evaluation, &lack).join(", ");
                let drawn = "The rig is drawn dashed and straight down: how it rides is unknown";
                told.push(format!("{drawn}, for want of {why}."));
                let left_out = format!("how the rig rides is unknown, for want of {why}");
                (Rigged::Unknown(self.unridden()), Some(left_out))
            }
        };
        let about = about(&told, &rig);
        let drifted = Drifted {
            name: evaluation.rig.name.clone(),
            title: evaluation.rig.title().map(str::to_owned),
            told,
            system: self.system(),
            water,
            rig,
            about,
        };
        Ok((drifted, left_out))
    }

    fn water(&self) -> Result<Water, Lack> {
        let stream = measure::stream(self.evaluation)?;
        let grain = measure::bed_grain(self.evaluation)?;
        let at = |step: usize| {
            // Close together at the bed, where the speed changes most.
            let height = stream.depth() * (step as f64 / PROFILE as f64).powi(2);
            (height.value, stream.profile.at(height).value)
        };
        Ok(Water {
            depth: stream.depth().value,
            ends: self.ends(),
            profile: (0..=PROFILE).map(at).collect(),
            surface: self.speed(stream.profile.surface().value).text,
            bed: if self.bed_name() == Some(WEED) {
                Bed::Weed(grain)
            } else {
                Bed::Stones(grain)
            },
        })
    }

    /// The bed at the ends of a depth that is told as a spread.
    fn ends(&self) -> Option<[BedEnd; 2]> {
        let water = self.evaluation.rig.settings.water.as_ref()?;
        let depth = water.value.depth.as_ref().ok()?;
        let end = |(metres, which): (f64, &str)| {
            let at = self.written(&depth.clone().at(metres));
            BedEnd {
                depth: metres,
                told: format!("{}: the bed at the {which} end", at.text),
            }
        };
        (depth.low() < depth.high()).then(|| [(depth.low(), "shallow"), (depth.high(), "deep")].map(end))
    }

    /// What hangs on a rig of which nobody knows how it rides, the point first.
    fn unridden(&self) -> Vec<Unridden> {
        let rig = self.evaluation.rig;
        let sunk = rig.chain.flies().rev().filter(|(id, _)| !rig.rides_afloat(*id));
        let measure = measure::of(Kind::Section, "to-point");
        let flies = sunk.map(|(id, fly)| {
            let above = fly.place.number().checked_sub(1);
            let above = above.and_then(|above| rig.chain.sections().nth(above));
            let up = measure.zip(above).and_then(|(measure, (section, _))| {
                self.evaluation.measure(measure, Thing::Section(section)).ok()
            });
            Unridden {
                name: rig.chain.fly_name(id),
                kind: self.kind(Thing::Fly(id)),
                up_the_line: up.map(|up| up.si()),
            }
        });
        flies.collect()
    }

    fn bed_name(&self) -> Option<&str> {
        let water = self.evaluation.rig.settings.water.as_ref()?;
        water.value.bed.map(|bed| self.evaluation.world.name(bed))
    }

    fn water_told(&self, drawn: f64) -> String {
        let said = self.evaluation.rig.settings.water.as_ref();
        let depth = said.and_then(|water| water.value.depth.as_ref().ok());
        let mut told = depth.map_or_else(String::new, |depth| format!("{} deep", self.written(depth).text));
        if let Some(depth) = depth.filter(|depth| depth.low() < depth.high()) {
            let middle = self.written(&depth.clone().with(drawn, Dimension::LENGTH)).text;
            told.push_str(&format!(" (drawn at {})", middle));
        }
        let grain = measure::bed_grain(self.evaluation).unwrap_or_default();
        let grain = if grain < FINE {
            self.plain(grain, Dimension::LENGTH).text
        } else {
            self.coarse(grain).text
        };
        let unsaid = said.is_none_or(|water| water.value.grain.is_none());
        let bed = match self.bed_name() {
            Some(WEED) => format!("{WEED} of {grain}"),
            Some(name) => format!("{name} of {grain}"),
            None if unsaid => format!("gravel of {grain}, as nothing is said"),
            None => format!("stones of {grain}"),
        };
        format!("{told}, over {bed}.")
    }

    fn drift_told(&self, state: &Drifting, riding: &Riding) -> Vec<String> {
        let under = self.coarse(state.drift.submerged.value).text;
        let mut told = vec![format!(
            "The rig goes at {} with {under} of line under water.",
            riding.drifts
        )];
        if let Some(needed) = state.needed.filter(|needed| *needed > state.line.si()) {
            let short = needed - state.line.si();
            // Of a line that streams out, no length says anything.
            let short = if short < state.line.si() {
                self.coarse(short).text
            } else {
                "far".to_owned()
            };
            told.push(format!(
                "The line is {short} too short for the point to ride as low as it should."
            ));
        }
        told.push("All of it is an estimate: each fly may ride anywhere along its bar.".to_owned());
        told
    }

    fn riding(&self, state: &Drifting) -> Riding {
        let rides = self.rides(state);
        let flies = rides.iter().enumerate();
        let flies = flies.map(|(index, ride)| self.ride(state, index, ride)).collect();
        Riding {
            speed: state.drift.speed.value,
            drifts: self.speed(state.drift.speed.value).text,
            line: self.line(state),
            submerged: state.drift.submerged.value,
            flies,
            over: self.over(state),
        }
    }

    fn ride(&self, state: &Drifting, index: usize, ride: &ShownRide) -> Ride {
        let tied = index
            .checked_sub(1)
            .and_then(|hung| state.rig.tackle.hung().get(hung));
        let figure = |written: &Written| written.value.unwrap_or_default();
        Ride {
            name: ride.name.clone(),
            kind: ride.kind,
            at: (figure(&ride.ahead), figure(&ride.rides)),
            up_the_line: tied.map_or(0.0, |hung| hung.above_point.value),
            between: ride.between,
            rides: ride.rides.text.clone(),
            may_be: ride.may_be(),
            off_bed: ride.off_bed.text.clone(),
            against: format!(
                "{} {}",
                ride.lag.text,
                if ride.slower { "slower" } else { "faster" }
            ),
        }
    }
}

/// What the picture shows in words.
fn about(told: &[String], rig: &Rigged) -> String {
    let mut said = told.to_vec();
    let riding = match rig {
        Rigged::Rides(riding) => riding,
        Rigged::Unknown(flies) => {
            said.extend(
                flies
                    .iter()
                    .map(|fly| format!("{} rides at an unknown depth.", fly.name)),
            );
            return said.join(" ");
        }
    };
    said.push("The stream runs from left to right.".to_owned());
    for fly in &riding.flies {
        said.push(format!(
            "{} rides {} deep ({}), {} off the bed, {} than its water.",
            fly.name, fly.rides, fly.may_be, fly.off_bed, fly.against
        ));
    }
    match &riding.over {
        Over::Afloat(afloat) => said.push(format!("The rig hangs from {}.", afloat.name)),
        Over::Led(led) => {
            let dry = led.dry.iter();
            said.extend(dry.map(|dry| format!("{} is tied over the water.", dry.name)));
            if let Some(sighter) = &led.sighter {
                said.push(format!("The sighter begins {sighter}."));
            }
            match &led.air {
                Ok(air) => said.push(format!("The rod tip is {}; the line sags {}.", air.tip, air.sag)),
                Err(why) => said.push(format!("The line in the air: {why}.")),
            }
        }
    }
    said.join(" ")
}
