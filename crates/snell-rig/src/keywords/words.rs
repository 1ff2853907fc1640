//! Words with a meaning of their own as values: methods, casts, colours.

pub use snell_syntax::{BUILDS, COLOURS, FLY_WORDS, Named, SLOTTED, SWIVELS};

const fn named(word: &'static str, about: &'static str) -> Named {
    Named::new(word, about)
}

/// Words that a value may be, each with what it means, as an enum.
macro_rules! words {
    ($(#[$meta:meta])* $name:ident { $($variant:ident $word:literal $about:literal)* }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub enum $name {
            $(#[doc = $about] $variant,)*
        }

        impl $name {
            /// Each of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];
            /// Their words, with what they mean.
            pub const WORDS: &'static [Named] = &[$(named($word, $about),)*];

            /// The word for it.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)*
                }
            }

            /// The one that a word is, however it is spelled.
            pub fn of(word: &str) -> Option<Self> {
                Self::ALL
                    .iter()
                    .copied()
                    .find(|known| known.word().eq_ignore_ascii_case(word))
            }
        }
    };
}

words! {
    /// A method of fishing.
    Method {
        TightLine "tight-line" "Weighted flies on a leader held clear of the water, in touch all the way."
        Float "float" "Flies under a float that carries them."
        DryDropper "dry-dropper" "A dry fly that carries a sunk one."
        Team "team" "Two or more wet flies on tags, fished across and down."
        Dry "dry" "A floating fly on a tapered leader."
        Streamer "streamer" "A large fly moved against or across the stream."
    }
}

words! {
    /// How the flies are laid on the water.
    Cast {
        Tuck "tuck" "The flies drop in first, line slack above them."
        Up "up" "Straight, upstream along the surface."
        Down "down" "Straight, downstream along the surface."
    }
}

words! {
    /// Where the rod tip is, seen from the flies.
    Stands {
        Upstream "upstream" "The tip is upstream of the flies, and holds them back where it pulls."
        Downstream "downstream" "The tip is downstream of the flies, and draws them on where it pulls."
    }
}

words! {
    /// Which way the wind blows.
    Blows {
        Up "up" "Up the stream."
        Down "down" "Down the stream."
        Across "across" "Across the stream."
    }
}

words! {
    /// What a knot joins.
    Joined {
        Lines "lines" "Two pieces of line."
        Ring "ring" "Line to a tippet ring."
        Fly "fly" "Line to a fly's eye."
        Loops "loops" "Two loops."
        Tag "tag" "Leaves an end that carries a fly."
    }
}

pub(super) const TAGS: &[Named] = &[named("tags", "The cut ends of the knot that are left standing.")];
pub(super) const BEND: &[Named] = &[named("bend", "The line below leaves from the bend of the hook.")];
/// What a piece is made of that is of the same stuff as the one above.
pub const SAME: &[Named] = &[named("same", "Of what the piece above is made of.")];
pub(super) const FREE: &[Named] = &[named("free", "The rig goes with the water.")];
words! {
    /// What of the verdict on a rig hangs on a rule.
    Decides {
        Fishing "fishing" "Whether the rig fishes in its water."
        Standing "standing" "Whether one may stand in the water."
    }
}
words! {
    /// Which speed of a water was given.
    SpeedOf {
        Mean "mean" "The speed is the mean over the depth."
        Surface "surface" "The speed is that of the surface."
    }
}
words! {
    /// What a shot or a float sits over, where its line says how far.
    SitsOver {
        Point "point" "The fly at the end."
        Fly "fly" "The next fly below it."
        Dropper "dropper" "The next dropper's knot below it."
        Shot "shot" "The next shot below it."
    }
}
pub(super) const LEVELS: &[Named] = &[
    named("fault", "The rig must not stay so."),
    named("caution", "An expert would stop here."),
    named("advice", "Worth knowing."),
];
pub(super) const EACH: &[Named] = &[named("each", "The rule looks at each of these in turn.")];
pub(super) const THINGS: &[Named] = &[
    named("section", "A piece of line."),
    named("join", "Where two sections meet."),
    named("dropper", "A tag with its fly."),
    named("gap", "Two flies next to each other, and the line between."),
    named("fly", "A fly."),
    named("shot", "A shot."),
];

/// Whether a word names a colour: one of [`COLOURS`], alone or as the last part of a compound.
pub fn is_colour(word: &str) -> bool {
    let last = word.rsplit('-').next().unwrap_or(word);
    COLOURS.contains(&word) || COLOURS.contains(&last)
}
