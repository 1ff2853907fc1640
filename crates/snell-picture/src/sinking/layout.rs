//! Where everything stands: the water's speed on the left, the depths beside
//! their ruler, and the flies' labels on the right.

use crate::key;
use crate::labels::{Column, Label, paragraph, place, run};
use crate::medium::{Medium, ROW};
use crate::ruler;
use crate::scene::{Ground, Item, Line, LineRole, Mark, Point, Scene, Side, Stroke, TextRole, at};
use crate::sinking::sunk::{Sunk, SunkFly};

/// The fixed places of one medium.
struct Frame {
    width: f64,
    margin: f64,
    title: f64,
    /// From the left: the speed's strip, the depth's ruler.
    strip: (f64, f64),
    left: f64,
    /// How much of the width the labels take.
    labels: f64,
    top: f64,
    tall: f64,
    /// Below the bed: the ruler's figures.
    below: f64,
    mark: f64,
    tick: f64,
    /// How far beyond the end of its way a fly's ride is drawn.
    aside: f64,
}

impl Frame {
    fn of(medium: Medium) -> Self {
        match medium {
            Medium::Page | Medium::Sheet | Medium::Hover => Self {
                width: 420.0,
                margin: 16.0,
                title: 26.0,
                strip: (16.0, 62.0),
                left: 108.0,
                labels: 112.0,
                top: 74.0,
                tall: 220.0,
                below: 30.0,
                mark: 13.0,
                tick: 5.0,
                aside: 30.0,
            },
            Medium::Cells(columns) => {
                let columns = columns.clamp(40, 100) as f64;
                let wide = columns >= 60.0;
                Self {
                    width: columns,
                    margin: 0.0,
                    title: ROW / 2.0,
                    strip: (0.0, if wide { 9.0 } else { 0.0 }),
                    left: if wide { 19.0 } else { 9.0 },
                    labels: if wide { 22.0 } else { 13.0 },
                    top: 3.0 * ROW,
                    tall: 16.0 * ROW,
                    below: 3.0 * ROW,
                    mark: 1.0,
                    tick: 1.0,
                    aside: 4.0,
                }
            }
        }
    }

    fn right(&self) -> f64 {
        self.width - self.margin - self.labels
    }

    fn bed(&self) -> f64 {
        self.top + self.tall
    }
}

/// A plot's scale: units of the medium by metre, down and along.
struct Scale<'f> {
    frame: &'f Frame,
    down: f64,
    along: f64,
    from: f64,
}

impl Scale<'_> {
    /// Where a fly is drawn that rides at a depth in the end.
    fn ride(&self, along: f64, depth: f64) -> Point {
        let end = self.at(along, depth);
        at(end.x + self.frame.aside, end.y)
    }

    /// What its two scales are to one another.
    fn told(&self) -> String {
        let stretch = self.down / self.along;
        if (stretch - 1.0).abs() < 0.05 {
            return "Across: down the stream, drawn as long as depths are.".to_owned();
        }
        if stretch > 1.0 {
            format!("Across: down the stream; depths are drawn {stretch:.1} times as long.")
        } else {
            format!(
                "Across: down the stream, drawn {:.1} times as long as depths are.",
                1.0 / stretch
            )
        }
    }

    fn at(&self, along: f64, depth: f64) -> Point {
        at(
            self.frame.left + (along - self.from) * self.along,
            self.frame.top + depth * self.down,
        )
    }
}

