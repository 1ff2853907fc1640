//! Parts laid out one by one, from the reel to the point; what has no place is
//! a fault.

use super::chain::Chain;
use super::part::{Part, Tied, What, WrittenPart, written};
use super::seat::Seat;
use super::stuff::Stuff;
use crate::blocks::{Essentials, named};
use crate::faults::Faults;
use crate::fit::{Fit, Given};
use crate::keywords::{Joined, PartKind, SectionRole, SitsOver, Take};
use crate::project::BlockId;
use crate::world::World;
use snell_finding::{Code, Finding, Level, Limit};
use snell_syntax::{BlockKind, Joint};
use snell_text::Place;

/// How many parts a rig may have.
const MOST_PARTS: usize = Limit::Parts.count();

/// Lays parts out from the reel down. `has_unknown` says whether a line that none knows may be one of them.
pub(crate) fn lay_out<'p>(
    world: &World<'p>,
    faults: &Faults,
    mut parts: Vec<WrittenPart<'p>>,
    has_unknown: bool,
    broken: &mut bool,
) -> Chain<'p> {
    if let Some(beyond) = parts.get(MOST_PARTS) {
        let message =
            format!("this rig has more than {MOST_PARTS} parts; from here on they are not laid out");
        let finding = Finding::fault(Code::RigOverfull, beyond.given.line.whole(), message);
        faults.report(finding.help("leave out what no line needs, or make two rigs of it"));
        parts.truncate(MOST_PARTS);
        *broken = true;
    }
    let mut builder = Builder {
        world,
        faults,
        parts: Vec::with_capacity(parts.len()),
        open: Open::default(),
        has_line: false,
        pieces_left: parts.iter().filter(|part| part.kind.role().is_some()).count(),
        point: None,
        holes: *broken || has_unknown,
        broken: *broken,
    };
    for part in parts {
        builder.take(part);
    }
    builder.end();
    *broken |= builder.broken;
    Chain::new(builder.parts)
}

/// The join below the last piece of line, until the next piece closes it.
#[derive(Default)]
struct Open {
    /// Where its parts stand that need a piece below them, and what to say if none comes.
    waiting: Vec<(Place, &'static str)>,
    knot: Option<Place>,
    ring: Option<Place>,
    swivel: Option<Place>,
    dropper: Option<Place>,
}

struct Builder<'a, 'p> {
    world: &'a World<'p>,
    faults: &'a Faults,
    parts: Vec<Part<'p>>,
    open: Open,
    has_line: bool,
    /// How many pieces of line are still to come: a fly with none below it is the point.
    pieces_left: usize,
    point: Option<Place>,
    /// Whether a part could not be read at all.
    holes: bool,
    broken: bool,
}

/// Whether a part can only lie where two pieces of line meet.
const fn needs_join(what: &What<'_>) -> bool {
    match what {
        What::Knot { .. } | What::Ring { .. } | What::Swivel { .. } | What::Dropper { .. } => true,
        What::Section { .. } | What::Inline(_) | What::Point(_) | What::Shot { .. } | What::Float { .. } => {
            false
        }
    }
}

impl<'p> Builder<'_, 'p> {
    /// Where a part could not be read, what seems to be wrong around it may follow from that alone.
    fn fault(&mut self, finding: Finding) {
        if !self.holes {
            self.faults.report(finding);
        }
        self.broken = true;
    }

    fn take(&mut self, part: WrittenPart<'p>) {
        let seat = Seat::read(&part.given);
        if let Some(point) = self.point.filter(|_| seat.is_none()) {
            return self.after_point(&part, point);
        }
        let given = &part.given;
        self.needs_distance(given, seat.is_some());
        let kind = match part.kind {
            PartKind::Fly if self.pieces_left == 0 => PartKind::Point,
            PartKind::Fly => PartKind::Inline,
            kind => kind,
        };
        let what = match kind {
            PartKind::Line => self.section(SectionRole::Line, given),
            PartKind::Butt => self.section(SectionRole::Butt, given),
            PartKind::Leader => self.section(SectionRole::Leader, given),
            PartKind::Taper => self.section(SectionRole::Taper, given),
            PartKind::Sighter => self.section(SectionRole::Sighter, given),
            PartKind::Tippet => self.section(SectionRole::Tippet, given),
            PartKind::Knot => self.knot(&part),
            PartKind::Ring => self.ring(&part),
            PartKind::Swivel => self.swivel(&part),
            PartKind::Dropper => self.dropper(&part),
            PartKind::Inline => {
                self.on_line(&part, "a fly on the line has a piece of line above it", |own| {
                    What::Inline(own.tied(given, None))
                })
            }
            PartKind::Point | PartKind::Fly => {
                self.point = Some(given.line.whole());
                let told = "the point stands below the piece of line that it is tied to";
                self.on_line(&part, told, |own| What::Point(own.tied(given, None)))
            }
            PartKind::Shot => {
                if given.get(Take::Mass).is_none() {
                    self.ask_mass(given);
                }
                self.on_line(&part, SITS, |own| What::Shot {
                    mass: given.get(Take::Mass),
                    material: own.material(given),
                    seat,
                })
            }
            PartKind::Float => self.on_line(&part, SITS, |own| What::Float {
                size: given.get(Take::Diameter),
                material: own.material(given),
                seat,
            }),
        };
        let Some(what) = what else { return };
        let part = Part {
            given: part.given,
            target: part.target,
            what,
        };
        // What says how far over the flies it sits may stand below the point as well.
        let is_point = |last: &Part<'_>| matches!(last.what, What::Point(_));
        let under_point = seat.is_some() && self.parts.last().is_some_and(is_point);
        let at = self.parts.len() - usize::from(under_point);
        self.parts.insert(at, part);
    }

