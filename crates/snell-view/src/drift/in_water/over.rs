//! What is over the water: what floats, or the line up to the rod with its
//! sighter, and the flies that are tied too high to go under.

use crate::drift::teller::Teller;
use crate::need::told_needs;
use snell_picture::colours;
use snell_picture::drifting::{Afloat, Air, Dry, Led, Over, Piece};
use snell_picture::scene::MarkKind;
use snell_rig::fit::Fit;
use snell_rig::keywords::{SectionRole, Take};
use snell_rig::measure::{self, Carrier, Drifting, Thing};

impl<'p> Teller<'_, '_, 'p> {
    /// What hangs higher up the line than the surface.
    fn dry(&self, state: &Drifting) -> Vec<Dry> {
        let hung = state.rig.tackle.hung().iter().zip(state.things.iter().skip(1));
        let higher = hung.skip(state.drift.rides.len().saturating_sub(1));
        let dry = higher.map(|(hung, thing)| Dry {
            name: self.name(*thing),
            kind: self.kind(*thing),
            up: (hung.above_point - state.drift.submerged).value,
        });
        dry.collect()
    }

    pub(super) fn over(&self, state: &Drifting) -> Over {
        let chain = &self.evaluation.rig.chain;
        match measure::carried_by(self.evaluation) {
            None => Over::Led(self.led(state)),
            Some(Carrier::Float(id)) => {
                let own = chain.float(id).part.given.all(None, Take::Colour);
                let own: Vec<&str> = own.map(|fit| fit.line.written(fit.expr.span)).collect();
                Over::Afloat(Afloat {
                    name: "float".to_owned(),
                    kind: MarkKind::Float,
                    colour: colours::of_words(&own).first().copied(),
                })
            }
            Some(Carrier::Fly(id)) => Over::Afloat(Afloat {
                name: chain.fly_name(id),
                kind: MarkKind::FloatingFly,
                colour: None,
            }),
        }
    }

    fn led(&self, state: &Drifting) -> Led {
        let air = self.air();
        let sighter = self
            .measured("sighter-out", Thing::Rig)
            .map(|clear| match clear.value {
                Some(value) if value > 0.0 => format!("{} over the water", clear.told()),
                _ => "down to the water".to_owned(),
            });
        Led {
            pieces: self.pieces(state, air.is_ok()),
            dry: self.dry(state),
            sighter,
            air,
        }
    }

    fn air(&self) -> Result<Air, String> {
        let hanging = measure::hanging(self.evaluation).map_err(|lack| {
            if self.evaluation.rig.settings.reach.is_none() {
                "its reach is not said".to_owned()
            } else {
                format!(
                    "not drawn, for want of {}",
                    told_needs(self.evaluation, &lack).join(", ")
                )
            }
        })?;
        // Drawn to one side whichever the tip is on: which one that is stands beside it.
        let curve = hanging.shape.points.iter();
        let curve = curve
            .map(|[along, _, over]| (along.value.abs(), over.value))
            .collect();
        let side = hanging.stands.word();
        let settings = &self.evaluation.rig.settings;
        let told = |said: Option<Fit<'p>>, si| {
            let said = said.and_then(|fit| self.evaluation.value(fit).ok());
            said.map_or_else(|| self.coarse(si).text, |said| self.written(&said).text)
        };
        let tip = told(settings.tip, hanging.tip);
        let reach = told(settings.reach, hanging.reach);
        Ok(Air {
            curve,
            tip: format!("{tip} up, reach {reach}, {side} of the flies"),
            sag: self
                .measured("sag", Thing::Rig)
                .map_or_else(String::new, |sag| sag.told()),
        })
    }

    /// The line over the surface, from there up: all that is known of it, or up to the sighter's upper end.
    fn pieces(&self, state: &Drifting, whole: bool) -> Vec<Piece> {
        let chain = &self.evaluation.rig.chain;
        let first = chain
            .sections()
            .find(|(_, section)| section.role == SectionRole::Sighter);
        let last = first.map(|(id, _)| id).filter(|_| !whole);
        let mut pieces = Vec::new();
        let mut from = -state.drift.submerged.value;
        for (id, section) in chain.sections().rev() {
            if last.is_some_and(|last| id < last) {
                break;
            }
            // The line goes on to the rod, however long it is.
            let length = match self.evaluation.section_length(id) {
                Ok(length) => length.si(),
                Err(_) if whole => f64::INFINITY,
                Err(_) => break,
            };
            if !whole && section.role == SectionRole::Line {
                break;
            }
            let to = from + length;
            if to > 0.0 {
                pieces.push(Piece {
                    name: chain.section_name(id),
                    reach: (from.max(0.0), to),
                    colours: colours::of_words(&section.stuff.colours),
                    sighter: section.role == SectionRole::Sighter,
                });
            }
            from = to;
        }
        pieces
    }
}
