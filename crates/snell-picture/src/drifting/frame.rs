//! The fixed places of one medium, and the scales that a drift gets in them.

use crate::drifting::drifted::{Drifted, Over, Rigged};
use crate::medium::{Medium, ROW};
use crate::scene::{Point, at};

/// The fixed places of one medium.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub width: f64,
    pub margin: f64,
    pub space: f64,
    /// From the left: the strip of the water's speed, and the ruler of depths.
    pub strip: (f64, f64),
    pub ruler: f64,
    pub tick: f64,
    /// Where the line may be drawn from.
    pub left: f64,
    /// Where the water ends and the labels begin.
    pub right: f64,
    /// Around what is drawn of the line, for the signs of flies.
    pub clear: f64,
    /// Where the line would best enter the water.
    pub entry: f64,
    /// How tall the water is drawn: at least, for each fly more, at most.
    pub tall: (f64, f64, f64),
    /// The least height of water that is longer than it is deep.
    pub flat: f64,
    /// How tall the line in the air is at most.
    pub air: f64,
    /// How far the rod is drawn beyond its tip.
    pub rod: f64,
    /// Between the bars that tell where flies may be.
    pub lane: f64,
    /// A fly's sign.
    pub mark: f64,
}

impl Frame {
    pub fn of(medium: Medium) -> Self {
        match medium {
            Medium::Page | Medium::Hover => Self::page(),
            // Half of a sheet of A4, as wide as the rig beside it.
            Medium::Sheet => Self {
                width: 350.0,
                margin: 6.0,
                strip: (6.0, 52.0),
                ruler: 92.0,
                left: 92.0,
                right: 248.0,
                entry: 160.0,
                tall: (150.0, 12.0, 230.0),
                air: 90.0,
                ..Self::page()
            },
            Medium::Cells(columns) => Self::cells(columns.clamp(40, 100)),
        }
    }

    fn page() -> Self {
        Self {
            width: 420.0,
            margin: 16.0,
            space: 12.0,
            strip: (16.0, 72.0),
            ruler: 116.0,
            tick: 5.0,
            left: 116.0,
            right: 312.0,
            clear: 14.0,
            entry: 190.0,
            tall: (200.0, 16.0, 340.0),
            flat: 90.0,
            air: 150.0,
            rod: 34.0,
            lane: 9.0,
            mark: 10.0,
        }
    }

    fn cells(columns: usize) -> Self {
        let wide = columns >= 60;
        let columns = columns as f64;
        let left = if wide { 19.0 } else { 8.0 };
        let labels = if wide { 21.0 } else { 13.0 };
        Self {
            width: columns,
            margin: 0.0,
            space: ROW,
            strip: (0.0, if wide { 9.0 } else { 0.0 }),
            ruler: left,
            tick: 1.0,
            left,
            right: columns - labels - 2.0,
            clear: 2.0,
            entry: left + (columns - labels - left) / 2.5,
            tall: (14.0 * ROW, ROW, 24.0 * ROW),
            flat: 6.0 * ROW,
            air: 9.0 * ROW,
            rod: 3.0,
            lane: 2.0,
            mark: 1.0,
        }
    }
}

/// Where a drift is drawn: units of the medium by metre, and the line's entry.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    /// Along the stream, and down.
    pub under: (f64, f64),
    /// Both ways over the surface.
    pub over: f64,
    pub entry: Point,
    /// The bed as deep as the rig is drawn in.
    pub bed: f64,
    /// The bed where it lies deepest.
    pub ground: f64,
}

impl Scale {
    /// A scale that holds all of a drift, with its surface at nought. `lanes` is the room that bars take.
    pub fn of(drifted: &Drifted, frame: &Frame, lanes: f64) -> Option<Self> {
        let depth = drifted.water.deepest();
        let flies = match &drifted.rig {
            Rigged::Rides(riding) => riding.flies.len(),
            Rigged::Unknown(flies) => flies.len(),
        } as f64;
        let (from, to) = extent(drifted);
        if !(depth > 0.0 && depth.is_finite() && (to - from).is_finite()) {
            return None;
        }
        let room = frame.right - lanes - frame.left - 2.0 * frame.clear;
        let (least, each, most) = frame.tall;
        let tall = (least + each * flies).min(most);
        let along = (tall / depth).min(room / (to - from).max(depth * 1e-3));
        let down = along.max(frame.flat / depth);
        let first = frame.left + frame.clear - from * along;
        let last = first + room - (to - from) * along;
        let entry = frame.entry.clamp(first, last.max(first));
        Some(Self {
            under: (along, down),
            over: over(drifted, frame, entry, down),
            entry: at(entry, 0.0),
            bed: drifted.water.depth * down,
            ground: depth * down,
        })
    }

    /// The same with its surface at `y`.
    pub fn below(self, y: f64) -> Self {
        Self {
            entry: at(self.entry.x, y),
            bed: self.bed + y,
            ground: self.ground + y,
            ..self
        }
    }

    /// Where something under water is drawn.
    pub fn sunk(&self, (along, depth): (f64, f64)) -> Point {
        at(
            self.entry.x + along * self.under.0,
            self.entry.y + depth * self.under.1,
        )
    }

    /// Where something over the water is drawn.
    pub fn aloft(&self, (along, over): (f64, f64)) -> Point {
        at(self.entry.x + along * self.over, self.entry.y - over * self.over)
    }

    /// How many times longer a height is drawn than a length along the stream.
    pub fn stretch(&self) -> f64 {
        self.under.1 / self.under.0
    }
}

/// How far up and down the stream of its entry a rig reaches.
fn extent(drifted: &Drifted) -> (f64, f64) {
    let Some(riding) = drifted.riding() else {
        return (0.0, 0.0);
    };
    let flies = riding.flies.iter().map(|fly| fly.at.0);
    let all = || riding.line.iter().map(|(along, _)| *along).chain(flies.clone());
    (all().fold(0.0, f64::min), all().fold(0.0, f64::max))
}

/// The scale over the water: the tip and what lies between it and the entry have room.
fn over(drifted: &Drifted, frame: &Frame, entry: f64, most: f64) -> f64 {
    let Some(Over::Led(led)) = drifted.riding().map(|riding| &riding.over) else {
        return most;
    };
    match &led.air {
        Ok(air) => {
            let along = air.curve.iter().map(|(along, _)| *along).fold(0.0, f64::max);
            let high = air.curve.iter().map(|(_, over)| *over).fold(0.0, f64::max);
            let room = frame.width - frame.margin - frame.rod - entry;
            most.min(room / along).min(frame.air / high)
        }
        Err(_) => {
            let high = led.pieces.iter().map(|piece| piece.reach.1).fold(0.0, f64::max);
            most.min(frame.air * 0.7 / high)
        }
    }
}