    /// `float over point`: how far, nobody knows.
    fn needs_distance(&mut self, given: &Given<'p>, has_distance: bool) {
        let over = given.within(Joint::Over, Take::Word(SitsOver::WORDS));
        if let Some(over) = over.filter(|_| !has_distance) {
            let message = format!("how far over `{}` is not said", over.line.written(over.expr.span));
            let finding = Finding::fault(Code::ValueMissing, over.place(), message);
            self.fault(finding.help("write it before: `at 4 ft over point`"));
        }
    }

    fn section(&mut self, role: SectionRole, given: &Given<'p>) -> Option<What<'p>> {
        self.open = Open::default();
        self.has_line = true;
        self.pieces_left -= 1;
        let stuff = Box::new(self.stuff(given));
        if role != SectionRole::Line && given.get(Take::PartLength).is_none() {
            self.ask_length(given, &format!("how long is this `{}`?", role.word()));
        }
        let on = given.within(Joint::On, Take::Name(BlockKind::Knot));
        let knot = self.named(on, BlockKind::Knot);
        Some(What::Section { role, stuff, knot })
    }

    fn stuff(&self, given: &Given<'p>) -> Stuff<'p> {
        let above = self.parts.iter().rev().find_map(|part| part.what.section());
        Stuff::read(self.world, self.faults, given, above.map(|(_, stuff)| stuff))
    }

    /// The rest of the rig is read all the same; what hangs on the length is unknown.
    fn ask_length(&self, given: &Given<'p>, message: &str) {
        let finding = Finding::new(Code::LengthUnsaid, Level::Caution, given.line.whole(), message);
        self.faults
            .report(finding.help("measure it, and write it first on its line"));
    }

    /// The same of how heavy a shot is.
    fn ask_mass(&self, given: &Given<'p>) {
        let message = "how heavy is this shot?";
        let finding = Finding::new(Code::MassUnsaid, Level::Caution, given.line.whole(), message);
        self.faults
            .report(finding.help("write its mass, or its number or letters: `shot 0.2 g`, `shot BB`"));
    }

    /// Whether there is line above; without it the part hangs on nothing.
    fn needs_above(&mut self, part: &WrittenPart<'p>, told: &str) -> bool {
        if !self.has_line {
            let message = format!("this {} has no line above it", part.kind.word());
            let finding = Finding::fault(Code::PartUnattached, part.given.line.whole(), message);
            self.fault(finding.help(told));
        }
        self.has_line
    }

    fn on_line(
        &mut self,
        part: &WrittenPart<'p>,
        told: &str,
        what: impl FnOnce(&Self) -> What<'p>,
    ) -> Option<What<'p>> {
        self.needs_above(part, told).then(|| what(self))
    }

    fn knot(&mut self, part: &WrittenPart<'p>) -> Option<What<'p>> {
        if !self.needs_above(part, "a knot stands between the two pieces that it joins") {
            return None;
        }
        let given = &part.given;
        let place = given.line.whole();
        if let Some(first) = self.open.knot {
            self.fault(twice(place, first, "knot"));
            return None;
        }
        self.open.waiting.push((
            place,
            "a knot stands between two pieces of line; the fly's own is written `point FLY on KNOT`",
        ));
        let knot = self.named(given.get(Take::Name(BlockKind::Knot)), BlockKind::Knot);
        self.open.knot = knot.map(|_| place);
        Some(What::Knot {
            knot,
            tags: given.within(Joint::With, Take::Length),
        })
    }

    fn ring(&mut self, part: &WrittenPart<'p>) -> Option<What<'p>> {
        if !self.needs_above(part, "a ring stands between the two pieces that it joins") {
            return None;
        }
        let place = part.given.line.whole();
        let first = self.open.swivel.map(|swivel| (swivel, "swivel"));
        if let Some((first, what)) = self.open.ring.map(|ring| (ring, "ring")).or(first) {
            self.fault(twice(place, first, what));
            return None;
        }
        self.open.waiting.push((
            place,
            "a ring stands between the two pieces of line that it joins",
        ));
        let size = part.given.get(Take::Diameter);
        self.open.ring = Some(place);
        Some(What::Ring { size })
    }

    fn swivel(&mut self, part: &WrittenPart<'p>) -> Option<What<'p>> {
        let told = "a swivel stands between the two pieces that it joins";
        if !self.needs_above(part, told) {
            return None;
        }
        let place = part.given.line.whole();
        let first = self.open.ring.map(|ring| (ring, "ring"));
        if let Some((first, what)) = self.open.swivel.map(|swivel| (swivel, "swivel")).or(first) {
            self.fault(twice(place, first, what));
            return None;
        }
        self.open.waiting.push((place, told));
        self.open.swivel = Some(place);
        Some(What::Swivel {
            size: part.given.get(Take::Diameter),
            mass: part.given.get(Take::Mass),
        })
    }

    fn dropper(&mut self, part: &WrittenPart<'p>) -> Option<What<'p>> {
        let told = "a dropper is a tag at a join, so a piece of line stands above and below it";
        if !self.needs_above(part, told) {
            return None;
        }
        let given = &part.given;
        let place = given.line.whole();
        if let Some(first) = self.open.dropper {
            let finding = Finding::fault(Code::KnotTwice, place, "this join has a dropper already");
            let finding = finding.label(first, "the first");
            self.fault(finding.help("put a piece of line between the two"));
            return None;
        }
        self.open.waiting.push((
            place,
            "a dropper is a tag at a join, so a piece of line stands below it",
        ));
        self.open.dropper = Some(place);
        if given.get(Take::PartLength).is_none() {
            self.ask_length(given, "how long is the tag that this fly hangs on?");
        }
        let own = given.has(Joint::Of);
        let mut tied = self.tied(given, Some(Joint::With));
        Some(What::Dropper {
            stuff: own.then(|| Box::new(self.stuff(given))),
            join: tied.knot.take_if(|knot| self.joins_lines(*knot)),
            tied,
        })
    }

    /// Whether a knot joins two lines and holds no fly: on a dropper's line it is that of the join which the tag is left
    /// from.
    fn joins_lines(&self, knot: BlockId) -> bool {
        let joins = self.world.read(knot).knot().map_or(&[][..], |knot| &knot.joins);
        joins.contains(&Joined::Lines) && !joins.contains(&Joined::Fly)
    }

    fn tied(&self, given: &Given<'p>, joint: Option<Joint>) -> Box<Tied<'p>> {
        let essentials = Essentials { given, joint };
        let block = essentials.block(&self.world.names);
        let fly = match block.and_then(|id| self.world.read(id).fly()) {
            Some(fly) => fly.clone(),
            None => essentials.fly(&self.world.names, self.faults),
        };
        let on = given.within(Joint::On, Take::Name(BlockKind::Knot));
        Box::new(Tied {
            block,
            fly,
            name: fly_name(given, joint),
            knot: self.named(on, BlockKind::Knot),
        })
    }

    fn material(&self, given: &Given<'p>) -> Option<BlockId> {
        let fit = given.get(Take::Name(BlockKind::Material));
        self.named(fit, BlockKind::Material)
    }

    fn named(&self, fit: Option<Fit<'p>>, kind: BlockKind) -> Option<BlockId> {
        named(&self.world.names, fit?, kind)
    }

    fn after_point(&mut self, part: &WrittenPart<'p>, point: Place) {
        let (message, help) = if part.kind == PartKind::Point {
            (
                "a rig has one point".to_owned(),
                "flies above it are `dropper` or `inline`",
            )
        } else {
            (
                format!("this {} follows the point", part.kind.word()),
                "the point ends the rig; move its line to the end",
            )
        };
        let finding = Finding::fault(Code::PartAfterPoint, part.given.line.whole(), message);
        self.fault(finding.label(point, "the point").help(help));
    }

    /// What still waits for a piece of line is told, and let go.
    fn end(&mut self) {
        let last = self.parts.iter().rposition(|part| match part.what {
            What::Section { .. } => true,
            What::Knot { .. }
            | What::Ring { .. }
            | What::Swivel { .. }
            | What::Dropper { .. }
            | What::Inline(_)
            | What::Point(_)
            | What::Shot { .. }
            | What::Float { .. } => false,
        });
        let mut at = 0;
        self.parts.retain(|part| {
            at += 1;
            last.is_some_and(|last| at <= last + 1) || !needs_join(&part.what)
        });
        for (place, told) in std::mem::take(&mut self.open.waiting) {
            let message = "nothing follows that this could join";
            let finding = Finding::fault(Code::PartUnattached, place, message);
            self.fault(finding.help(told));
        }
    }
}

const SITS: &str = "it sits on the line, so a piece of line stands above it";

/// A fly's name, or its essentials as they are written.
fn fly_name(given: &Given<'_>, joint: Option<Joint>) -> String {
    if let Some(text) = given.text {
        return given.line.text(text).to_owned();
    }
    let own = given
        .fits
        .iter()
        .filter(|fit| fit.joint == joint && fit.take != Take::PartLength);
    let written = written(own);
    if written.is_empty() {
        "a fly".to_owned()
    } else {
        written
    }
}

/// A knot or a ring at a join that has one.
fn twice(place: Place, first: Place, what: &str) -> Finding {
    let message = format!("this join has a {what} already");
    Finding::fault(Code::KnotTwice, place, message)
        .label(first, "the first")
        .help("keep one of them")
}
