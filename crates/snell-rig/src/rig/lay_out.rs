//! Parts laid out one by one, from the reel to the point; what has no place is
//! a fault.

use super::layout::{Dropper, FlyAt, FlyOn, Join, Layout, OnLine, OnLineKind, Section, Stuff};
use super::parts::Part;
use crate::blocks::{self, Essentials, LineSize, Read, Spool};
use crate::fit::{Fit, Fitting, Given};
use crate::keywords::{self, Take};
use crate::project::BlockId;
use crate::value::Faults;
use crate::world::World;
use snell_finding::{Code, Finding};
use snell_syntax::{BlockKind, Joint};
use snell_text::Place;

/// Lays parts out from the reel down; what has no place is a fault.
pub(super) fn lay_out<'p>(fitting: &Fitting<'_, 'p>, parts: Vec<Part<'p>>, broken: &mut bool) -> Layout<'p> {
    let mut builder = Builder {
        world: fitting.world,
        faults: fitting.faults,
        layout: Layout::default(),
        open: Join::default(),
        waiting: Vec::new(),
        point: None,
        holes: *broken,
        broken: *broken,
    };
    for part in parts {
        builder.take(part);
    }
    builder.end();
    *broken |= builder.broken;
    builder.layout
}

struct Builder<'a, 'p> {
    world: &'a World<'p>,
    faults: &'a Faults,
    layout: Layout<'p>,
    /// The join below the last section, until the next section closes it.
    open: Join<'p>,
    /// Lines that need a section below them, and what to say if none comes.
    waiting: Vec<(Place, &'static str)>,
    point: Option<Place>,
    /// Whether a part could not be read at all.
    holes: bool,
    broken: bool,
}

impl<'p> Builder<'_, 'p> {
    /// Where a part could not be read, what seems to be wrong around it may follow from that alone.
    fn fault(&mut self, finding: Finding) {
        if !self.holes {
            self.faults.report(finding);
        }
        self.broken = true;
    }

    fn take(&mut self, part: Part<'p>) {
        if let Some(point) = self.point {
            return self.after_point(&part, point);
        }
        let key = part.key();
        match key {
            _ if keywords::SECTIONS.contains(&key) => self.section(part),
            "knot" => self.knot(&part),
            "ring" => self.ring(&part),
            "dropper" => self.dropper(part),
            "inline" => self.inline(part),
            "point" => self.end_with(part),
            "shot" => self.on_line(OnLineKind::Shot, part),
            _ => self.on_line(OnLineKind::Float, part),
        }
    }

    fn section(&mut self, part: Part<'p>) {
        let role = part.key();
        let number = self
            .layout
            .sections
            .iter()
            .filter(|section| section.role == role)
            .count()
            + 1;
        let stuff = stuff(self.world, self.faults, &part.given);
        let open = std::mem::take(&mut self.open);
        if !self.layout.sections.is_empty() {
            self.layout.joins.push(open);
        }
        self.waiting.clear();
        self.layout.sections.push(Section {
            role,
            number,
            part,
            stuff,
        });
    }

    /// Whether there is line above; without it the part hangs on nothing.
    fn needs_above(&mut self, part: &Part<'p>, told: &str) -> bool {
        if !self.layout.sections.is_empty() {
            return true;
        }
        let place = part.given.line.whole();
        let message = format!("this {} has no line above it", part.key());
        let finding = Finding::fault(Code::PartUnattached, place, message);
        self.fault(finding.help(told));
        false
    }

    fn knot(&mut self, part: &Part<'p>) {
        if !self.needs_above(part, "a knot stands between the two pieces that it joins") {
            return;
        }
        let place = part.given.line.whole();
        if let Some((_, first)) = &self.open.knot {
            return self.fault(twice(place, first, "knot"));
        }
        self.waiting.push((
            place,
            "a knot stands between two pieces of line; the fly's own is written `point FLY on KNOT`",
        ));
        let given = &part.given;
        if let Some(fit) = given.get(Take::Name(BlockKind::Knot)) {
            self.open.knot = blocks::named(self.world, fit, BlockKind::Knot).map(|id| (id, fit));
        }
        self.open.tags = given.within(Joint::With, Take::Length);
        self.open.labels.extend(part.label());
    }

    fn ring(&mut self, part: &Part<'p>) {
        if !self.needs_above(part, "a ring stands between the two pieces that it joins") {
            return;
        }
        let place = part.given.line.whole();
        if let Some(first) = &self.open.ring {
            return self.fault(twice(place, first, "ring"));
        }
        self.waiting.push((
            place,
            "a ring stands between the two pieces of line that it joins",
        ));
        self.open.ring = part.given.get(Take::Diameter);
        self.open.labels.extend(part.label());
    }

    fn dropper(&mut self, part: Part<'p>) {
        if !self.needs_above(
            &part,
            "a dropper is a tag at a join, so a piece of line stands above and below it",
        ) {
            return;
        }
        let place = part.given.line.whole();
        if let Some(first) = self.open.dropper {
            let first = self.layout.droppers[first].part.given.line.whole();
            let finding = Finding::fault(Code::KnotTwice, place, "this join has a dropper already");
            let finding = finding
                .label(first, "the first")
                .help("put a piece of line between the two");
            return self.fault(finding);
        }
        self.waiting.push((
            place,
            "a dropper is a tag at a join, so a piece of line stands below it",
        ));
        let given = &part.given;
        let stuff = given
            .has(Joint::Of)
            .then(|| stuff(self.world, self.faults, given));
        let index = self.layout.droppers.len();
        self.open.dropper = Some(index);
        let fly = self.layout.flies.len();
        self.tie(FlyAt::Dropper(index), part.clone(), Some(Joint::With));
        self.layout.droppers.push(Dropper {
            part,
            stuff,
            join: self.layout.sections.len() - 1,
            fly,
        });
    }