pub(super) fn lay_out(sunk: &Sunk, medium: Medium) -> Option<Scene> {
    let frame = Frame::of(medium);
    let ways = || {
        sunk.flies
            .iter()
            .flat_map(|fly| &fly.path)
            .map(|(along, _)| *along)
    };
    let (from, to) = (ways().fold(0.0, f64::min), ways().fold(0.0, f64::max));
    if sunk.depth.is_nan() || sunk.depth <= 0.0 || sunk.flies.is_empty() || !(to - from).is_finite() {
        return None;
    }
    let scale = Scale {
        frame: &frame,
        down: frame.tall / sunk.depth,
        along: (frame.right() - frame.left - frame.aside) / (to - from).max(sunk.depth * 0.1),
        from,
    };
    let mut items = Vec::new();
    items.extend(heading(sunk, medium, &frame));
    items.extend(profile(sunk, medium, &frame));
    items.extend(edges(&frame));
    items.extend(depths(sunk, medium, &scale));
    items.extend(ways_down(sunk, medium, &scale, to));
    for (index, fly) in sunk.flies.iter().enumerate() {
        items.extend(path(fly, index, medium, &scale));
    }
    items.extend(labels(sunk, medium, &scale));
    let height = foot(&mut items, medium, &scale);
    Some(Scene {
        title: format!("{}: how it sinks and where it rides", sunk.name),
        about: sunk.about.clone(),
        width: frame.width,
        height,
        metre: None,
        ground: Ground::Screen,
        items,
    })
}

fn line(role: LineRole, points: Vec<Point>, thick: f64) -> Item {
    Line::even(role, points, thick).into()
}

fn heading(sunk: &Sunk, medium: Medium, frame: &Frame) -> Vec<Item> {
    let runs = vec![run(TextRole::Title, sunk.name.clone())];
    let more = vec![run(TextRole::Detail, "how deep each fly is: an estimate")];
    let below = frame.title + medium.height(TextRole::Title) * 0.9;
    vec![
        medium
            .text(runs, (frame.margin, frame.title), Side::Begins)
            .into(),
        medium.text(more, (frame.margin, below), Side::Begins).into(),
    ]
}

/// The water's speed from bed to surface, as a curve from an upright edge.
fn profile(sunk: &Sunk, medium: Medium, frame: &Frame) -> Vec<Item> {
    let (edge, end) = frame.strip;
    let fastest = sunk.profile.iter().map(|(_, speed)| *speed).fold(0.0, f64::max);
    if end - edge < 2.0 || fastest <= 0.0 {
        return Vec::new();
    }
    let place = |(height, speed): &(f64, f64)| {
        at(
            edge + speed / fastest * (end - edge),
            frame.bed() - height / sunk.depth * frame.tall,
        )
    };
    let curve: Vec<Point> = sunk.profile.iter().map(place).collect();
    let mut items = vec![
        line(
            LineRole::Ruler,
            vec![at(edge, frame.top), at(edge, frame.bed())],
            0.8,
        ),
        line(LineRole::Speed, curve, 1.6),
    ];
    let lift = if medium.is_cells() { ROW / 2.0 } else { 8.0 };
    let written = vec![run(TextRole::Tick, sunk.surface.clone())];
    items.push(
        medium
            .text(written, (edge, frame.top - lift), Side::Begins)
            .into(),
    );
    items
}

fn edges(frame: &Frame) -> Vec<Item> {
    let across = |y: f64| vec![at(frame.left, y), at(frame.right(), y)];
    vec![
        line(LineRole::Surface, across(frame.top), 1.4),
        line(LineRole::Bed, across(frame.bed()), 3.0),
    ]
}

/// The ruler of depths, from nought at the surface.
fn depths(sunk: &Sunk, medium: Medium, scale: &Scale<'_>) -> Vec<Item> {
    let frame = scale.frame;
    let least = if medium.is_cells() { 3.0 * ROW } else { 30.0 };
    let step = ruler::step(sunk.system, scale.down, least);
    let count = (sunk.depth / step + 1e-6).floor() as usize;
    let mut items = vec![line(
        LineRole::Ruler,
        vec![at(frame.left, frame.top), at(frame.left, frame.bed())],
        0.8,
    )];
    for index in 0..=count {
        let y = frame.top + index as f64 * step * scale.down;
        if !medium.is_cells() {
            items.push(line(
                LineRole::Ruler,
                vec![at(frame.left - frame.tick, y), at(frame.left, y)],
                0.8,
            ));
        }
        let runs = vec![run(TextRole::Tick, ruler::figure(index, step, sunk.system))];
        items.push(
            medium
                .text(runs, (frame.left - frame.tick - 2.0, y), Side::Ends)
                .into(),
        );
    }
    items
}

