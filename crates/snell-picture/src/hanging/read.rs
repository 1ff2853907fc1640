//! Reads of an evaluated rig what its picture shows.

use super::subject::{Eyes, FlyKind, Hung, HungFly, Joint, OnLine, OnLineKind, Piece};
use crate::colours;
use snell_rig::evaluation::{JoinKind, Sits};
use snell_rig::keywords::{SectionRole, Take};
use snell_rig::measure::{self, Kind, Thing};
use snell_rig::rig::{FlyAt, Part, PartId, Section};
use snell_rig::thing::{FlyId, JoinId, SectionId};
use snell_rig::value::Value;
use snell_rig::{BlockId, Evaluation};
use snell_units::System;

/// Asks an evaluation.
struct Reader<'r, 'w, 'p> {
    evaluation: &'r Evaluation<'w, 'p>,
    written: &'r dyn Fn(&Value) -> String,
}

impl Hung {
    /// Reads what is shown of a rig.
    pub(super) fn read(
        evaluation: &Evaluation<'_, '_>,
        written: &dyn Fn(&Value) -> String,
        system: System,
    ) -> Option<Self> {
        let chain = &evaluation.rig.chain;
        chain.sections().next()?;
        let reader = Reader { evaluation, written };
        let mut hung = Self {
            name: evaluation.rig.name.clone(),
            title: evaluation.rig.title().map(str::to_owned),
            sums: reader.sums(),
            system,
            pieces: Vec::new(),
            joins: chain.joins().map(|id| reader.joint(id)).collect(),
            flies: Vec::new(),
            on_line: Vec::new(),
        };
        for (id, part) in chain.parts() {
            match id {
                PartId::Section(id) => hung.pieces.push(reader.piece(id)),
                PartId::Dropper(id) => hung.flies.push(reader.fly(chain.dropper(id).fly)),
                PartId::Inline(id) | PartId::Point(id) => hung.flies.push(reader.fly(id)),
                PartId::Shot(id) => {
                    let to_point = evaluation.shot_above_point(id).ok();
                    let sits = evaluation.shot_sits(id).ok().zip(to_point);
                    hung.on_line
                        .push(reader.on_line(OnLineKind::Shot, part, sits, hung.pieces.len()));
                }
                PartId::Float(id) => {
                    let to_point = evaluation.float_above_point(id).ok();
                    let sits = evaluation.float_sits(id).ok().zip(to_point);
                    hung.on_line
                        .push(reader.on_line(OnLineKind::Float, part, sits, hung.pieces.len()));
                }
                // What joins two pieces is read with their join.
                PartId::Knot(_) | PartId::Ring(_) | PartId::Swivel(_) => {}
            }
        }
        Some(hung)
    }
}

