//! A picture as a value: lines, texts and marks with what they mean, before
//! any form of drawing.
//!
//! Lengths are in the units of the medium that the scene was laid out for; x
//! runs to the right and y down. How a role looks is for those who write.

use crate::colours::Colour;

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Its title, for people and screen readers.
    pub title: String,
    /// What it shows in words, for those who do not see it.
    pub about: String,
    /// Its width.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// How long a metre is drawn, where lengths are to scale.
    pub metre: Option<f64>,
    /// What it is looked at on.
    pub ground: Ground,
    /// What is drawn, the hindmost first.
    pub items: Vec<Item>,
}

/// What a picture is looked at on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ground {
    /// A screen, light or dark; black on white where it is printed.
    #[default]
    Screen,
    /// Paper: black on white wherever it is seen.
    Paper,
}

/// A place in a picture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// From the left edge.
    pub x: f64,
    /// From the upper edge.
    pub y: f64,
}

/// A point at x and y.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// An upright box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Its upper left corner.
    pub from: Point,
    /// Its lower right corner.
    pub to: Point,
}

/// One thing in a picture.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line.
    Line(Line),
    /// A line of text.
    Text(Text),
    /// A sign for a thing that is too small to draw.
    Mark(Mark),
}

/// A line through points.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is.
    pub role: LineRole,
    /// Where it runs; two points at least.
    pub points: Vec<Point>,
    /// How thick it is drawn at its first and its last point.
    pub thick: (f64, f64),
    /// Its own colours, each for as much of it as the next one; none where it has none.
    pub colours: Vec<Colour>,
    /// What it stands for, where its length is to scale.
    pub stands: Option<Stands>,
}

impl Line {
    /// A line of one thickness that has no colour of its own and stands for no length.
    pub(crate) fn even(role: LineRole, points: Vec<Point>, thick: f64) -> Self {
        Self {
            role,
            points,
            thick: (thick, thick),
            colours: Vec::new(),
            stands: None,
        }
    }
}

/// What a line to scale stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Stands {
    /// Its name.
    pub name: String,
    /// Its length in metres.
    pub metres: f64,
    /// Name, length and what it is, as one text.
    pub told: String,
}

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LineRole {
    /// A piece of fishing line.
    Piece,
    /// A piece whose diameter is unknown.
    Unmeasured,
    /// A piece that is not to scale.
    Beyond,
    /// A tag, or a cut end that was left.
    Tag,
    /// From a thing to its label.
    Pointer,
    /// A ruler's edge and ticks.
    Ruler,
    /// A bar whose length is written beside it.
    Bar,
    /// The water's surface.
    Surface,
    /// The bed.
    Bed,
    /// The bed at one end of the depths between which it lies.
    BedEnd,
    /// One of the strokes that fill what may be one thing or another.
    Hatch,
    /// The water's speed from bed to surface.
    Speed,
    /// The way of a fly, in the strokes that tell it from the others.
    Way(Stroke),
    /// A line that is told apart from what it is drawn over.
    Path,
    /// Between what and what a depth lies.
    Between,
    /// All depths, where nobody knows which.
    Anywhere,
    /// The body of the water, as a closed outline.
    Water,
    /// Ground that is kept free for words, as a closed outline.
    Free,
    /// A stone of the bed, as a closed outline.
    Stone,
    /// A strand of weed.
    Weed,
    /// How far the water goes in one time, with the head of an arrow.
    Flow,
    /// The straight way beside which a line sags.
    Chord,
    /// The rod.
    Rod,
}

/// Strokes that tell lines apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stroke {
    /// Unbroken.
    Solid,
    /// Of dashes.
    Dashed,
    /// Of dots.
    Dotted,
    /// Of dashes and dots in turn.
    Mixed,
}

impl Stroke {
    /// The strokes of one line among several, over and over where there are more of them.
    pub(crate) const fn of(index: usize) -> Self {
        const ALL: [Stroke; 4] = [Stroke::Solid, Stroke::Dashed, Stroke::Dotted, Stroke::Mixed];
        ALL[index % ALL.len()]
    }
}

/// A line of text: runs, each with its own role.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The runs, from left to right.
    pub runs: Vec<Run>,
    /// The middle of its left edge, or of its right edge where it ends there.
    pub at: Point,
    /// Which of the two.
    pub side: Side,
    /// Its width as measured.
    pub width: f64,
    /// Its height.
    pub height: f64,
}

/// A run of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What it is.
    pub role: TextRole,
    /// The text.
    pub text: String,
}

/// What a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TextRole {
    /// The picture's name.
    Title,
    /// A part's name.
    Name,
    /// A figure.
    Figure,
    /// What is read second.
    Detail,
    /// The word before what is read second.
    Strong,
    /// A ruler's figure.
    Tick,
}

/// Where a text is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// It begins there.
    Begins,
    /// It ends there.
    Ends,
}

/// A sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Of what.
    pub kind: MarkKind,
    /// Its middle; of a fly, its eye.
    pub at: Point,
    /// How large it is drawn, from its middle to its edge.
    pub size: f64,
    /// Its own colour, where it has one.
    pub colour: Option<Colour>,
}

impl Mark {
    /// A sign that has no colour of its own.
    pub(crate) const fn plain(kind: MarkKind, at: Point, size: f64) -> Self {
        Self {
            kind,
            at,
            size,
            colour: None,
        }
    }
}

/// What a sign is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkKind {
    /// A knot that the rig names.
    Knot,
    /// The usual knot where none is named.
    UsualKnot,
    /// A ring.
    Ring,
    /// A swivel.
    Swivel,
    /// A fly with a bead.
    BeadedFly,
    /// A fly without one.
    PlainFly,
    /// A fly that floats.
    FloatingFly,
    /// A shot.
    Shot,
    /// A float.
    Float,
    /// Where a line that is not to scale is broken off.
    Break,
    /// Hard water to stand in.
    HardWater,
    /// Water to stay out of.
    KeepOut,
    /// The rig's own water among others.
    OwnWater,
}

impl Bounds {
    /// Whether two boxes share more than an edge.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.from.x < other.to.x
            && other.from.x < self.to.x
            && self.from.y < other.to.y
            && other.from.y < self.to.y
    }
}

impl Text {
    /// The box that it fills.
    pub fn bounds(&self) -> Bounds {
        let left = match self.side {
            Side::Begins => self.at.x,
            Side::Ends => self.at.x - self.width,
        };
        let half = self.height / 2.0;
        Bounds {
            from: at(left, self.at.y - half),
            to: at(left + self.width, self.at.y + half),
        }
    }

    /// All its runs as one text.
    pub fn plain(&self) -> String {
        self.runs.iter().map(|run| run.text.as_str()).collect()
    }
}

impl Scene {
    /// Every text.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items.iter().filter_map(|item| match item {
            Item::Text(text) => Some(text),
            Item::Line(_) | Item::Mark(_) => None,
        })
    }

    /// Every line.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        self.items.iter().filter_map(|item| match item {
            Item::Line(line) => Some(line),
            Item::Text(_) | Item::Mark(_) => None,
        })
    }
}

impl From<Line> for Item {
    fn from(line: Line) -> Self {
        Self::Line(line)
    }
}

impl From<Text> for Item {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl From<Mark> for Item {
    fn from(mark: Mark) -> Self {
        Self::Mark(mark)
    }
}