    fn inline(&mut self, part: Part<'p>) {
        if self.needs_above(&part, "a fly on the line has a piece of line above it") {
            self.open.inline = true;
            self.tie(FlyAt::Inline, part, None);
        }
    }

    fn end_with(&mut self, part: Part<'p>) {
        self.point = Some(part.given.line.whole());
        if self.needs_above(
            &part,
            "the point stands below the piece of line that it is tied to",
        ) {
            self.tie(FlyAt::Point, part, None);
        }
    }

    fn tie(&mut self, at: FlyAt, part: Part<'p>, joint: Option<Joint>) {
        let essentials = Essentials {
            given: &part.given,
            joint,
        };
        let block = essentials.block(self.world);
        let fly = match block.map(|id| self.world.read(id)) {
            Some(Read::Fly(fly)) => (**fly).clone(),
            _ => essentials.fly(self.world, self.faults),
        };
        let on = part.given.within(Joint::On, Take::Name(BlockKind::Knot));
        let name = fly_name(&part.given, joint);
        let above = self.layout.sections.len();
        self.layout.flies.push(FlyOn {
            at,
            above,
            block,
            fly,
            name,
            knot: on.and_then(|fit| blocks::named(self.world, fit, BlockKind::Knot)),
            part,
        });
    }

    fn on_line(&mut self, kind: OnLineKind, part: Part<'p>) {
        if self.needs_above(&part, "it sits on the line, so a piece of line stands above it") {
            self.layout.on_line.push(OnLine {
                kind,
                above: self.layout.sections.len(),
                given: part.given,
            });
        }
    }

    fn after_point(&mut self, part: &Part<'p>, point: Place) {
        let key = part.key();
        let (message, help) = if key == "point" {
            (
                "a rig has one point".to_owned(),
                "flies above it are `dropper` or `inline`",
            )
        } else {
            (
                format!("this {key} follows the point"),
                "the point ends the rig; move its line to the end",
            )
        };
        let finding = Finding::fault(Code::PartAfterPoint, part.given.line.whole(), message);
        self.fault(finding.label(point, "the point").help(help));
    }

    fn end(&mut self) {
        // A dropper that hangs on no join would be none of a rig: its fault is told, and it is let go.
        if let Some(dropper) = self.open.dropper.take().and_then(|_| self.layout.droppers.pop()) {
            self.layout.flies.remove(dropper.fly);
        }
        for (place, told) in std::mem::take(&mut self.waiting) {
            let finding = Finding::fault(
                Code::PartUnattached,
                place,
                "nothing follows that this could join",
            );
            self.fault(finding.help(told));
        }
    }
}

/// A fly's name, or its essentials as they are written.
fn fly_name(given: &Given<'_>, joint: Option<Joint>) -> String {
    let own = given
        .fits
        .iter()
        .filter(|fit| fit.joint == joint && fit.take != Take::PartLength);
    let written: Vec<&str> = own.map(|fit| fit.line.written(fit.expr.span)).collect();
    if written.is_empty() {
        "a fly".to_owned()
    } else {
        written.join(" ")
    }
}

/// What a piece is made of: as its line says, and what its spool says.
fn stuff<'p>(world: &World<'p>, faults: &Faults, given: &Given<'p>) -> Stuff<'p> {
    let within = |take| given.within(Joint::Of, take);
    let spool =
        within(Take::Name(BlockKind::Spool)).and_then(|fit| blocks::named(world, fit, BlockKind::Spool));
    let own_colours = given
        .all(Some(Joint::Of), Take::Colour)
        .map(|fit| fit.line.written(fit.expr.span));
    let mut stuff = match spool.map(|id| world.read(id)) {
        Some(Read::Spool(read)) => from_spool(spool, read),
        _ => Stuff::default(),
    };
    let own = |take| within(take).map(|fit| blocks::constant(faults, fit));
    if let Some(fit) = within(Take::LineSize) {
        stuff.size = Some(LineSize::read(faults, fit));
    }
    if let Some(fit) = within(Take::Name(BlockKind::Material)) {
        stuff.material = blocks::named(world, fit, BlockKind::Material);
    }
    stuff.measured = own(Take::Diameter).or(stuff.measured);
    if let Some(rated) = own(Take::Force) {
        // A strength on the rig's own line is a claim about this piece; the spool's test is of another.
        stuff.rated = Some(rated);
        stuff.test = None;
    }
    let colours: Vec<&str> = own_colours.collect();
    if !colours.is_empty() {
        stuff.colours = colours;
    }
    stuff
}

fn from_spool<'p>(id: Option<BlockId>, spool: &Spool<'p>) -> Stuff<'p> {
    Stuff {
        spool: id,
        size: spool.size.clone(),
        measured: spool.measured.clone(),
        rated: Some(spool.rated.clone()),
        test: spool.test.clone().ok().map(Ok),
        stretch: spool.stretch.clone().ok().map(Ok),
        material: spool.material,
        colours: spool.colours.clone(),
    }
}

/// A knot or a ring at a join that has one.
fn twice(place: Place, first: &Fit<'_>, what: &str) -> Finding {
    let message = format!("this join has a {what} already");
    Finding::fault(Code::KnotTwice, place, message)
        .label(first.line.whole(), "the first")
        .help("keep one of them")
}