impl Reader<'_, '_, '_> {
    fn value(&self, kind: Kind, thing: Thing, name: &str) -> Option<Value> {
        let measure = measure::of(kind, name)?;
        self.evaluation.measure(measure, thing).ok()
    }

    /// A shot or a float: where it sits with its height over the point, or else behind so many pieces.
    fn on_line(
        &self,
        kind: OnLineKind,
        part: &Part<'_>,
        sits: Option<(Sits, Value)>,
        behind: usize,
    ) -> OnLine {
        let own = part.given.all(None, Take::Colour);
        let own: Vec<&str> = own.map(|fit| fit.line.written(fit.expr.span)).collect();
        let (above, share, to_point) = match sits {
            None => (behind, 1.0, None),
            Some((Sits { piece, below: None }, _)) => (piece.number(), 1.0, None),
            Some((
                Sits {
                    piece,
                    below: Some(below),
                },
                height,
            )) => {
                let whole = self.evaluation.section_length(piece);
                let share = whole.map_or(1.0, |whole| 1.0 - below / whole.si());
                (piece.number() + 1, share, Some((self.written)(&height)))
            }
        };
        OnLine {
            kind,
            colour: colours::of_words(&own).first().copied(),
            what: part.given.written_values(),
            above,
            share,
            to_point,
        }
    }

    fn sums(&self) -> Vec<String> {
        let told = |name: &str| {
            let value = self.value(Kind::Rig, Thing::Rig, name)?;
            Some(format!("{name} {}", (self.written)(&value)))
        };
        ["total", "sighter", "tippet"]
            .into_iter()
            .filter_map(told)
            .collect()
    }

    fn piece(&self, id: SectionId) -> Piece {
        let evaluation = self.evaluation;
        let section = evaluation.rig.chain.section(id);
        let length = evaluation.section_length(id).ok();
        let of_leader = length.as_ref().filter(|_| section.role != SectionRole::Line);
        let diameter = self.value(Kind::Section, Thing::Section(id), "diameter");
        Piece {
            name: evaluation.rig.chain.section_name(id),
            metres: of_leader.map(Value::si).filter(|metres| metres.is_finite()),
            length: length.map(|length| (self.written)(&length)),
            what: self.what(id, section, diameter.as_ref()),
            ends: ends(section, diameter.as_ref()),
            colours: colours::of_words(&section.stuff.colours),
            is_sighter: section.role == SectionRole::Sighter,
            to_point: self
                .value(Kind::Section, Thing::Section(id), "to-point")
                .map(|value| (self.written)(&value)),
        }
    }

    /// What a piece is made of: as its line says, and what its spool says besides.
    fn what(&self, id: SectionId, section: Section<'_, '_>, diameter: Option<&Value>) -> String {
        let stuff = section.stuff;
        let mut said = section.part.written_stuff();
        let mut add = |text: &str| {
            if !text.is_empty() && !said.contains(text) {
                if !said.is_empty() {
                    said.push_str(", ");
                }
                said.push_str(text);
            }
        };
        if stuff.spool.is_some() {
            let material = stuff.material.map(|id| self.evaluation.world.name(id));
            let words = stuff.colours.iter().copied().chain(material);
            add(&words.collect::<Vec<_>>().join(" "));
        }
        let tapered =
            matches!(stuff.size, Some(snell_rig::blocks::LineSize::Tapered(..))) && stuff.measured.is_none();
        if let Some(diameter) = diameter.filter(|_| !tapered || stuff.spool.is_some()) {
            // `0.20 mm` says all that `0.2 mm` does.
            let told = (self.written)(diameter);
            if !says_figure(&section.part.written_stuff(), &told) {
                add(&told);
            }
        }
        if let Some(rated) = self.value(Kind::Section, Thing::Section(id), "rated") {
            add(&(self.written)(&rated));
        }
        said
    }

    fn joint(&self, id: JoinId) -> Joint {
        let evaluation = self.evaluation;
        let join = evaluation.rig.chain.join(id);
        let kind = evaluation.join_kind(id);
        let name = |id: BlockId| evaluation.world.name(id).to_owned();
        // Where a fly sits on the line, the lines are tied to the fly.
        let of_fly = join.inline.is_some() && join.knot.is_none() && join.ring.is_none();
        let of_fly = of_fly && join.swivel.is_none();
        let written = |fit: snell_rig::fit::Fit<'_>| fit.line.written(fit.expr.span).to_owned();
        let ring = join
            .ring
            .map(|ring| Eyes::Ring(ring.size.map(written).unwrap_or_default()));
        let swivel = join
            .swivel
            .map(|swivel| Eyes::Swivel(swivel.size.map(written).unwrap_or_default()));
        Joint {
            name: match kind.filter(|_| !of_fly) {
                Some(JoinKind::Knot(id) | JoinKind::Ring(id) | JoinKind::Swivel(id)) => name(id),
                Some(JoinKind::Through) | None => String::new(),
            },
            eyes: ring.or(swivel),
            named: join.knot.is_some(),
            through: kind == Some(JoinKind::Through),
            stubs: join
                .tags
                .and_then(|fit| evaluation.value(fit).ok())
                .map(|value| value.si()),
        }
    }

    fn fly(&self, id: FlyId) -> HungFly {
        let evaluation = self.evaluation;
        let on = evaluation.rig.chain.fly(id);
        let tied = on.tied;
        let tag = match on.at {
            FlyAt::Dropper(dropper) => evaluation.dropper_length(dropper).ok(),
            FlyAt::Inline | FlyAt::Point => None,
        };
        let (name, title) = match tied
            .block
            .and_then(|id| evaluation.world.project.block(id).title())
        {
            Some(title) if title.starts_with(tied.name.as_str()) => {
                // `mote, the small plain one`: what follows the name is for the table.
                let short = title.split_once(", ").map_or(title, |(short, _)| short);
                (short.to_owned(), None)
            }
            Some(title) => (tied.name.clone(), Some(title.to_owned())),
            None => (tied.name.clone(), None),
        };
        let kind = match tied.fly.bead {
            _ if evaluation.rig.rides_afloat(id) => FlyKind::Floating,
            Some(_) => FlyKind::Beaded,
            None => FlyKind::Plain,
        };
        let made = tied.block.map(|_| self.makings(id)).unwrap_or_default();
        let what: Vec<String> = title
            .into_iter()
            .chain((!made.is_empty()).then_some(made))
            .collect();
        HungFly {
            name,
            what: what.join(", "),
            at: on.at,
            above: on.place.number(),
            tag: tag.as_ref().map(Value::si),
            tag_length: tag.map(|tag| (self.written)(&tag)),
            kind,
        }
    }

    /// Hook and bead of a fly that has a block of its own.
    fn makings(&self, id: FlyId) -> String {
        let fly = &self.evaluation.rig.chain.fly(id).tied.fly;
        let hook = fly.hook.as_ref().map(|hook| format!("#{}", hook.written));
        let bead = fly.bead.as_ref().and_then(|bead| {
            let size = (self.written)(bead.size.as_ref().ok()?);
            let material = bead.material.map(|id| self.evaluation.world.name(id));
            Some(material.map_or_else(|| size.clone(), |material| format!("{size} {material}")))
        });
        hook.into_iter().chain(bead).collect::<Vec<_>>().join(", ")
    }
}

/// Whether a text holds a figure with its unit, trailing noughts aside.
fn says_figure(text: &str, figure: &str) -> bool {
    let Some((number, unit)) = figure.split_once(' ') else {
        return text.contains(figure);
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).any(|pair| {
        pair[1].trim_end_matches(',') == unit
            && pair[0]
                .parse::<f64>()
                .ok()
                .zip(number.parse::<f64>().ok())
                .is_some_and(|(one, other)| one == other)
    })
}

/// The diameters of a piece's upper and lower end; of a level piece both are its own.
fn ends(section: Section<'_, '_>, diameter: Option<&Value>) -> Option<(f64, f64)> {
    let diameter = diameter?;
    if let (Some(snell_rig::blocks::LineSize::Tapered(Ok(upper), Ok(lower))), None) =
        (&section.stuff.size, &section.stuff.measured)
    {
        return Some((upper.si(), lower.si()));
    }
    Some((diameter.si(), diameter.si()))
}