/// The ruler of the way down the stream, below the bed.
fn ways_down(sunk: &Sunk, medium: Medium, scale: &Scale<'_>, to: f64) -> Vec<Item> {
    let frame = scale.frame;
    let least = if medium.is_cells() { 12.0 } else { 56.0 };
    let step = ruler::step(sunk.system, scale.along, least);
    let gap = if medium.is_cells() { ROW * 1.5 } else { 15.0 };
    let count = (to / step + 1e-6).floor() as usize;
    let mut items = Vec::new();
    for index in 0..=count {
        let x = scale.at(index as f64 * step, 0.0).x;
        if !medium.is_cells() {
            let tick = vec![at(x, frame.bed()), at(x, frame.bed() + frame.tick)];
            items.push(line(LineRole::Ruler, tick, 0.8));
        }
        let figure = ruler::figure(index, step, sunk.system);
        let half = medium.width(TextRole::Tick, &figure) / 2.0;
        let runs = vec![run(TextRole::Tick, figure)];
        items.push(
            medium
                .text(runs, (x - half, frame.bed() + gap), Side::Begins)
                .into(),
        );
    }
    items
}

/// What the plot's scales are to one another, what its dots mean, and the key; returns where they end.
fn foot(items: &mut Vec<Item>, medium: Medium, scale: &Scale<'_>) -> f64 {
    let frame = scale.frame;
    let edges = (frame.margin, frame.width - frame.margin);
    let width = edges.1 - edges.0;
    let mut y = frame.bed() + frame.below;
    let dotted = "The dotted end of a way, on to where the fly rides, is not timed.";
    for (role, told) in [
        (TextRole::Detail, scale.told().as_str()),
        (TextRole::Tick, dotted),
    ] {
        y = paragraph(items, medium, run(role, told), width, (edges.0, y));
    }
    key::draw(items, medium, edges, y) + frame.margin
}

/// A fly's path, the depths between which it may ride, and the fly at its end.
fn path(fly: &SunkFly, index: usize, medium: Medium, scale: &Scale<'_>) -> Vec<Item> {
    let points: Vec<Point> = fly
        .path
        .iter()
        .map(|(along, depth)| scale.at(*along, *depth))
        .collect();
    let Some(last) = fly.path.last().map(|(along, _)| *along) else {
        return Vec::new();
    };
    let mut items = Vec::new();
    let ride = |depth| scale.ride(last, depth);
    // What comes after the last moment that was worked out is not timed: straight on to where it rides.
    if let Some(end) = points.last() {
        items.push(line(LineRole::Chord, vec![*end, ride(fly.depth)], 1.2));
    }
    if points.len() > 1 {
        items.push(line(LineRole::Way(Stroke::of(index)), points, 1.4));
    }
    let (low, high) = (ride(fly.between.0), ride(fly.between.1));
    items.push(line(LineRole::Between, vec![low, high], 1.2));
    if !medium.is_cells() {
        for end in [low, high] {
            items.push(line(
                LineRole::Between,
                vec![at(end.x - 4.0, end.y), at(end.x + 4.0, end.y)],
                1.2,
            ));
        }
    }
    items.push(Mark::plain(fly.kind, ride(fly.depth), scale.frame.mark).into());
    items
}

fn labels(sunk: &Sunk, medium: Medium, scale: &Scale<'_>) -> Vec<Item> {
    let frame = scale.frame;
    let gap = if medium.is_cells() { 3.0 } else { 14.0 };
    let column = Column {
        edge: frame.right() + gap,
        width: frame.labels - gap,
        side: Side::Begins,
        gap: if medium.is_cells() { 0.0 } else { 5.0 },
    };
    let label = |fly: &SunkFly| {
        let along = fly.path.last().map_or(0.0, |(along, _)| *along);
        let mut of = scale.ride(along, fly.depth);
        of.x += if medium.is_cells() { 1.0 } else { frame.mark * 0.6 };
        let lines = vec![
            vec![run(TextRole::Name, fly.name.clone())],
            vec![run(TextRole::Detail, fly.rides.clone())],
        ];
        Label::new(medium, &column, of, lines)
    };
    let all = sunk.flies.iter().map(label).collect();
    place(
        medium,
        &column,
        all,
        (frame.top, frame.bed()),
        frame.right() + gap * 0.5,
    )
}
